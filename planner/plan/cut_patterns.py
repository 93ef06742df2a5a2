"""Ways of cutting one length of stock into pieces, counted in whole units so that sums are exact."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import gcd

Counts = tuple[int, ...]

STEPS_AT_MOST = 50_000
"""Lengths are told apart to this part of a length of stock while one is filled quickly."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CutProblem:
    """Pieces of one line and the stock they come from, in whole units of length.

    sizes : what a piece takes, its saw cut included, one for each different length, longest first
    demands : how many of each are wanted
    rooms : what a length of stock offers, one saw cut included (the last piece needs none)
    supplies : how many there are of each; None for as many as wanted
    are_rolls : whether opening one counts as opening a roll; False for offcuts
    saw_cut : what one cut takes
    keep_from : an end piece from this length on is kept; None where none is kept
    """

    sizes: tuple[int, ...]
    demands: tuple[int, ...]
    rooms: tuple[int, ...]
    supplies: tuple[int | None, ...]
    are_rolls: tuple[bool, ...]
    saw_cut: int = 0
    keep_from: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """One way of cutting one kind of stock.

    stock : index of the stock
    counts : pieces of each size cut from it
    """

    stock: int
    counts: Counts


def leftover_of(*, problem: CutProblem, pattern: Pattern) -> int:
    """What is left at the end of a length cut this way; a rest thinner than the saw is gone.

    Returns units of length, 0 or more.

    problem : sizes and stock
    pattern : the way it is cut
    """
    used = sum(size * count for size, count in zip(problem.sizes, pattern.counts, strict=True))
    rest = problem.rooms[pattern.stock] - problem.saw_cut - used
    return rest if rest > 0 else 0


def scrap_of(*, problem: CutProblem, pattern: Pattern) -> int:
    """The part of the leftover that is too short to keep.

    Returns units of length, 0 where the end piece is kept.

    problem : sizes, stock and what is kept
    pattern : the way it is cut
    """
    leftover = leftover_of(problem=problem, pattern=pattern)
    is_kept = problem.keep_from is not None and leftover >= problem.keep_from
    return 0 if is_kept else leftover


def find_patterns(*, problem: CutProblem, only_full: bool, at_most: int) -> tuple[Pattern, ...] | None:
    """Every way of cutting every kind of stock, or None when there are too many to list.

    Returns in a fixed order; the empty pattern is never among them.

    problem : sizes and stock
    only_full : whether to leave out those to which another wanted piece could be added: the others are as good as
        some of these as long as only the number of lengths counts
    at_most : how many may be listed

    Source: P. C. Gilmore, R. E. Gomory, "A linear programming approach to the cutting-stock problem", Operations
    Research 9 (1961) 849-859 (from memory): the problem stated by patterns.
    """
    found: list[Pattern] = []
    for stock, room in enumerate(problem.rooms):
        for counts in _fillings(problem.sizes, problem.demands, room, only_full=only_full):
            if any(counts):
                found.append(Pattern(stock=stock, counts=counts))
            if len(found) > at_most:
                return None
    return tuple(found)


def _fillings(sizes: tuple[int, ...], demands: tuple[int, ...], room: int, *, only_full: bool) -> Iterator[Counts]:
    """Depth first over the sizes, longest first; `smallest_open` is the smallest piece that was held back so far."""
    stack: list[tuple[Counts, int, int | None]] = [((), room, None)]
    while stack:
        counts, rest, smallest_open = stack.pop()
        index = len(counts)
        if index == len(sizes):
            if not only_full or smallest_open is None or smallest_open > rest:
                yield counts
            continue
        most = min(demands[index], rest // sizes[index])
        for count in range(most + 1):
            could_take_more = count < demands[index]
            still_open = sizes[index] if could_take_more else smallest_open
            stack.append(((*counts, count), rest - count * sizes[index], still_open))


def fill_fullest(*, sizes: tuple[int, ...], left: Counts, room: int) -> Counts:
    """The pieces, among those left, that fill one length of stock as far as possible, to a 50,000th of it.

    Returns how many of each to cut; among equally full ones the one with the longest pieces.

    sizes : what a piece of each size takes, longest first
    left : how many of each are left; some are
    room : what the length of stock offers
    """
    step = max(gcd(*sizes), -(-room // STEPS_AT_MOST))
    if room < min(size for size, have in zip(sizes, left, strict=True) if have):
        return (0,) * len(sizes)
    longest = next(index for index, size in enumerate(sizes) if left[index] and size <= room)
    alone = tuple(int(index == longest) for index in range(len(sizes)))
    longest_size, told_sizes = sizes[longest], sizes
    sizes, room = tuple(-(-size // step) for size in sizes), room // step
    limit = (1 << (room + 1)) - 1
    reachable = [1]
    copies = [index for index, size in enumerate(sizes) for _ in range(min(left[index], room // size))][::-1]
    for index in copies:
        reachable.append((reachable[-1] | reachable[-1] << sizes[index]) & limit)
    total = reachable[-1].bit_length() - 1
    counts = [0] * len(sizes)
    for step in range(len(copies), 0, -1):
        size = sizes[copies[step - 1]]
        if total >= size and reachable[step - 1] >> (total - size) & 1:
            counts[copies[step - 1]] += 1
            total -= size
    filled = sum(count * size for count, size in zip(counts, told_sizes, strict=True))
    return tuple(counts) if filled >= longest_size else alone  # rounded up to steps, the longest may seem not to fit


def cut_greedily(*, problem: CutProblem) -> tuple[tuple[Pattern, ...], Counts]:
    """A quick way of cutting: offcuts first, shortest first, then the longest rolls, each filled as full as it goes.

    Returns one pattern for each length opened, and the pieces of each size left uncut.

    problem : sizes and stock
    """
    by_use = sorted(
        range(len(problem.rooms)),
        key=lambda stock: (problem.are_rolls[stock], problem.rooms[stock] * (-1 if problem.are_rolls[stock] else 1)),
    )
    left, bins = problem.demands, []
    for stock in by_use:
        opened = 0
        while any(left) and (problem.supplies[stock] is None or opened < (problem.supplies[stock] or 0)):
            counts = fill_fullest(sizes=problem.sizes, left=left, room=problem.rooms[stock])
            if not any(counts):
                break
            bins.append(Pattern(stock=stock, counts=counts))
            left = tuple(have - take for have, take in zip(left, counts, strict=True))
            opened += 1
    return tuple(bins), left
