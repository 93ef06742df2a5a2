"""The worst of several answers at once, for many pieces and steps: outcome first, then what is missing."""

from dataclasses import dataclass

import numpy as np

from planner.table.pieces import Array
from planner.verdicts import Outcome


@dataclass(slots=True)
class Worst:
    """The worst answer so far in each cell.

    outcomes : of all that was asked
    missing_mm : of the worst that fails or is not proven; minus infinite where nothing does [mm]
    """

    outcomes: Array
    missing_mm: Array

    def take(self, where: tuple[Array | slice, int] | slice, outcomes: Array, missing_mm: Array) -> None:
        """Count answers in."""
        before, before_mm = self.outcomes[where], self.missing_mm[where]
        is_failing = outcomes >= Outcome.UNKNOWN
        is_worse = is_failing & ((outcomes > before) | (missing_mm > before_mm) & (outcomes == before))
        self.missing_mm[where] = np.where(is_worse, missing_mm, before_mm)
        self.outcomes[where] = np.maximum(before, outcomes)

    def rows(self, numbers: Array) -> "Worst":
        """Some rows, in a given order."""
        return Worst(self.outcomes[numbers], self.missing_mm[numbers])


def nothing_asked(*shape: int) -> Worst:
    """Cells that nothing was asked about."""
    return Worst(np.zeros(shape, np.int8), np.full(shape, -np.inf))


def worst_of_three(first: Worst, second: Worst, third: Worst) -> Worst:
    """Cell by cell."""
    found = Worst(first.outcomes.copy(), first.missing_mm.copy())
    for other in (second, third):
        found.take(slice(None), other.outcomes, other.missing_mm)
    return found
