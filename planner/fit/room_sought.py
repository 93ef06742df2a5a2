"""The inverse question: how small may the hole be for these things, or how thick a thing still goes beside them?

Wanted is what a plain check wants for a yes: the shop's running clearance left in the worst case, every size of the
hole smaller by its tolerance and every thing thicker by its own. What is told as enough is proven by a placement; what
is told as too little is ruled out: exactly for one and two things, and for more as far as the bounds reach.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from math import floor, inf

from planner.errors import ImpossibleDimensionError
from planner.geometry.openings.opening_shape import opening_at_limit
from planner.geometry.packing.set_clearance import SetClearance, find_set_clearance
from planner.geometry.packing.work import MOST_WORK
from planner.parts import BoxOpening, Opening, RoundOpening, SlotOpening
from planner.quick_dataclass import dataclass
from planner.verdicts import Placement, Thing

STEP_MM = 1e-4
"""How finely sizes are sought."""

_DOUBLINGS = 14
_ROUNDS = 60
_FIRST_GAP_MM = 0.01
_WIDEST_GAP_MM = 3.0
_LEAST_MM = 1e-3
_ROUNDING_MM = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class SmallestOpening:
    """The smallest hole of one kind that takes some things.

    opening : the hole: as small as was found, proven to do
    size_mm : its diameter, or its length where the width was given [mm]
    none_below_mm : proven: nothing smaller than this does [mm]
    placement : where the things lie in it, each with room for its tolerance and the running clearance about it
    """

    opening: Opening
    size_mm: float
    none_below_mm: float
    placement: Placement


@dataclass(frozen=True, slots=True, kw_only=True)
class LargestItem:
    """The thickest thing that a hole takes beside some others.

    diameter_mm : as thick as was found, proven to do [mm]
    none_above_mm : proven: nothing thicker than this does [mm]
    placement : where it lies, first, and then the others, likewise
    """

    diameter_mm: float
    none_above_mm: float
    placement: Placement


def find_smallest_opening(
    *,
    like: RoundOpening | SlotOpening | BoxOpening,
    tilt_deg: float,
    wall_thickness_mm: float,
    things: Sequence[Thing],
    running_clearance_mm: float,
    most_work: int | None = None,
) -> SmallestOpening | None:
    """The smallest hole of a kind that things pass side by side, with the running clearance left in the worst case.

    Sought is the diameter of a round hole, and the length of a slot or box of a given width. A slot is never told
    shorter than wide: from there on it is a round hole.

    Returns to 0.0001 mm, rounded up; None where no length is enough, because the width is too little.

    like : a hole of the kind; its width, corner radius and tolerance are kept, its diameter or length is not read
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    running_clearance_mm : wanted in the worst case, diametral
    most_work : rows that each search may look at; None for the usual

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.
    """
    needed = _needed(things, running_clearance_mm)
    room_in = partial(_room_in, tilt_deg, wall_thickness_mm, most_work)

    def found_at(size_mm: float) -> SetClearance | None:
        return room_in(_opening_of_size(like, size_mm), needed)

    least_mm = _least_size(like)
    size_mm = _smallest(lambda size: _growth(found_at(size)) >= 0, least_mm, max(least_mm, *needed, 0.0))
    if size_mm is None:
        return None
    found = found_at(size_mm)
    assert found is not None
    too_small = _gap_ruled_out(lambda gap: size_mm - gap < least_mm or _bound(found_at(size_mm - gap)) < 0)
    return SmallestOpening(
        opening=_opening_of_size(like, size_mm),
        size_mm=size_mm,
        none_below_mm=0.0 if too_small is None else max(least_mm, size_mm - too_small),
        placement=replace(found.placement, diameters_mm=tuple(thing.diameter_mm for thing in things)),
    )


def find_largest_item(
    *,
    opening: Opening,
    tilt_deg: float,
    wall_thickness_mm: float,
    beside: Sequence[Thing],
    item_tolerance_mm: float,
    running_clearance_mm: float,
    most_work: int | None = None,
) -> LargestItem | None:
    """The thickest thing that passes a hole beside others, with the running clearance left in the worst case.

    Returns to 0.0001 mm, rounded down; None where the others alone leave nothing for it.

    opening : the hole in the wall
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    beside : what else shares the hole; empty for nothing
    item_tolerance_mm : plus or minus on the diameter that is sought
    running_clearance_mm : wanted in the worst case, diametral
    most_work : rows that each search may look at; None for the usual

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.
    """
    others = _needed(beside, running_clearance_mm)
    more_mm = item_tolerance_mm + running_clearance_mm

    def found_at(diameter_mm: float) -> SetClearance | None:
        return _room_in(tilt_deg, wall_thickness_mm, most_work, opening, (diameter_mm + more_mm, *others))

    if _growth(found_at(_LEAST_MM)) < 0:
        return None
    beyond_mm = _smallest(lambda size: _growth(found_at(size)) < 0, _LEAST_MM, 1.0)
    assert beyond_mm is not None  # a thing as thick as the doublings reach passes no hole
    diameter_mm = floor(round((beyond_mm - STEP_MM) / STEP_MM, 6)) * STEP_MM
    found = found_at(diameter_mm)
    assert found is not None
    too_thick = _gap_ruled_out(lambda gap: _bound(found_at(diameter_mm + gap)) < 0)
    return LargestItem(
        diameter_mm=diameter_mm,
        none_above_mm=inf if too_thick is None else diameter_mm + too_thick,
        placement=replace(found.placement, diameters_mm=(diameter_mm, *(thing.diameter_mm for thing in beside))),
    )


def _needed(things: Sequence[Thing], running_clearance_mm: float) -> tuple[float, ...]:
    """Diameters at their worse limits, each with the clearance about it."""
    return tuple(thing.diameter_mm + thing.tolerance_mm + running_clearance_mm for thing in things)


def _room_in(
    tilt_deg: float, wall_thickness_mm: float, most_work: int | None, opening: Opening, sizes: tuple[float, ...]
) -> SetClearance | None:
    """The clearance in a hole at its worse limit; None where its tolerance leaves nothing of it."""
    try:
        smaller = opening_at_limit(opening=opening, is_larger=False)
    except ImpossibleDimensionError as refusal:
        if refusal.name != "tolerance_mm":
            raise
        return None
    return find_set_clearance(
        opening=smaller,
        tilt_deg=tilt_deg,
        wall_thickness_mm=wall_thickness_mm,
        diameters_mm=sizes,
        most_work=most_work or MOST_WORK,
    )


def _growth(found: SetClearance | None) -> float:
    return -inf if found is None else found.clearance_mm + _ROUNDING_MM


def _bound(found: SetClearance | None) -> float:
    return -inf if found is None else found.upper_bound_mm


def _opening_of_size(like: RoundOpening | SlotOpening | BoxOpening, size_mm: float) -> Opening:
    if isinstance(like, RoundOpening):
        return replace(like, diameter_mm=size_mm)
    return replace(like, length_mm=size_mm)


def _least_size(like: RoundOpening | SlotOpening | BoxOpening) -> float:
    match like:
        case RoundOpening():
            return like.tolerance_mm + _LEAST_MM
        case SlotOpening():
            return like.width_mm
        case BoxOpening():
            return max(2 * like.corner_radius_mm, like.tolerance_mm + _LEAST_MM)


def _smallest(holds: Callable[[float], bool], low_mm: float, high_mm: float) -> float | None:
    """The smallest size, in steps, from which on it holds; None where it never does."""
    low, high = low_mm, high_mm
    if holds(low):
        return low
    for _ in range(_DOUBLINGS):
        if holds(high):
            break
        low, high = high, 2 * high
    else:
        return None
    for _ in range(_ROUNDS):
        if high - low < STEP_MM / 10:
            break
        middle = (low + high) / 2
        low, high = (low, middle) if holds(middle) else (middle, high)
    even = floor(high / STEP_MM) * STEP_MM
    return even if holds(even) else even + STEP_MM


def _gap_ruled_out(is_ruled_out: Callable[[float], bool]) -> float | None:
    """How far from what was found everything is ruled out: just beside it, or by steps that double; None if never."""
    gap = STEP_MM
    while gap < _WIDEST_GAP_MM:
        if is_ruled_out(gap):
            return gap
        gap = max(2 * gap, _FIRST_GAP_MM)
    return None
