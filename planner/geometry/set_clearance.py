"""How much room is left when one or several round things share an opening, with the proof."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from math import inf

from planner.errors import ImpossibleDimensionError
from planner.geometry.opening_shape import SeenArcs, SeenOpening, SeenOutline, see_opening
from planner.geometry.packing_bounds import growth_bound_by_area, growth_of_three_in_ring
from planner.geometry.packing_one import find_largest_disc
from planner.geometry.packing_outline import pair_bound_in_outline
from planner.geometry.packing_proof import find_growth_bound
from planner.geometry.packing_search import Points, find_placement
from planner.geometry.packing_two import find_pair_growth
from planner.parts import Opening
from planner.verdicts import Placement

_EXACT_WITHIN_MM = 0.001


@dataclass(frozen=True, slots=True, kw_only=True)
class SetClearance:
    """How much every diameter of a set can grow while all still fit side by side.

    clearance_mm : the growth that the placement proves; below zero is what is missing; None when none was searched [mm]
    upper_bound_mm : proven: no growth above this [mm]
    placement : where the things lie at that growth
    is_exact : whether the two figures agree within 0.001 mm
    proof : what the bound rests on
    """

    clearance_mm: float | None
    upper_bound_mm: float
    placement: Placement | None
    is_exact: bool
    proof: str


def find_set_clearance(
    *, opening: Opening, tilt_deg: float, wall_thickness_mm: float, diameters_mm: Sequence[float]
) -> SetClearance:
    """How much room one or several round things have left in an opening, lying side by side.

    The clearance is the greatest amount by which every diameter could grow; below zero it is what is missing. One and
    two things are exact. For three and more a placement proves the clearance, and the bound tells what is ruled out.

    Parameters
    ----------
    opening : Opening
        The hole in the wall, at the sizes to be used.
    tilt_deg : float
        Angle between the line and the hole's axis, leaning along the opening's length. [deg]
    wall_thickness_mm : float
        Thickness of the wall. [mm]
    diameters_mm : sequence of float
        Outer diameters, in any order. [mm]

    Returns
    -------
    SetClearance
        The clearance proven, the bound proven, and the placement in the order of the diameters.

    Raises
    ------
    ImpossibleDimensionError
        When there is nothing to place or a diameter is not above zero.

    References
    ----------
    Plane geometry; no outside source needed.
    """
    return find_clearance_near(
        opening=opening,
        tilt_deg=tilt_deg,
        wall_thickness_mm=wall_thickness_mm,
        diameters_mm=diameters_mm,
        near=None,
        is_bound_wanted=True,
    )


def find_clearance_near(
    *,
    opening: Opening,
    tilt_deg: float,
    wall_thickness_mm: float,
    diameters_mm: Sequence[float],
    near: Placement | None,
    is_bound_wanted: bool,
) -> SetClearance:
    """The same, starting from a placement of nearly the same things in nearly the same opening.

    Parameters
    ----------
    opening : Opening
        The hole in the wall, at the sizes to be used.
    tilt_deg : float
        Angle between the line and the hole's axis, leaning along the opening's length. [deg]
    wall_thickness_mm : float
        Thickness of the wall. [mm]
    diameters_mm : sequence of float
        Outer diameters, in the placement's order. [mm]
    near : Placement or None
        Where three and more things are started from; None for starts all over the opening.
    is_bound_wanted : bool
        Whether to try hard to rule out what no placement was found for.

    Returns
    -------
    SetClearance
        The clearance proven, the bound proven, and the placement in the order of the diameters.

    Raises
    ------
    ImpossibleDimensionError
        When there is nothing to place or a diameter is not above zero.

    References
    ----------
    Plane geometry; no outside source needed.
    """
    sizes = tuple(float(size) for size in diameters_mm)
    if not sizes:
        raise ImpossibleDimensionError(name="diameters_mm", value=0, unit="things", rule="must name at least one thing")
    for size in sizes:
        if not 0 < size < inf:
            raise ImpossibleDimensionError(name="diameters_mm", value=size, unit="mm", rule="must be above zero")
    order = sorted(range(len(sizes)), key=lambda index: (-sizes[index], index))
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm)
    start = tuple(near.centres_mm[index] for index in order) if near and len(sizes) > 2 else None
    found = _clearance_largest_first(seen, tuple(sizes[index] for index in order), start, is_bound_wanted)
    if found.placement is None:
        return found
    centres = [(0.0, 0.0)] * len(sizes)
    for place, index in enumerate(order):
        centres[index] = found.placement.centres_mm[place]
    return replace(found, placement=Placement(centres_mm=tuple(centres), diameters_mm=sizes))


@lru_cache(maxsize=8192)
def _clearance_largest_first(
    seen: SeenOpening, sizes: tuple[float, ...], near: Points | None, is_bound_wanted: bool
) -> SetClearance:
    disc = find_largest_disc(seen)
    if len(sizes) == 1:
        return _set_clearance(
            disc.diameter_mm - sizes[0], (disc.centre_mm,), sizes, disc.bound_mm - sizes[0], "closed form"
        )
    if len(sizes) == 2 and isinstance(seen, SeenArcs):
        pair = find_pair_growth(seen, sizes[0], sizes[1])
        return _set_clearance(pair.growth_mm, pair.centres_mm, sizes, pair.bound_mm, "exact pair")
    bound, proof = _short_bound(seen, sizes)
    found = find_placement(seen=seen, diameters_mm=sizes, near_mm=(near,) if near else ())
    if is_bound_wanted and len(sizes) > 2 and found.growth_mm < 0 <= bound:
        proven = find_growth_bound(seen=seen, diameters_mm=sizes, found_mm=found.growth_mm)
        if proven < bound:
            bound, proof = proven, "branch and bound"
    return _set_clearance(found.growth_mm, found.centres_mm, sizes, bound, proof)


@lru_cache(maxsize=8192)
def _short_bound(seen: SeenOpening, sizes: tuple[float, ...]) -> tuple[float, str]:
    """The lowest of the bounds that need no search, with its name."""
    single = find_largest_disc(seen).bound_mm - sizes[0]
    bounds = [(single, "thing too large"), (growth_bound_by_area(seen=seen, diameters_mm=sizes), "area")]
    if isinstance(seen, SeenOutline):
        pair = pair_bound_in_outline(seen=seen, first_mm=sizes[0], second_mm=sizes[1], single_mm=single)
    else:
        pair = find_pair_growth(seen, sizes[0], sizes[1]).bound_mm
        if len(sizes) > 2 and seen.arc_x_mm == seen.arc_y_mm and seen.flat_x_mm == 0 == seen.flat_y_mm:
            ring = growth_of_three_in_ring(ring_mm=2 * seen.arc_x_mm, diameters_mm=(sizes[0], sizes[1], sizes[2]))
            bounds.append((ring, "closed form"))
    bounds.append((pair, "exact pair" if len(sizes) == 2 else "pair too far"))
    return min(bounds)


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
