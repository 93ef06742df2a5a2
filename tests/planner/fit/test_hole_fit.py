"""Do round things pass an opening: the worked cases, the limits, and what is said when nothing is proven."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.fit.hole_fit import check_things_in_room
from planner.geometry.openings.opening_shape import see_opening
from planner.geometry.packing.search import find_placement
from planner.parts import BoxOpening, Opening, RoundOpening, SlotOpening
from planner.rules import PlaceRule
from planner.verdicts import Check, FitClass, Outcome, Room, Thing, ThingKind

PORT = SlotOpening(length_mm=19, width_mm=7, tolerance_mm=0.1)
HOLE = RoundOpening(diameter_mm=7, tolerance_mm=0.1)
SLEEVE_INSERT = SlotOpening(length_mm=10.2, width_mm=5.4, tolerance_mm=0.1)


def fit_of(opening: Opening | None, *sizes: float, tilt_deg: float = 0.0, running_mm: float = 0.5) -> Check:
    return check_things_in_room(
        rule=PlaceRule.PORT_CLEARANCE,
        room=Room(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=1.6),
        things=[
            Thing(id=f"thing {k}", kind=ThingKind.LINE, diameter_mm=size, tolerance_mm=0.05)
            for k, size in enumerate(sizes)
        ],
        running_clearance_mm=running_mm,
    )


@pytest.mark.parametrize(
    ("opening", "tilt_deg", "sizes", "clearance_mm", "worst_mm"),
    [
        (PORT, 50, (5.2297, 4.0), 0.879, 0.797),
        (HOLE, 10, (5.2297,), 1.386, 1.237),
        (HOLE, 10, (6.708,), -0.092, -0.241),
        (RoundOpening(diameter_mm=6.5, tolerance_mm=0.1), 0, (5.23,), 1.270, 1.120),
        (SLEEVE_INSERT, 0, (5.0, 4.0), 0.4, 0.25),
    ],
    ids=[
        "two in a leaning slot",
        "one in a leaning hole",
        "a sleeve too thick",
        "one met squarely",
        "held by the width",
    ],
)
def test_clearances_worked_by_hand(
    opening: Opening, tilt_deg: float, sizes: tuple[float, ...], clearance_mm: float, worst_mm: float
) -> None:
    fit = fit_of(opening, *sizes, tilt_deg=tilt_deg)
    assert fit.clearance_mm == pytest.approx(clearance_mm, abs=0.001)
    assert fit.worst_clearance_mm == pytest.approx(worst_mm, abs=0.001)


def test_room_is_told_for_a_thing_that_does_not_pass() -> None:
    fit = fit_of(HOLE, 6.708, tilt_deg=10)
    assert fit.available_mm == pytest.approx(6.616, abs=0.001)
    assert fit.outcome is Outcome.NO_FIT


def test_room_of_the_first_beside_the_others() -> None:
    fit = fit_of(PORT, 5.0, 4.0)
    assert fit.clearance_mm is not None
    assert fit.available_mm == pytest.approx(5.0 + fit.clearance_mm)


@pytest.mark.parametrize(
    ("size", "outcome", "fit_class"),
    [
        (6.35, Outcome.FITS, FitClass.CLEARANCE),  # worst: 6.9 - 6.4 = 0.5, just the running clearance
        (6.36, Outcome.TIGHT, FitClass.CLEARANCE),
        (6.85, Outcome.TIGHT, FitClass.CLEARANCE),  # worst: 0
        (6.86, Outcome.TIGHT, FitClass.TRANSITION),
        (7.0, Outcome.TIGHT, FitClass.TRANSITION),
        (7.01, Outcome.NO_FIT, FitClass.TRANSITION),
        (7.15, Outcome.NO_FIT, FitClass.TRANSITION),  # best: 7.1 - 7.1 = 0
        (7.16, Outcome.NO_FIT, FitClass.INTERFERENCE),
    ],
)
def test_outcome_and_class_at_their_limits(size: float, outcome: Outcome, fit_class: FitClass) -> None:
    fit = fit_of(HOLE, size, running_mm=0.5 - 1e-9)
    # sizes given to a hundredth are not exact in binary: a hair is allowed where the limit itself is asked for
    assert fit.outcome is outcome
    if size not in (6.85, 7.15):
        assert fit.fit_class is fit_class


def test_opening_nobody_measured_is_unknown() -> None:
    fit = fit_of(None, 5.0)
    assert fit.outcome is Outcome.UNKNOWN
    assert fit.clearance_mm is None
    assert fit.worst_clearance_mm is None
    assert fit.available_mm is None
    assert fit.fit_class is None
    assert fit.placement is None


def test_three_that_neither_fit_nor_are_ruled_out_are_unknown_within_a_band() -> None:
    slot = SlotOpening(length_mm=15, width_mm=7.5, tolerance_mm=0.1)
    seen = see_opening(opening=slot, tilt_deg=30, wall_thickness_mm=1.6)
    growth = find_placement(seen, (5.0, 4.0, 3.5)).growth_mm + 0.0002
    fit = fit_of(slot, *(size + growth for size in (5.0, 4.0, 3.5)), tilt_deg=30)
    assert fit.outcome is Outcome.UNKNOWN
    assert fit.band_mm is not None
    low, high = fit.band_mm
    assert low < 0 <= high < 0.02


def test_three_a_tenth_too_large_do_not_fit_for_certain() -> None:
    box = BoxOpening(length_mm=11, width_mm=8, corner_radius_mm=1, tolerance_mm=0.02)
    seen = see_opening(opening=box, tilt_deg=20, wall_thickness_mm=1.6)
    growth = find_placement(seen, (5.0, 4.0, 3.5)).growth_mm + 0.2
    fit = fit_of(box, *(size + growth for size in (5.0, 4.0, 3.5)), tilt_deg=20)
    assert fit.outcome is Outcome.NO_FIT
    assert fit.band_mm is None
    assert fit.fit_class is FitClass.INTERFERENCE


@given(
    sizes=st.lists(st.floats(2, 6), min_size=1, max_size=3),
    tilt_deg=st.floats(0, 50),
    width_mm=st.floats(6, 9),
    length_mm=st.floats(9, 20),
)
@settings(max_examples=40, deadline=None)
def test_the_worst_case_is_never_the_better_one(
    sizes: list[float], tilt_deg: float, width_mm: float, length_mm: float
) -> None:
    slot = SlotOpening(length_mm=length_mm, width_mm=width_mm, tolerance_mm=0.1)
    fit = fit_of(slot, *sizes, tilt_deg=tilt_deg)
    assert fit.clearance_mm is not None
    assert fit.worst_clearance_mm is not None
    assert fit.worst_clearance_mm <= fit.clearance_mm + 1e-6
    if fit.clearance_mm >= 0:
        assert fit.fit_class is not FitClass.INTERFERENCE, "at its better limit it passes the more"


def test_a_tolerance_as_large_as_the_hole_is_refused() -> None:
    with pytest.raises(ImpossibleDimensionError, match="leaves nothing of the opening"):
        fit_of(RoundOpening(diameter_mm=5, tolerance_mm=5), 3.0)
