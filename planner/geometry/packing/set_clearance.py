"""How much room is left when one or several round things share an opening, with the proof."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import inf

from planner.errors import ImpossibleDimensionError
from planner.geometry.openings.opening_shape import SeenArcs, SeenOpening, SeenOutline, see_opening
from planner.geometry.packing.bounds import growth_bound_by_area, growth_of_three_in_ring
from planner.geometry.packing.follow import find_placements, follow_placements
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.packing.outline import PairInOutline
from planner.geometry.packing.proof import find_growth_bound
from planner.geometry.packing.search import FoundPlacement, Points, find_placement
from planner.geometry.packing.two import find_pair_growth
from planner.geometry.packing.work import MOST_WORK, Work
from planner.parts import Opening, OutlineOpening
from planner.verdicts import Placement

_EXACT_WITHIN_MM = 0.001
_MOST_THINGS_PROVEN = 5
_JUST_BELOW_MM = 1e-6


@dataclass(frozen=True, slots=True, kw_only=True)
class SetClearance:
    """How much every diameter of a set can grow while all still fit side by side.

    clearance_mm : the growth that the placement proves; below zero is what is missing [mm]
    upper_bound_mm : proven: no growth above this [mm]
    placement : where the things lie at that growth
    is_exact : whether the two figures agree within 0.001 mm
    proof : what the bound rests on
    is_cut_short : whether the work allowed ran out, so that more of it might find or rule out more
    work_rows : what finding it cost, remembered or not
    """

    clearance_mm: float
    upper_bound_mm: float
    placement: Placement
    is_exact: bool
    proof: str
    is_cut_short: bool = False
    work_rows: int = 0


def find_set_clearance(
    *,
    opening: Opening,
    tilt_deg: float,
    wall_thickness_mm: float,
    diameters_mm: Sequence[float],
    most_work: int = MOST_WORK,
    proves_no: bool = True,
) -> SetClearance:
    """How much room one or several round things have left in an opening, lying side by side.

    The clearance is the greatest amount by which every diameter could grow; below zero it is what is missing. One and
    two things are exact. For three and more a placement proves the clearance, and the bound tells what is ruled out.

    Returns the clearance proven, the bound proven, and the placement in the order of the diameters.

    opening : the hole in the wall, at the sizes to be used
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    diameters_mm : outer diameters, in any order
    most_work : rows that each of the searches for room, placement and proof may look at
    proves_no : whether a proof is sought where three or more things were not placed; it changes nothing but the bound

    Raises ImpossibleDimensionError when there is nothing to place or a diameter is not above zero.
    """
    sizes = _sizes_of(diameters_mm)
    order = sorted(range(len(sizes)), key=lambda index: (-sizes[index], index))
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm)
    found = _clearance_largest_first(seen, tuple(sizes[index] for index in order), most_work, proves_no)
    return _in_given_order(found, order, sizes)


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """The same things in the same opening, at slightly other sizes.

    opening : the hole in the wall
    diameters_mm : outer diameters, in the same order [mm]
    """

    opening: Opening
    diameters_mm: tuple[float, ...]


def find_varied_clearances(
    *,
    nominal: Variant,
    tilt_deg: float,
    wall_thickness_mm: float,
    variants: Sequence[Variant],
    within_mm: float = 0.0,
    is_bounded: bool = True,
    most_work: int = MOST_WORK,
) -> tuple[SetClearance, ...]:
    """The clearances of slightly varied sizes, each placement following the one at nominal sizes.

    Returns one for each variant. Exact for one thing, and for two in openings with arcs; else the placement followed,
    and the bound is only the short one.

    nominal : the sizes everything is searched at
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    variants : the sizes asked for
    within_mm : placements that leave this much less at nominal sizes are followed too
    is_bounded : whether a bound is asked for; without, that of three and more things is infinite
    most_work : rows that each search may look at

    Raises ImpossibleDimensionError when there is nothing to place or a diameter is not above zero.
    """
    sizes = _sizes_of(nominal.diameters_mm)
    order = sorted(range(len(sizes)), key=lambda index: (-sizes[index], index))
    starts: tuple[FoundPlacement, ...] = ()
    if len(sizes) > 2 or isinstance(nominal.opening, OutlineOpening):
        seen = see_opening(opening=nominal.opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm)
        if not _is_nothing(seen):
            ordered = tuple(sizes[index] for index in order)
            starts = (find_placement(seen, ordered, most_work=most_work),)
            if within_mm > 0:
                starts = find_placements(seen, ordered, within_mm=within_mm, most_work=most_work)
    answers = []
    for variant in variants:
        seen = see_opening(opening=variant.opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm)
        varied = _sizes_of(variant.diameters_mm)
        ordered = tuple(varied[index] for index in order)
        if not starts or (is_bounded and len(sizes) == 1) or _is_nothing(seen):
            found = _clearance_largest_first(seen, ordered, most_work, True)
        else:
            placed = follow_placements(seen=seen, diameters_mm=ordered, found=starts, most_work=most_work)
            bound, proof, more = inf, "", 0
            if is_bounded:
                bound, proof = _shortest_bound(seen, tuple(sorted(ordered, reverse=True)), most_work)
                more = find_largest_disc(seen, most_work=most_work).work_rows
            found = _set_clearance(placed.growth_mm, placed.centres_mm, ordered, bound, proof)
            found = replace(found, work_rows=placed.work_rows + more)
        answers.append(_in_given_order(found, order, varied))
    return tuple(answers)


def follow_clearance(
    *, opening: Opening, tilt_deg: float, wall_thickness_mm: float, clearance: SetClearance, placement: Placement
) -> SetClearance:
    """A clearance made better, where another placement of the same things leads to one.

    opening : the hole in the wall
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    clearance : what was found so far
    placement : where the things lay at other sizes of hole and things
    """
    sizes = clearance.placement.diameters_mm
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm)
    start = FoundPlacement(growth_mm=clearance.clearance_mm, centres_mm=placement.centres_mm)
    placed = follow_placements(seen=seen, diameters_mm=sizes, found=(start,))
    if placed.growth_mm <= clearance.clearance_mm:
        return clearance
    better = _set_clearance(placed.growth_mm, placed.centres_mm, sizes, clearance.upper_bound_mm, clearance.proof)
    return replace(better, is_cut_short=clearance.is_cut_short)


def _sizes_of(diameters_mm: Sequence[float]) -> tuple[float, ...]:
    sizes = tuple(float(size) for size in diameters_mm)
    if not sizes:
        raise ImpossibleDimensionError(name="diameters_mm", value=0, unit="things", rule="must name at least one thing")
    for size in sizes:
        if not 0 < size < inf:
            raise ImpossibleDimensionError(name="diameters_mm", value=size, unit="mm", rule="must be above zero")
    return sizes


def _in_given_order(found: SetClearance, order: list[int], sizes: tuple[float, ...]) -> SetClearance:
    centres = [(0.0, 0.0)] * len(sizes)
    for place, index in enumerate(order):
        centres[index] = found.placement.centres_mm[place]
    return replace(found, placement=Placement(centres_mm=tuple(centres), diameters_mm=sizes))


@lru_cache(maxsize=8192)
def _clearance_largest_first(
    seen: SeenOpening, sizes: tuple[float, ...], most_work: int, proves_no: bool
) -> SetClearance:
    if len(sizes) == 1 or _is_nothing(seen):
        disc = find_largest_disc(seen, most_work=most_work)
        bound = disc.bound_mm - max(sizes)
        centres = (disc.centre_mm,) * len(sizes)
        found = _set_clearance(disc.diameter_mm - max(sizes), centres, sizes, bound, "closed form")
        return replace(found, work_rows=disc.work_rows)
    if len(sizes) == 2 and isinstance(seen, SeenArcs):
        first, second = sorted(sizes, reverse=True)
        pair = find_pair_growth(seen, first_mm=first, second_mm=second)
        both_mm = pair.centres_mm if first == sizes[0] else pair.centres_mm[::-1]
        return _set_clearance(pair.growth_mm, both_mm, sizes, pair.growth_mm, "exact pair")
    return _searched_clearance(seen, sizes, most_work, proves_no)


def _searched_clearance(seen: SeenOpening, sizes: tuple[float, ...], most_work: int, proves_no: bool) -> SetClearance:
    placed = find_placement(seen, sizes, most_work=most_work)
    bound, proof = _shortest_bound(seen, sizes, most_work)
    work = Work(most_work)
    may_prove = proves_no or len(sizes) == 2
    if may_prove and (placed.growth_mm < 0 <= bound or len(sizes) == 2):
        bound, proof = min((bound, proof), _pair_bound(seen, sizes, placed.growth_mm, work))
    if may_prove and placed.growth_mm < 0 <= bound and len(sizes) > 2:
        bound, proof = min((bound, proof), _searched_bound(seen, sizes, work))
    return replace(
        _set_clearance(placed.growth_mm, placed.centres_mm, sizes, bound, proof),
        is_cut_short=placed.is_cut_short or work.is_out,
        work_rows=placed.work_rows + find_largest_disc(seen, most_work=most_work).work_rows + work.spent,
    )


def _is_nothing(seen: SeenOpening) -> bool:
    """Whether the slices of the wall leave nothing of an outline: then all things miss as much as the largest."""
    return isinstance(seen, SeenOutline) and not seen.parts_mm


def _searched_bound(seen: SeenOpening, sizes: tuple[float, ...], work: Work) -> tuple[float, str]:
    """What branch and bound rules out; of many things the largest few alone, for what holds for them holds for all."""
    largest = sizes[:_MOST_THINGS_PROVEN]
    found = find_placement(seen, largest, most_work=work.left)
    work.spend(found.work_rows)
    if found.growth_mm >= 0:
        return inf, "branch and bound"
    bound = find_growth_bound(seen=seen, diameters_mm=largest, found_mm=found.growth_mm, work=work)
    return bound, "branch and bound"


def _shortest_bound(seen: SeenOpening, sizes: tuple[float, ...], most_work: int) -> tuple[float, str]:
    """The lowest of the bounds that cost nothing, with its name."""
    bounds = [
        (find_largest_disc(seen, most_work=most_work).bound_mm - sizes[0], "thing too large"),
        (growth_bound_by_area(seen=seen, diameters_mm=sizes), "area"),
    ]
    if isinstance(seen, SeenArcs) and seen.is_round and len(sizes) > 2:
        ring = growth_of_three_in_ring(ring_mm=2 * seen.arc_x_mm, diameters_mm=(sizes[0], sizes[1], sizes[2]))
        bounds.append((ring, "closed form"))
    return min(bounds)


def _pair_bound(seen: SeenOpening, sizes: tuple[float, ...], found_mm: float, work: Work) -> tuple[float, str]:
    name = "exact pair" if len(sizes) == 2 else "pair too far"
    if isinstance(seen, SeenArcs):
        return find_pair_growth(seen, first_mm=sizes[0], second_mm=sizes[1]).growth_mm, name
    single = find_largest_disc(seen, most_work=work.left).bound_mm - sizes[0]
    pair = PairInOutline(seen=seen, first_mm=sizes[0], second_mm=sizes[1])
    if len(sizes) == 2:
        return pair.bound_mm(found_mm=found_mm, single_mm=single, work=work), name
    return (-_JUST_BELOW_MM if pair.is_ruled_out(-_JUST_BELOW_MM, work) else single), name


def _set_clearance(
    clearance: float, centres: Points, sizes: tuple[float, ...], bound: float, proof: str
) -> SetClearance:
    return SetClearance(
        clearance_mm=clearance,
        upper_bound_mm=max(bound, clearance),
        placement=Placement(centres_mm=centres, diameters_mm=sizes),
        is_exact=bound - clearance <= _EXACT_WITHIN_MM,
        proof=proof,
    )
