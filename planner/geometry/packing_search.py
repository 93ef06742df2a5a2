"""Three and more round things in one opening: the best placement found from many starts."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from planner.geometry.opening_depth import Array, depths_mm, outline_edges
from planner.geometry.opening_shape import SeenArcs, SeenOpening, SeenOutline
from planner.geometry.packing_growth import grow_from_starts
from planner.geometry.packing_one import find_largest_disc
from planner.geometry.packing_polish import contacts_of, polish
from planner.geometry.packing_step import State
from planner.geometry.packing_walls import walls_about

Points = tuple[tuple[float, float], ...]

_STARTS_FOR_COUNT = {1: 4, 2: 6, 3: 12, 4: 24}
_STARTS_FOR_MORE = 32
_ROUGH_GAP_MM = 2e-3
_FINE_GAP_MM = 1e-5
_ROUGH_WALLS = 8
_FINE_WALLS = 128
_WORTH_POLISHING_MM = 0.1
_MOST_POLISHED = 4
_SAME_MM = 1e-4
_SPREAD_RATIO = 0.8
_SWAP_ROUNDS = 3
_MOST_SWAPPED = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class FoundPlacement:
    """The best placement found.

    growth_mm : how much every diameter can grow there [mm]
    centres_mm : where the things lie, in the order given [mm]
    """

    growth_mm: float
    centres_mm: Points


def growth_of_placement(*, seen: SeenOpening, diameters_mm: Sequence[float], centres_mm: Array) -> float:
    """How much every diameter can grow where the things lie, before one touches another or the edge.

    Parameters
    ----------
    seen : SeenOpening
        The opening as the line sees it.
    diameters_mm : sequence of float
        Outer diameters. [mm]
    centres_mm : Array
        One row (x, y) for each thing. [mm]

    Returns
    -------
    float
        Below zero where they overlap. [mm]

    References
    ----------
    Plane geometry; no outside source needed.
    """
    sizes = np.asarray(diameters_mm)
    growth = float((2 * depths_mm(seen=seen, points_mm=centres_mm) - sizes).min())
    first, second = np.triu_indices(len(sizes), 1)
    if len(first):
        apart = np.hypot(*(centres_mm[first] - centres_mm[second]).T)
        growth = min(growth, float((apart - (sizes[first] + sizes[second]) / 2).min()))
    return growth


def find_placement(
    *, seen: SeenOpening, diameters_mm: Sequence[float], near_mm: tuple[Points, ...] = ()
) -> FoundPlacement:
    """The best placement of several things that a fixed set of starts leads to.

    Nothing is left to chance: the starts are evenly spread over the opening, the same each time.

    Parameters
    ----------
    seen : SeenOpening
        The opening as the line sees it.
    diameters_mm : sequence of float
        Outer diameters. [mm]
    near_mm : tuple of placements
        Where to start instead, such as placements of nearly the same things. [mm]

    Returns
    -------
    FoundPlacement
        What it holds is proven by itself; that no better one exists is not.

    References
    ----------
    M. Roberts, "The unreasonable effectiveness of quasirandom sequences", 2018, for the even spread; from memory.
    """
    sizes = np.array(diameters_mm, dtype=np.float64)
    starts = np.array(near_mm) if near_mm else _even_starts(seen, len(sizes))
    state = _grow(seen, sizes, starts)
    if not near_mm:
        for _ in range(_SWAP_ROUNDS):
            swapped = _swaps(state, sizes)
            if not len(swapped):
                break
            further = _grow(seen, sizes, swapped)
            is_better = further.growth_mm.max() > state.growth_mm.max() + _SAME_MM
            state = _together(state, further)
            if not is_better:
                break
    return _best_of(seen, sizes, state)


def _grow(seen: SeenOpening, sizes: Array, starts: Array, *, is_fine: bool = False) -> State:
    has_arcs = isinstance(seen, SeenArcs)
    return grow_from_starts(
        seen=seen,
        is_hull=has_arcs or is_convex(seen),
        diameters_mm=sizes,
        starts_mm=starts,
        gap_mm=_ROUGH_GAP_MM if has_arcs and not is_fine else _FINE_GAP_MM,
        walls_per_quarter=_FINE_WALLS if is_fine else _ROUGH_WALLS,
    )


def _swaps(state: State, sizes: Array) -> Array:
    """The best few placements with any two unequal things swapped."""
    first, second = np.triu_indices(len(sizes), 1)
    is_unequal = sizes[first] != sizes[second]
    orders = np.tile(np.arange(len(sizes)), (int(is_unequal.sum()), 1))
    rows = np.arange(len(orders))
    orders[rows, first[is_unequal]], orders[rows, second[is_unequal]] = second[is_unequal], first[is_unequal]
    best = _worth_a_look(state.growth_mm, most=_MOST_SWAPPED, within_mm=np.inf)
    return np.concatenate([state.centres_mm[index][orders] for index in best])


def _together(one: State, two: State) -> State:
    return State(
        centres_mm=np.concatenate([one.centres_mm, two.centres_mm]),
        growth_mm=np.concatenate([one.growth_mm, two.growth_mm]),
        link_push=np.concatenate([one.link_push, two.link_push]),
        wall_push=np.concatenate([one.wall_push, two.wall_push]),
    )


def _best_of(seen: SeenOpening, sizes: Array, state: State) -> FoundPlacement:
    """The best of the few best, brought to the last digit; against walls about the arcs a start's growth is no less."""
    chosen = _worth_a_look(state.growth_mm, most=_MOST_POLISHED, within_mm=_WORTH_POLISHING_MM)
    best = _measured(seen, sizes, state.centres_mm[chosen[0]])
    for index in chosen:
        if not isinstance(seen, SeenArcs) or state.growth_mm[index] + _ROUGH_GAP_MM < best.growth_mm:
            break
        rough = _measured(seen, sizes, state.centres_mm[index])
        tries = [rough, _polished(seen, sizes, state, index, _ROUGH_WALLS)]
        if tries[1].growth_mm < rough.growth_mm:
            fine = _grow(seen, sizes, state.centres_mm[index : index + 1], is_fine=True)
            tries += [_measured(seen, sizes, fine.centres_mm[0]), _polished(seen, sizes, fine, 0, _FINE_WALLS)]
        best = max([best, *tries], key=lambda placement: placement.growth_mm)
    return best


def _polished(seen: SeenArcs, sizes: Array, state: State, index: int, walls_per_quarter: int) -> FoundPlacement:
    contacts = contacts_of(seen=seen, state=state, index=index, walls_per_quarter=walls_per_quarter)
    centres = polish(seen=seen, diameters_mm=sizes, centres_mm=state.centres_mm[index], contacts=contacts)
    return _measured(seen, sizes, centres)


def _measured(seen: SeenOpening, sizes: Array, centres: Array) -> FoundPlacement:
    growth = growth_of_placement(seen=seen, diameters_mm=sizes.tolist(), centres_mm=centres)
    return FoundPlacement(growth_mm=growth, centres_mm=tuple((float(x), float(y)) for x, y in centres))


@lru_cache(maxsize=256)
def is_convex(seen: SeenOutline) -> bool:
    """Whether an outline has no dent, so that it is the same as its hull.

    Parameters
    ----------
    seen : SeenOutline
        The outline as the line sees it.

    Returns
    -------
    bool
        True where every corner lies on the hull.

    References
    ----------
    Plane geometry; no outside source needed.
    """
    starts, ends = outline_edges(seen.points_mm)
    along = ends - starts
    turns = along[:, 0] * np.roll(along[:, 1], -1) - along[:, 1] * np.roll(along[:, 0], -1)
    return bool(np.all(turns >= 0) or np.all(turns <= 0))


def _worth_a_look(growth: Array, *, most: int, within_mm: float) -> list[int]:
    """The best few starts that ended differently; mirror images end alike."""
    chosen: list[int] = []
    for index in np.argsort(-growth, kind="stable").tolist():
        if growth[index] < growth.max() - within_mm or len(chosen) == most:
            break
        if all(abs(growth[index] - growth[other]) > _SAME_MM for other in chosen):
            chosen.append(index)
    return chosen


def _even_starts(seen: SeenOpening, count: int) -> Array:
    starts = _STARTS_FOR_COUNT.get(count, _STARTS_FOR_MORE)
    if isinstance(seen, SeenArcs):
        walls = walls_about(seen, 1)
        half = walls.reach_mm[:2]
        return (_even_points(starts, 2 * count).reshape(starts, count, 2) - 0.5) * 2 * half * _SPREAD_RATIO
    corners, _ = outline_edges(seen.points_mm)
    low, high = corners.min(axis=0), corners.max(axis=0)
    points = low + _even_points(16 * starts * count, 2) * (high - low)
    inside = points[depths_mm(seen=seen, points_mm=points) > 0]
    if len(inside) < count:
        middle = np.array(find_largest_disc(seen).centre_mm)
        inside = middle + (_even_points(starts * count, 2) - 0.5) * 1e-3
    return np.resize(inside, (starts, count, 2))


def _even_points(count: int, dimensions: int) -> Array:
    """Points stepped through a box of side 1, coordinate by coordinate, by powers of 1/x where x^(d+1) = x + 1."""
    ratio = 2.0
    for _ in range(40):
        ratio = (1 + ratio) ** (1 / (dimensions + 1))
    return (0.5 + np.outer(np.arange(1, count + 1), ratio ** -np.arange(1.0, dimensions + 1))) % 1
