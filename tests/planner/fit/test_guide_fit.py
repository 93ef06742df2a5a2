"""Guides: what passes the bore, how long a rigid piece gets round the bend, what is told when it was not measured."""

from dataclasses import replace

import pytest

from planner.fit.guide_fit import check_line_in_guide, check_rigid_in_guide, longest_in_guide_mm
from planner.geometry.rigid.rigid_in_bend import longest_rigid_in_bend_mm
from planner.parts import Guide
from planner.verdicts import FitClass, Outcome, State, Thing, ThingKind

GUIDE = Guide(bore_diameter_mm=8.0, bend_radius_mm=56.0, turn_deg=90.0, tolerance_mm=0.1)
PIECE = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=5.0, tolerance_mm=0.05)


def check_bend(guide, length, item=PIECE):
    return check_rigid_in_guide(
        guide=guide, run_id="stay-run", state=State.DRAWING, item=replace(item, rigid_length_mm=length)
    )


def check_bore(diameter, beside=(), running=0.2):
    return check_line_in_guide(
        guide=GUIDE,
        run_id="stay-run",
        state=State.RIDING,
        item=Thing(id="hose", kind=ThingKind.LINE, diameter_mm=diameter, tolerance_mm=0.05),
        running_clearance_mm=running,
        beside=beside,
    )


def test_the_numbers_of_a_bend():
    check = check_bend(GUIDE, 30.0)
    worst = longest_rigid_in_bend_mm(
        bore_diameter_mm=7.9, inside_bend_radius_mm=56.0, turn_deg=90.0, piece_diameter_mm=5.05
    )
    assert (check.rule, check.run_id, check.port_id, check.state) == ("guide_bend", "stay-run", None, State.DRAWING)
    assert check.size_mm == 30.0
    assert check.available_mm == pytest.approx(38.729833, abs=2e-6)
    assert check.clearance_mm == pytest.approx(8.729833, abs=2e-6)
    assert check.worst_clearance_mm == pytest.approx(worst - 30.0)
    assert check.fit_class is None


@pytest.mark.parametrize(
    ("length", "outcome"),
    [
        (36.0, Outcome.FITS),
        (37.5, Outcome.FITS),
        (38.0, Outcome.TIGHT),
        (38.72, Outcome.TIGHT),
        (38.74, Outcome.NO_FIT),
        (60.0, Outcome.NO_FIT),
        (0.0, Outcome.FITS),
    ],
)
def test_outcomes_around_the_limits(length, outcome):
    """The longest piece is 38.73 at nominal sizes and 37.63 at the worse limits."""
    assert check_bend(GUIDE, length).outcome is outcome


def test_just_at_both_limits():
    nominal = longest_in_guide_mm(guide=GUIDE, item=PIECE, is_worst_case=False)
    worst = longest_in_guide_mm(guide=GUIDE, item=PIECE, is_worst_case=True)
    assert check_bend(GUIDE, worst).outcome is Outcome.FITS
    assert check_bend(GUIDE, nominal).outcome is Outcome.TIGHT


def test_a_short_turn_takes_a_longer_piece():
    assert check_bend(replace(GUIDE, turn_deg=10.0), 70.0).outcome is Outcome.FITS
    assert check_bend(GUIDE, 70.0).outcome is Outcome.NO_FIT


def test_a_straight_guide_takes_any_length():
    check = check_bend(replace(GUIDE, turn_deg=0.0, bend_radius_mm=None), 500.0)
    assert check.outcome is Outcome.FITS
    assert (check.available_mm, check.clearance_mm, check.note) == (None, None, "straight guide")


def test_a_guide_that_hardly_turns_has_a_bend_all_the_same():
    for turn_deg in (0.5, 1.0):
        check = check_bend(replace(GUIDE, turn_deg=turn_deg, bend_radius_mm=None), 500.0)
        assert (check.outcome, check.note) == (Outcome.UNKNOWN, "bend radius not measured")
        assert longest_in_guide_mm(guide=replace(GUIDE, turn_deg=turn_deg), item=PIECE, is_worst_case=False) < 1e6


def test_a_turn_of_unknown_radius_is_unknown():
    check = check_bend(replace(GUIDE, bend_radius_mm=None), 5.0)
    assert check.outcome is Outcome.UNKNOWN
    assert (check.clearance_mm, check.worst_clearance_mm) == (None, None)
    assert check.note == "bend radius not measured"


def test_a_piece_wider_than_the_bore_passes_at_no_length():
    check = check_bend(GUIDE, 10.0, Thing(id="sleeve", kind=ThingKind.JOINT, diameter_mm=8.01, tolerance_mm=0.0))
    assert check.outcome is Outcome.NO_FIT
    assert (check.available_mm, check.clearance_mm, check.note) == (0.0, -10.0, "wider than the bore")


def test_a_piece_that_may_be_wider_than_the_bore_is_never_sure():
    check = check_bend(GUIDE, 1.0, Thing(id="sleeve", kind=ThingKind.JOINT, diameter_mm=7.9, tolerance_mm=0.05))
    assert check.outcome is Outcome.TIGHT
    assert check.worst_clearance_mm == -1.0


@pytest.mark.parametrize(
    ("diameter", "outcome", "fit_class"),
    [
        (7.65, Outcome.FITS, FitClass.CLEARANCE),
        (7.66, Outcome.TIGHT, FitClass.CLEARANCE),
        (7.86, Outcome.TIGHT, FitClass.TRANSITION),
        (8.01, Outcome.NO_FIT, FitClass.TRANSITION),
        (8.20, Outcome.NO_FIT, FitClass.INTERFERENCE),
    ],
)
def test_one_line_in_the_bore(diameter, outcome, fit_class):
    check = check_bore(diameter)
    assert (check.rule, check.run_id, check.state) == ("guide_bore", "stay-run", State.RIDING)
    assert (check.outcome, check.fit_class) == (outcome, fit_class)
    assert check.available_mm == pytest.approx(8.0)
    assert check.clearance_mm == pytest.approx(8.0 - diameter)
    assert check.worst_clearance_mm == pytest.approx(8.0 - diameter - 0.15)


def test_two_lines_share_the_bore_by_the_sum_of_their_diameters():
    wire = Thing(id="wire", kind=ThingKind.LINE, diameter_mm=3.0, tolerance_mm=0.05)
    fits, jams = check_bore(4.3, beside=[wire]), check_bore(5.1, beside=[wire])
    assert fits.outcome is Outcome.FITS
    assert fits.with_ids == ("wire",)
    assert fits.clearance_mm == pytest.approx((8.0 - 7.3) / 2)
    assert fits.placement is not None
    assert jams.outcome is Outcome.NO_FIT
