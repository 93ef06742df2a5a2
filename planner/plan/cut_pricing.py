"""Which pieces of given worth fill a length of stock best, for all lengths of stock at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import gcd

import numpy as np
from numpy.typing import NDArray

from planner.plan.cut_patterns import Counts, CutProblem

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class Priced:
    """The fillings worth most.

    counts : for each kind of stock, how many pieces of each size; they fit
    worth : of each of them
    worth_at_most : for each kind of stock, no filling is worth more
    """

    counts: tuple[Counts, ...]
    worth: Array
    worth_at_most: Array


class FillingTable:
    """A table over all lengths up to the longest stock, in the largest step that all sizes are multiples of.

    Where that would take more steps than allowed, lengths are rounded to coarser ones: sizes up, so that what is found
    fits, and down, so that the bound holds.

    Source: the bounded knapsack by a table over capacities, copies in powers of two; textbook, from memory.
    """

    def __init__(self, problem: CutProblem, *, cells_at_most: int) -> None:
        step = gcd(*problem.sizes)
        self._sizes = [size // step for size in problem.sizes]
        self._rooms = [room // step for room in problem.rooms]
        self._most = [
            min(demand, max(self._rooms) // size) for demand, size in zip(problem.demands, self._sizes, strict=True)
        ]
        copies_n = sum(most.bit_length() for most in self._most)
        self._coarse = -(-max(self._rooms) * max(copies_n, 1) // max(cells_at_most, 1))
        self.cells = copies_n * (max(self._rooms) // max(self._coarse, 1) + 1)

    def price(self, values: Array) -> Priced:
        """The fillings of every kind of stock that are worth most.

        values : what a piece of each size is worth; none below zero
        """
        if self._coarse <= 1:
            counts, worth = _best_fillings(self._sizes, self._most, self._rooms, values)
            return Priced(counts=counts, worth=worth, worth_at_most=worth)
        rooms = [room // self._coarse for room in self._rooms]
        counts, worth = _best_fillings([-(-size // self._coarse) for size in self._sizes], self._most, rooms, values)
        _, bound = _best_fillings([size // self._coarse for size in self._sizes], self._most, rooms, values)
        return Priced(counts=counts, worth=worth, worth_at_most=bound)


def _best_fillings(
    sizes: Sequence[int], most: Sequence[int], rooms: Sequence[int], values: Array
) -> tuple[tuple[Counts, ...], Array]:
    best = np.zeros(max(rooms) + 1)
    taken: list[tuple[int, int, int, NDArray[np.bool_]]] = []
    for index, (size, count) in enumerate(zip(sizes, most, strict=True)):
        for copies in _powers(count) if values[index] > 0 else ():
            weight = size * copies
            if weight >= len(best):
                break
            with_it = best[: len(best) - weight] + values[index] * copies
            is_better = with_it > best[weight:]
            best[weight:] = np.where(is_better, with_it, best[weight:])
            taken.append((index, copies, weight, is_better))
    left = np.array(rooms)
    counts = np.zeros((len(rooms), len(sizes)), dtype=np.int64)
    for index, copies, weight, is_better in reversed(taken):
        place = left - weight
        takes = (place >= 0) & is_better[np.maximum(place, 0)]
        counts[takes, index] += copies
        left[takes] -= weight
    return tuple(tuple(row) for row in counts.tolist()), best[np.array(rooms)]


def _powers(count: int) -> list[int]:
    """Parts of a count of which every smaller count is a sum."""
    parts: list[int] = []
    step = 1
    while count > 0:
        parts.append(min(step, count))
        count -= parts[-1]
        step *= 2
    return parts
