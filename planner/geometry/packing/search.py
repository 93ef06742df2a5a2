"""Three and more round things in one opening: the best placement found from many starts."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations
from math import hypot

import numpy as np

from planner.geometry.openings.opening_depth import Array, depths_mm, outline_edges
from planner.geometry.openings.opening_shape import SeenArcs, SeenOpening, SeenOutline
from planner.geometry.openings.outline_slices import is_without_dents
from planner.geometry.packing.contacts import Held, held_by_pushes
from planner.geometry.packing.growth import grow_from_starts
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.packing.polish import polish
from planner.geometry.packing.step import State
from planner.geometry.packing.walls import walls_about
from planner.geometry.packing.work import MOST_WORK, Work

Points = tuple[tuple[float, float], ...]

_STARTS_FOR_COUNT = {1: 8, 2: 24, 3: 20, 4: 24}
_STARTS_FOR_MORE = 32
_STARTS_OF_THREE_IN_OUTLINE = 60
"""Between the dents of a traced hole three things have more ways to lie: with 20 starts one in ten was up to 0.27 mm
short of the best."""
_ROUGH_GAP_MM = 2e-3
_FINE_GAP_MM = 1e-5
_ROUGH_WALLS = 8
_FINE_WALLS = 128
_WORTH_POLISHING_MM = 0.1
_MOST_POLISHED = 4
_SAME_MM = 1e-3
_SAME_APART_MM = 0.02
_BETTER_MM = 1e-4
_SPREAD_RATIO = 0.8
_POINTS_TO_CHOOSE_FROM = 512
_SWAP_ROUNDS = 3
_FEWEST_TO_SWAP = 4
_MOST_SWAPPED = 3
_HOPELESS_MM = 0.04
_INSIDE_MM = 1e-6
_BESIDE_MM = 1e-4


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundPlacement:
    """The best placement found.

    growth_mm : how much every diameter can grow there [mm]
    centres_mm : where the things lie, in the order given [mm]
    held : what holds them there; None where that was not looked into
    is_cut_short : whether the work allowed ran out before the search had ended
    work_rows : what finding it cost
    """

    growth_mm: float
    centres_mm: Points
    held: Held | None = None
    is_cut_short: bool = False
    work_rows: int = 0


def growth_of_placement(*, seen: SeenOpening, diameters_mm: Sequence[float], centres_mm: Array) -> float:
    """How much every diameter can grow where the things lie, before one touches another or the edge.

    Returns below zero where they overlap. [mm]

    seen : the opening as the line sees it
    centres_mm : one row (x, y) for each thing

    Source: plane geometry, derived.
    """
    growth = min(
        2 * depth - size for depth, size in zip(depths_mm(seen=seen, points_mm=centres_mm), diameters_mm, strict=True)
    )
    for (one, (x1, y1)), (two, (x2, y2)) in combinations(zip(diameters_mm, centres_mm.tolist(), strict=True), 2):
        growth = min(growth, hypot(x1 - x2, y1 - y2) - (one + two) / 2)
    return float(growth)


@lru_cache(maxsize=8192)
def find_placement(seen: SeenOpening, diameters_mm: tuple[float, ...], *, most_work: int = MOST_WORK) -> FoundPlacement:
    """The best placement of several things that a fixed set of starts leads to.

    Nothing is left to chance: the starts are evenly spread over the opening, the same each time. The best few are tried
    again with any two things swapped, for as long as that helps.

    Returns what it holds is proven by itself; that no better one exists is not.

    seen : the opening as the line sees it; something is left of it
    most_work : rows that may be looked at

    Source: M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018, for the even spread; from
    memory.
    """
    sizes, work = np.array(diameters_mm, dtype=np.float64), Work(most_work)
    found = _best_of(seen, sizes, _search(seen, sizes, _HOPELESS_MM, work), work)
    if isinstance(seen, SeenOutline) and found.growth_mm < -sizes.min():  # things less than nothing may lie in a heap
        middle = find_largest_disc(seen, most_work=most_work).centre_mm
        heap = _measured(seen, diameters_mm, np.array([middle] * len(sizes)))
        found = max(found, heap, key=lambda placement: placement.growth_mm)
    return replace(found, is_cut_short=work.is_out, work_rows=work.spent)


@lru_cache(maxsize=512)
def find_placements(
    seen: SeenOpening, diameters_mm: tuple[float, ...], *, within_mm: float, most_work: int = MOST_WORK
) -> tuple[FoundPlacement, ...]:
    """The best placement and the few next best that differ, nearly as good as it: with other sizes one may be better.

    Returns at most four, the best first.

    seen : the opening as the line sees it; something is left of it
    within_mm : how much less growth still counts as nearly as good
    most_work : rows that may be looked at
    """
    sizes = np.array(diameters_mm, dtype=np.float64)
    state = _search(seen, sizes, within_mm, Work(most_work))
    others = []
    for index in _worth_a_look(state, most=_MOST_POLISHED, within_mm=within_mm):
        other = _measured(seen, diameters_mm, state.centres_mm[index])
        if isinstance(seen, SeenArcs):
            polished = _polished(seen, diameters_mm, state, index, _ROUGH_WALLS)
            other = max(other, polished, key=lambda placement: placement.growth_mm)
        others.append(other)
    return (find_placement(seen, diameters_mm, most_work=most_work), *others)[:_MOST_POLISHED]


def _search(seen: SeenOpening, sizes: Array, hopeless_mm: float, work: Work) -> State:
    state = _grow(seen, sizes, _even_starts(seen, len(sizes)), work, hopeless_mm=hopeless_mm)
    for _ in range(_SWAP_ROUNDS if len(sizes) >= _FEWEST_TO_SWAP else 0):
        swapped = _swaps(state, sizes)
        if not len(swapped) or work.is_out:
            break
        further = _grow(seen, sizes, swapped, work, hopeless_mm=hopeless_mm)
        is_better = further.growth_mm.max() > state.growth_mm.max() + _BETTER_MM
        state = _together(state, further)
        if not is_better:
            break
    return state


def follow_placements(
    *,
    seen: SeenOpening,
    diameters_mm: tuple[float, ...],
    found: Sequence[FoundPlacement],
    most_work: int = MOST_WORK,
) -> FoundPlacement:
    """The placement of nearly the same things in nearly the same opening, from those already found.

    Returns the best thereabouts; proven by itself.

    seen : the opening as the line sees it now
    diameters_mm : outer diameters now, in the same order
    found : where the things lay before; one or more
    most_work : rows that may be looked at
    """
    followed = [_followed_by_contacts(seen, diameters_mm, one) for one in found]
    placed = [one for one in followed if one is not None]
    left = [one for one, then in zip(found, followed, strict=True) if then is None]
    work = Work(most_work)
    if left:
        placed += _grown_further(seen, diameters_mm, left, work)
    return replace(max(placed, key=lambda placement: placement.growth_mm), work_rows=work.spent)


def _followed_by_contacts(
    seen: SeenOpening, diameters_mm: tuple[float, ...], found: FoundPlacement
) -> FoundPlacement | None:
    """Moved to where the same contacts hold it; None where that leads nowhere."""
    if not isinstance(seen, SeenArcs) or found.held is None or not found.held.is_settled:
        return None
    held = polish(seen=seen, diameters_mm=diameters_mm, held=found.held)
    return replace(_measured(seen, diameters_mm, np.array(held.centres_mm)), held=held) if held.is_settled else None


def _grown_further(
    seen: SeenOpening, diameters_mm: tuple[float, ...], found: Sequence[FoundPlacement], work: Work
) -> list[FoundPlacement]:
    """Grown from where the things lay, all at once; searched anew where a hole no longer holds them there."""
    sizes, starts = np.array(diameters_mm, dtype=np.float64), np.array([one.centres_mm for one in found])
    for start, one in zip(starts, found, strict=True):
        if len(set(one.centres_mm)) < len(start):
            start += _even_points(*start.shape) * _BESIDE_MM
    placed = [_measured(seen, diameters_mm, start) for start in starts]
    inside = np.ones(len(starts), dtype=np.bool_)
    if isinstance(seen, SeenOutline):
        depth = depths_mm(seen=seen, points_mm=starts.reshape(-1, 2)).reshape(starts.shape[:2])
        inside = depth.min(axis=1) >= _INSIDE_MM
    if not inside.all():
        anew = find_placement(seen, diameters_mm, most_work=work.left)
        work.spend(anew.work_rows)
        placed.append(anew)
    if inside.any():
        best = _best_of(seen, sizes, _grow(seen, sizes, starts[inside], work), work)
        placed.append(replace(best, is_cut_short=work.is_out))
    return placed


def _grow(
    seen: SeenOpening,
    sizes: Array,
    starts: Array,
    work: Work,
    *,
    is_fine: bool = False,
    hopeless_mm: float = _HOPELESS_MM,
) -> State:
    has_arcs = isinstance(seen, SeenArcs)
    return grow_from_starts(
        seen=seen,
        is_hull=_is_its_hull(seen),
        diameters_mm=sizes,
        starts_mm=starts,
        gap_mm=_ROUGH_GAP_MM if has_arcs and not is_fine else _FINE_GAP_MM,
        walls_per_quarter=_FINE_WALLS if is_fine else _ROUGH_WALLS,
        is_near_end=is_fine,
        hopeless_mm=hopeless_mm,
        work=work,
    )


def _is_its_hull(seen: SeenOpening) -> bool:
    return isinstance(seen, SeenArcs) or (len(seen.parts_mm) == 1 and is_without_dents(seen.parts_mm[0]))


def _swaps(state: State, sizes: Array) -> Array:
    """The best few placements with any two unequal things swapped."""
    first, second = np.triu_indices(len(sizes), 1)
    is_unequal = sizes[first] != sizes[second]
    orders = np.tile(np.arange(len(sizes)), (int(is_unequal.sum()), 1))
    rows = np.arange(len(orders))
    orders[rows, first[is_unequal]], orders[rows, second[is_unequal]] = second[is_unequal], first[is_unequal]
    best = _worth_a_look(state, most=_MOST_SWAPPED, within_mm=np.inf)
    return np.concatenate([state.centres_mm[index][orders] for index in best])


def _together(one: State, two: State) -> State:
    return State(
        centres_mm=np.concatenate([one.centres_mm, two.centres_mm]),
        growth_mm=np.concatenate([one.growth_mm, two.growth_mm]),
        push=np.concatenate([one.push, two.push]),
        link_count=one.link_count,
    )


def _best_of(seen: SeenOpening, sizes: Array, state: State, work: Work) -> FoundPlacement:
    """The best of the few best, brought to the last digit; against walls about the arcs a start's growth is no less."""
    chosen = _worth_a_look(state, most=_MOST_POLISHED, within_mm=_WORTH_POLISHING_MM)
    diameters = tuple(sizes.tolist())
    best = _measured(seen, diameters, state.centres_mm[chosen[0]])
    promised_too_much = 0.0
    for index in chosen:
        promise = float(state.growth_mm[index]) + _ROUGH_GAP_MM
        if not isinstance(seen, SeenArcs) or promise < best.growth_mm or work.is_out:
            break
        rough = _measured(seen, diameters, state.centres_mm[index])
        tries = [rough, _polished(seen, diameters, state, index, _ROUGH_WALLS)]
        if tries[1].growth_mm >= rough.growth_mm:
            promised_too_much = max(promised_too_much, promise - tries[1].growth_mm)
        elif promise - promised_too_much / 2 > best.growth_mm:
            fine = _grow(seen, sizes, state.centres_mm[index : index + 1], work, is_fine=True)
            tries += [_measured(seen, diameters, fine.centres_mm[0]), _polished(seen, diameters, fine, 0, _FINE_WALLS)]
        best = max([best, *tries], key=lambda placement: placement.growth_mm)
    return best


def _polished(
    seen: SeenArcs, diameters: tuple[float, ...], state: State, index: int, walls_per_quarter: int
) -> FoundPlacement:
    held = held_by_pushes(seen=seen, state=state, index=index, walls_per_quarter=walls_per_quarter)
    held = polish(seen=seen, diameters_mm=diameters, held=held)
    return replace(_measured(seen, diameters, np.array(held.centres_mm)), held=held)


def _measured(seen: SeenOpening, diameters: tuple[float, ...], centres: Array) -> FoundPlacement:
    growth = growth_of_placement(seen=seen, diameters_mm=diameters, centres_mm=centres)
    return FoundPlacement(growth_mm=growth, centres_mm=tuple((float(x), float(y)) for x, y in centres))


def _worth_a_look(state: State, *, most: int, within_mm: float) -> list[int]:
    """The best few starts that ended differently; mirror images, turned ones too, have all things equally far apart."""
    growth, centres = state.growth_mm, state.centres_mm
    first, second = np.triu_indices(centres.shape[1], 1)
    apart = np.sqrt(((centres[:, first] - centres[:, second]) ** 2).sum(-1))
    chosen: list[int] = []
    for index in np.argsort(-growth, kind="stable").tolist():
        if growth[index] < growth.max() - within_mm or len(chosen) == most:
            break
        if all(
            abs(growth[index] - growth[other]) > _SAME_MM
            or np.abs(apart[index] - apart[other]).max(initial=0.0) > _SAME_APART_MM
            for other in chosen
        ):
            chosen.append(index)
    return chosen


def _even_starts(seen: SeenOpening, count: int) -> Array:
    starts = _STARTS_FOR_COUNT.get(count, _STARTS_FOR_MORE)
    if count == 3 and isinstance(seen, SeenOutline):
        starts = _STARTS_OF_THREE_IN_OUTLINE
    if isinstance(seen, SeenArcs):
        walls = walls_about(seen, 1)
        half = walls.reach_mm[:2]
        return (_even_points(starts, 2 * count).reshape(starts, count, 2) - 0.5) * 2 * half * _SPREAD_RATIO
    corners, _ = outline_edges(seen.parts_mm)
    low, high = corners.min(axis=0), corners.max(axis=0)
    points = low + _even_points(_POINTS_TO_CHOOSE_FROM, 2) * (high - low)
    inside = points[depths_mm(seen=seen, points_mm=points) > 0]
    if len(inside) < count:
        inside = np.array(find_largest_disc(seen).centre_mm) + (_even_points(64, 2) - 0.5) * 1e-3
    inside = inside[np.lexsort((inside[:, 1], inside[:, 0]))]
    chosen = (_even_points(starts, count) * len(inside)).astype(np.intp)
    # no two things may start in one place: the second of two is put a little beside
    return np.asarray(inside[chosen] + _even_points(starts * count, 2).reshape(starts, count, 2) * _BESIDE_MM)


@lru_cache(maxsize=256)
def _even_points(count: int, dimensions: int) -> Array:
    """Points stepped through a box of side 1, coordinate by coordinate, by powers of 1/x where x^(d+1) = x + 1."""
    ratio = 2.0
    for _ in range(40):
        ratio = (1 + ratio) ** (1 / (dimensions + 1))
    points: Array = (0.5 + np.outer(np.arange(1, count + 1), ratio ** -np.arange(1.0, dimensions + 1))) % 1
    points.flags.writeable = False  # the same for whoever asks
    return points
