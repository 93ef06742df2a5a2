"""Do these round things pass this opening side by side, at nominal sizes and with every size at its worse limit?"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from planner.geometry.openings.opening_shape import opening_at_limit
from planner.geometry.packing.set_clearance import Variant, find_set_clearance, find_varied_clearances
from planner.parts import Opening
from planner.verdicts import FitClass, Outcome, Placement, Thing, fit_class_of, fit_outcome_of


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleFit:
    """How a set of round things fits an opening.

    clearance_mm : growth left at nominal sizes; below zero is what is missing; None when not measured [mm]
    worst_clearance_mm, best_clearance_mm : the same with every size at its worse, or better, limit [mm]
    available_mm : room for the first thing, the others beside it [mm]
    fit_class : ISO 286-1 class; None when not measured or not proven
    outcome : the answer
    placement : where the things lie at nominal sizes
    band_mm : where the answer is not proven, the clearance lies between these two [mm]
    proof : what the answer rests on
    """

    clearance_mm: float | None
    worst_clearance_mm: float | None
    best_clearance_mm: float | None
    available_mm: float | None
    fit_class: FitClass | None
    outcome: Outcome
    placement: Placement | None
    band_mm: tuple[float, float] | None
    proof: str


NOT_MEASURED = HoleFit(
    clearance_mm=None,
    worst_clearance_mm=None,
    best_clearance_mm=None,
    available_mm=None,
    fit_class=None,
    outcome=Outcome.UNKNOWN,
    placement=None,
    band_mm=None,
    proof="not measured",
)
"""The answer for an opening that nobody measured."""


def check_items_in_opening(
    *,
    opening: Opening | None,
    tilt_deg: float,
    wall_thickness_mm: float,
    items: Sequence[Thing],
    running_clearance_mm: float,
) -> HoleFit:
    """Whether round things pass an opening side by side, and with how much to spare.

    Tilt and wall thickness are taken as nominal in all three cases.

    Returns UNKNOWN when the opening was not measured, or where neither a placement nor a proof decides.

    opening : the hole in the wall; None when nobody measured it
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    items : what shares the opening; the first is the one whose room is told
    running_clearance_mm : what the shop wants to be left in the worst case

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.

    Source: ISO 286-1:2010 for the classes of fit, from memory; the limits are common practice, no source.
    """
    if opening is None:
        return NOT_MEASURED
    sizes = tuple((item.diameter_mm, item.tolerance_mm) for item in items)
    return _check_measured(opening, tilt_deg, wall_thickness_mm, sizes, running_clearance_mm)


@lru_cache(maxsize=4096)
def _check_measured(
    opening: Opening,
    tilt_deg: float,
    wall_thickness_mm: float,
    sizes: tuple[tuple[float, float], ...],
    running_clearance_mm: float,
) -> HoleFit:
    """Remembered: a plan asks the same hole for every method and from both ends."""
    place = {"tilt_deg": tilt_deg, "wall_thickness_mm": wall_thickness_mm}
    middle, worse, better = (_at_limit(opening, sizes, limit) for limit in (0, -1, 1))
    nominal = find_set_clearance(opening=middle.opening, diameters_mm=middle.diameters_mm, **place)
    worst, best = find_varied_clearances(nominal=middle, variants=(worse, better), **place)
    if best.clearance_mm is None or best.clearance_mm < 0:
        best = find_set_clearance(opening=better.opening, diameters_mm=better.diameters_mm, **place)
    assert nominal.clearance_mm is not None
    assert worst.clearance_mm is not None
    assert best.clearance_mm is not None
    is_proven = nominal.clearance_mm >= 0 or nominal.upper_bound_mm < 0
    is_class_proven = best.clearance_mm >= 0 or best.upper_bound_mm < 0
    outcome = fit_outcome_of(
        nominal_mm=nominal.clearance_mm, worst_mm=worst.clearance_mm, running_clearance_mm=running_clearance_mm
    )
    fit_class = fit_class_of(worst_clearance_mm=worst.clearance_mm, best_clearance_mm=best.clearance_mm)
    return HoleFit(
        clearance_mm=nominal.clearance_mm,
        worst_clearance_mm=worst.clearance_mm,
        best_clearance_mm=best.clearance_mm,
        available_mm=nominal.clearance_mm + sizes[0][0],
        fit_class=fit_class if is_class_proven else None,
        outcome=outcome if is_proven else Outcome.UNKNOWN,
        placement=nominal.placement,
        band_mm=None if is_proven else (nominal.clearance_mm, nominal.upper_bound_mm),
        proof="placement" if nominal.clearance_mm >= 0 else nominal.proof,
    )


def _at_limit(opening: Opening, sizes: tuple[tuple[float, float], ...], limit: int) -> Variant:
    """Every size at its nominal (0), worse (-1) or better (1) limit."""
    return Variant(
        opening=opening if limit == 0 else opening_at_limit(opening=opening, is_larger=limit > 0),
        diameters_mm=tuple(diameter_mm - limit * tolerance_mm for diameter_mm, tolerance_mm in sizes),
    )
