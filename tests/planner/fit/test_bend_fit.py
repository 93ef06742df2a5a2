"""A guide's bend against the line that lies in it: worked by hand, at, below and above each limit."""

from dataclasses import replace

import pytest

from planner.fit.bend_fit import check_guide_bends_line
from planner.parts import Guide
from planner.rules import PlaceRule
from planner.verdicts import Outcome, State
from tests.builders import make_line

GUIDE = Guide(bore_diameter_mm=6.0, bend_radius_mm=40.0, turn_deg=90.0, tolerance_mm=0.0)
"""A line of 5.0 has 1.0 of play in it: 40.5 in the middle of the bore, 41.0 against the outer wall."""


@pytest.mark.parametrize(
    ("needed_mm", "outcome"),
    [
        (40.0, Outcome.FITS),
        (40.5, Outcome.FITS),
        (40.51, Outcome.TIGHT),
        (41.0, Outcome.TIGHT),
        (41.01, Outcome.NO_FIT),
    ],
)
def test_the_middle_of_the_bore_decides_and_the_outer_wall_is_the_most_it_can_gain(
    needed_mm: float, outcome: Outcome
) -> None:
    check = check_guide_bends_line(guide=GUIDE, run_id="loop", line=make_line(minimum_bend_radius_mm=needed_mm))
    assert check is not None
    assert (check.rule, check.outcome, check.run_id, check.state) == (
        PlaceRule.BEND_RADIUS,
        outcome,
        "loop",
        State.RIDING,
    )
    assert (check.size_mm, check.available_mm) == (needed_mm, 40.5)
    assert check.clearance_mm == pytest.approx(40.5 - needed_mm)


def test_a_line_that_fills_the_bore_gains_nothing() -> None:
    thick = make_line(outer_diameter_mm=6.5, minimum_bend_radius_mm=40.0)
    check = check_guide_bends_line(guide=GUIDE, run_id="loop", line=thick)
    assert check is not None
    assert (check.outcome, check.available_mm, check.clearance_mm) == (Outcome.FITS, 40.0, 0.0)


def test_a_bend_that_nobody_measured_is_unknown_and_a_straight_guide_asks_nothing() -> None:
    blind = check_guide_bends_line(guide=replace(GUIDE, bend_radius_mm=None), run_id="loop", line=make_line())
    assert blind is not None
    assert (blind.outcome, blind.size_mm, blind.available_mm, blind.state) == (
        Outcome.UNKNOWN,
        35.0,
        None,
        State.RIDING,
    )
    straight = replace(GUIDE, turn_deg=0.0, bend_radius_mm=None)
    assert check_guide_bends_line(guide=straight, run_id="loop", line=make_line()) is None
    hardly = replace(GUIDE, turn_deg=0.5)
    assert check_guide_bends_line(guide=hardly, run_id="loop", line=make_line()) is not None
