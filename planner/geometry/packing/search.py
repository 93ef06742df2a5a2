"""Three and more round things in one opening: the best placement found from many starts."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import combinations
from math import hypot

import numpy as np

from planner.geometry.openings.opening_depth import Array, depths_mm
from planner.geometry.openings.opening_shape import SeenArcs, SeenOpening, SeenOutline
from planner.geometry.openings.outline_slices import is_without_dents
from planner.geometry.packing.contacts import Held, held_by_pushes
from planner.geometry.packing.growth import grow_from_starts
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.packing.polish import polish
from planner.geometry.packing.starts import even_starts, starts_for
from planner.geometry.packing.step import State
from planner.geometry.packing.work import MOST_WORK, Work

Points = tuple[tuple[float, float], ...]

_NEAR_NOTHING_MM = 0.15
"""Where the room found is this near to nothing, the last hundredth decides: it is sought from further starts, and more
of them are brought to the last digit."""
_MOST_SOUGHT_FURTHER = 3
_MOST_POLISHED_NEAR_NOTHING = 10
_NOT_YET_GROWN_MM = 0.01
_ROUGH_GAP_MM = 2e-3
_FINE_GAP_MM = 1e-5
ROUGH_WALLS = 8
FINE_WALLS = 128
_WORTH_POLISHING_MM = 0.1
_MOST_POLISHED = 4
_SAME_MM = 1e-3
_SAME_APART_MM = 0.02
_BETTER_MM = 1e-4
_SWAP_ROUNDS = 3
_FEWEST_TO_SWAP = 4
_MOST_SWAPPED = 3
_HOPELESS_MM = 0.04


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
    found = best_of_search(seen, sizes, search_placements(seen, sizes, _HOPELESS_MM, work), work)
    if isinstance(seen, SeenOutline) and found.growth_mm < -sizes.min():  # things less than nothing may lie in a heap
        middle = find_largest_disc(seen, most_work=most_work).centre_mm
        heap = measured_placement(seen, diameters_mm, np.array([middle] * len(sizes)))
        found = max(found, heap, key=lambda placement: placement.growth_mm)
    return replace(found, is_cut_short=work.is_out, work_rows=work.spent)


def search_placements(seen: SeenOpening, sizes: Array, hopeless_mm: float, work: Work) -> State:
    """Where all starts of a search end, near nothing from more of them; four and more things with any two swapped.

    sizes : outer diameters [mm]
    hopeless_mm : starts that promise so much less than the best has may be dropped
    work : told what it costs
    """
    usual_n, further_n = starts_for(seen, len(sizes))
    starts = even_starts(seen, count=len(sizes), starts=usual_n + further_n)
    state = grow_placements(seen, sizes, starts[:usual_n], work, hopeless_mm=hopeless_mm)
    if further_n and _asks_further(state) and not work.is_out:
        state = _together(state, grow_placements(seen, sizes, starts[usual_n:], work, hopeless_mm=hopeless_mm))
    for _ in range(_SWAP_ROUNDS if len(sizes) >= _FEWEST_TO_SWAP else 0):
        swapped = _swaps(state, sizes)
        if not len(swapped) or work.is_out:
            break
        further = grow_placements(seen, sizes, swapped, work, hopeless_mm=hopeless_mm)
        is_better = further.growth_mm.max() > state.growth_mm.max() + _BETTER_MM
        state = _together(state, further)
        if not is_better:
            break
    return state


def grow_placements(
    seen: SeenOpening,
    sizes: Array,
    starts: Array,
    work: Work,
    *,
    is_fine: bool = False,
    hopeless_mm: float = _HOPELESS_MM,
) -> State:
    """Things grown from some starts, between few walls about arcs or, near the end, between many.

    sizes : outer diameters [mm]
    starts : starts by things by (x, y) [mm]
    work : told what it costs
    is_fine : whether the starts are ends of an earlier search
    hopeless_mm : starts that promise so much less than the best has may be dropped
    """
    has_arcs = isinstance(seen, SeenArcs)
    return grow_from_starts(
        seen=seen,
        is_hull=_is_its_hull(seen),
        diameters_mm=sizes,
        starts_mm=starts,
        gap_mm=_ROUGH_GAP_MM if has_arcs and not is_fine else _FINE_GAP_MM,
        walls_per_quarter=FINE_WALLS if is_fine else ROUGH_WALLS,
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
    best = worth_a_look(state, most=_MOST_SWAPPED, within_mm=np.inf)
    return np.concatenate([state.centres_mm[index][orders] for index in best])


def _together(one: State, two: State) -> State:
    return State(
        centres_mm=np.concatenate([one.centres_mm, two.centres_mm]),
        growth_mm=np.concatenate([one.growth_mm, two.growth_mm]),
        push=np.concatenate([one.push, two.push]),
        link_count=one.link_count,
    )


def best_of_search(seen: SeenOpening, sizes: Array, state: State, work: Work) -> FoundPlacement:
    """The best of the few best, brought to the last digit; against walls about the arcs a start's growth is no less.

    sizes : outer diameters [mm]
    state : where the starts ended
    work : told what it costs
    """
    chosen = worth_a_look(state, most=_MOST_POLISHED, within_mm=_WORTH_POLISHING_MM)
    diameters = tuple(sizes.tolist())
    best = measured_placement(seen, diameters, state.centres_mm[chosen[0]])
    promised_too_much = 0.0
    for index in chosen:
        promise = float(state.growth_mm[index]) + _ROUGH_GAP_MM
        if not isinstance(seen, SeenArcs) or promise < best.growth_mm or work.is_out:
            break
        rough = measured_placement(seen, diameters, state.centres_mm[index])
        tries = [rough, polished_placement(seen, diameters, state, index=index, walls_per_quarter=ROUGH_WALLS)]
        if tries[1].growth_mm >= rough.growth_mm:
            promised_too_much = max(promised_too_much, promise - tries[1].growth_mm)
        elif promise - promised_too_much / 2 > best.growth_mm:
            fine = grow_placements(seen, sizes, state.centres_mm[index : index + 1], work, is_fine=True)
            tries += [
                measured_placement(seen, diameters, fine.centres_mm[0]),
                polished_placement(seen, diameters, fine, index=0, walls_per_quarter=FINE_WALLS),
            ]
        best = max([best, *tries], key=lambda placement: placement.growth_mm)
    if isinstance(seen, SeenArcs) and _asks_further(state) and not work.is_out:
        best = max([best, *_finely_polished(seen, sizes, state, best, work)], key=lambda placement: placement.growth_mm)
    return best


def _asks_further(state: State) -> bool:
    is_near_nothing = abs(float(state.growth_mm.max())) < _NEAR_NOTHING_MM
    return is_near_nothing and state.centres_mm.shape[1] <= _MOST_SOUGHT_FURTHER


def _finely_polished(
    seen: SeenArcs, sizes: Array, state: State, best: FoundPlacement, work: Work
) -> list[FoundPlacement]:
    """Every start that promises more, grown on between finer walls: rough ones may name a wrong contact."""
    chosen = worth_a_look(state, most=_MOST_POLISHED_NEAR_NOTHING, within_mm=_WORTH_POLISHING_MM)
    promising = [index for index in chosen if state.growth_mm[index] + _ROUGH_GAP_MM > best.growth_mm + _BETTER_MM]
    if not promising:
        return []
    fine = grow_placements(seen, sizes, state.centres_mm[promising], work, is_fine=True)
    better = [
        place
        for place in worth_a_look(fine, most=len(promising), within_mm=_NOT_YET_GROWN_MM)
        if abs(fine.growth_mm[place] - best.growth_mm) > _SAME_MM
    ]
    diameters = tuple(sizes.tolist())
    return [polished_placement(seen, diameters, fine, index=place, walls_per_quarter=FINE_WALLS) for place in better]


def polished_placement(
    seen: SeenArcs, diameters: tuple[float, ...], state: State, *, index: int, walls_per_quarter: int
) -> FoundPlacement:
    """One start of a search moved to where its contacts hold it best, against the true arcs.

    diameters : outer diameters [mm]
    state : where the starts ended
    index : which of them
    walls_per_quarter : how many walls stood for each quarter of a turn there
    """
    held = held_by_pushes(seen=seen, state=state, index=index, walls_per_quarter=walls_per_quarter)
    held = polish(seen=seen, diameters_mm=diameters, held=held)
    return replace(measured_placement(seen, diameters, np.array(held.centres_mm)), held=held)


def measured_placement(seen: SeenOpening, diameters: tuple[float, ...], centres: Array) -> FoundPlacement:
    """Things where they lie, with the growth that this proves.

    diameters : outer diameters [mm]
    centres : one row (x, y) for each thing [mm]
    """
    growth = growth_of_placement(seen=seen, diameters_mm=diameters, centres_mm=centres)
    return FoundPlacement(growth_mm=growth, centres_mm=tuple((float(x), float(y)) for x, y in centres))


def worth_a_look(state: State, *, most: int, within_mm: float) -> list[int]:
    """The best few starts that ended differently; mirror images, turned ones too, have all things equally far apart.

    Returns their places in the state, the best first.

    most : how many at most
    within_mm : how much less growth than the best still counts
    """
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
