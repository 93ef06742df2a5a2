"""How much room is left when one or several round things share an opening, with the proof."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import inf

from planner.errors import ImpossibleDimensionError
from planner.geometry.opening_shape import SeenArcs, SeenOpening, see_opening
from planner.geometry.packing_one import find_largest_disc
from planner.geometry.packing_search import find_placement
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
    sizes = tuple(float(size) for size in diameters_mm)
    if not sizes:
        raise ImpossibleDimensionError(name="diameters_mm", value=0, unit="things", rule="must name at least one thing")
    for size in sizes:
        if not 0 < size < inf:
            raise ImpossibleDimensionError(name="diameters_mm", value=size, unit="mm", rule="must be above zero")
    order = sorted(range(len(sizes)), key=lambda index: (-sizes[index], index))
    seen = see_opening(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm)
    found = _clearance_largest_first(seen, tuple(sizes[index] for index in order))
    if found.placement is None or order == list(range(len(sizes))):
        return found
    centres = [(0.0, 0.0)] * len(sizes)
    for place, index in enumerate(order):
        centres[index] = found.placement.centres_mm[place]
    return SetClearance(
        clearance_mm=found.clearance_mm,
        upper_bound_mm=found.upper_bound_mm,
        placement=Placement(centres_mm=tuple(centres), diameters_mm=sizes),
        is_exact=found.is_exact,
        proof=found.proof,
    )


@lru_cache(maxsize=8192)
def _clearance_largest_first(seen: SeenOpening, sizes: tuple[float, ...]) -> SetClearance:
    disc = find_largest_disc(seen)
    bound, proof = disc.bound_mm - sizes[0], "closed form" if len(sizes) == 1 else "thing too large"
    if len(sizes) == 1:
        return _set_clearance(disc.diameter_mm - sizes[0], bound, (disc.centre_mm,), sizes, proof)
    if isinstance(seen, SeenArcs):
        pair = find_pair_growth(seen, sizes[0], sizes[1])
        if len(sizes) == 2:
            return _set_clearance(pair.growth_mm, pair.bound_mm, pair.centres_mm, sizes, "exact pair")
        if pair.bound_mm < bound:
            bound, proof = pair.bound_mm, "pair too far"
    found = find_placement(seen=seen, diameters_mm=sizes)
    return _set_clearance(found.growth_mm, bound, found.centres_mm, sizes, proof)


def _set_clearance(
    clearance: float, bound: float, centres: tuple[tuple[float, float], ...], sizes: tuple[float, ...], proof: str
) -> SetClearance:
    return SetClearance(
        clearance_mm=clearance,
        upper_bound_mm=bound,
        placement=Placement(centres_mm=centres, diameters_mm=sizes),
        is_exact=bound - clearance <= _EXACT_WITHIN_MM,
        proof=proof,
    )
