"""What a leg asks of the mechanic and how it is told: spans, slack, lengths that disagree, its other end; by hand."""

from dataclasses import replace
from math import sqrt
from typing import Any

import pytest

from planner.geometry.motion.frame_axes import Curve
from planner.parts import OUTSIDE, Guide, Job, JobEnd, LengthBy, Run
from planner.plan.joint_drag import drag_legs
from planner.plan.leg_questions import leg_questions
from planner.plan.leg_views import (
    leg_as_travelled,
    longest_free_span_mm,
    ranking_lengths_mm,
    told_by_eye,
    turn_of_leg_deg,
    with_slack,
)
from planner.plan.lengths import LegLength, Lengths
from planner.plan.tightest import tightest_by_port
from planner.rules import LengthRule, PlaceRule
from planner.verdicts import Check, Outcome, State
from tests.builders import make_frame, make_job, make_limits, make_port, make_run

CORNER = Curve(
    points_mm=((0.0, 0.0, 0.0), (0.0, 300.0, 0.0), (0.0, 300.0, 100.0)), length_mm=400.0, tightest_radius_mm=None
)
STRAIGHT = Curve(points_mm=((0.0, 0.0, 0.0), (0.0, 300.0, 0.0)), length_mm=300.0, tightest_radius_mm=None)
GUIDE = Guide(bore_diameter_mm=6.0, bend_radius_mm=60.0, turn_deg=35.0, tolerance_mm=0.1)


def leg(run_id: str = "a", **changes: Any) -> LegLength:
    """A leg of 300 mm between two places."""
    sizes = dict.fromkeys(("way_mm", "nominal_mm", "low_mm", "high_mm", "least_mm"), 300.0)
    fields = {"run_id": run_id, "from_place": "start", "to_place": "p", "basis": "shortest curve", **sizes}
    return LegLength(**{**fields, **changes})


def lengths(*legs: LegLength, **changes: Any) -> Lengths:
    fields: dict[str, Any] = {"need_mm": 900.0, "cut_mm": 1000.0, "supplied_mm": None, "spare_mm": None}
    return Lengths(**{"legs": legs, "insertion_mm": 0.0, "trim_mm": 0.0, **fields, **changes})


def job_with(*runs: Run) -> Job:
    return make_job(make_frame(make_port("p"), make_port("q"), runs=runs))


OPEN = make_run("a", "start", "p", zone_id=OUTSIDE)


def asked(found: Lengths, run: Run = OPEN) -> list[tuple[Any, ...]]:
    """Rule, outcome, figure, limit and note of each question, of a shop that minds 250 mm of span and 30 of slack."""
    questions = leg_questions(job=job_with(run), lengths=found, limits=make_limits())
    return [(one.rule, one.outcome, one.size_mm, one.available_mm, one.note) for one in questions]


@pytest.mark.parametrize(("way_mm", "is_asked"), [(250.0, False), (250.1, True)])
def test_a_span_that_hangs_free_is_asked_about_beyond_the_shops_limit(way_mm: float, is_asked: bool) -> None:
    told = asked(lengths(leg(way_mm=way_mm)))
    assert told == ([(LengthRule.FREE_SPAN, Outcome.TIGHT, way_mm, 250.0, "")] if is_asked else [])


@pytest.mark.parametrize(
    ("run", "changes"),
    [
        (make_run("a", "start", "p", zone_id="tube"), {}),  # it does not hang in a tube
        (replace(OPEN, guide=GUIDE), {}),
        (OPEN, {"high_mm": None}),  # its length is not known
        (OPEN, {"way_mm": None}),
    ],
)
def test_no_other_leg_hangs_free(run: Run, changes: dict[str, Any]) -> None:
    assert asked(lengths(leg(**changes)), run) == []


def test_a_clip_holds_up_a_span() -> None:
    """From the start 180 to a clip, and from there 120 along and 100 up: 156 to the end."""
    clipped = replace(OPEN, clips_mm=((0.0, 180.0, 0.0),))
    found = leg(way_mm=400.0, curve=CORNER)
    assert longest_free_span_mm(leg=found, run=clipped) == 180.0
    assert longest_free_span_mm(leg=found, run=replace(OPEN, clips_mm=((0.0, 100.0, 0.0),))) == sqrt(200**2 + 100**2)
    assert longest_free_span_mm(leg=found, run=OPEN) == 400.0
    assert longest_free_span_mm(leg=leg(way_mm=400.0), run=clipped) == 400.0
    assert asked(lengths(found), clipped) == []


@pytest.mark.parametrize(("varies_mm", "is_asked"), [(None, False), (30.0, False), (30.1, True)])
def test_slack_that_changes_is_told_from_posture_to_posture(varies_mm: float | None, is_asked: bool) -> None:
    moving = leg(way_mm=100.0, slack_variation_mm=varies_mm, slackest_posture="bar +75°", worst_posture="bar -75°")
    note = "from bar +75° to bar -75°"
    told = asked(lengths(moving))
    assert told == ([(LengthRule.SLACK_VARIATION, Outcome.TIGHT, varies_mm, 30.0, note)] if is_asked else [])
    assert asked(lengths(replace(moving, high_mm=None))) == []


@pytest.mark.parametrize(
    ("bases", "note"),
    [
        (("not measured", "shortest curve"), "1 of its legs"),
        (("not measured, with 20 mm of slack", "not measured"), "any of its legs"),
        (("shortest curve", "told"), None),
    ],
)
def test_legs_that_nobody_told_are_asked_for_where_no_length_is_known(bases: tuple[str, str], note: str | None) -> None:
    legs = [leg(way_mm=100.0, basis=basis) for basis in bases]
    told = asked(lengths(*legs, cut_mm=None))
    assert told == ([] if note is None else [(LengthRule.LENGTH_NOT_TOLD, Outcome.UNKNOWN, None, None, note)])
    assert asked(lengths(*legs)) == []  # the old line tells it


@pytest.mark.parametrize(
    ("high_mm", "changes", "outcome", "slack_mm"),
    [
        (306.0, {}, Outcome.FITS, 12.0),
        (305.9, {}, Outcome.TIGHT, 11.8),
        (306.0, {"is_from_old_line": True}, Outcome.UNKNOWN, None),
    ],
)
def test_a_line_that_shortens_under_pressure_wants_as_much_slack(
    high_mm: float, changes: dict[str, Any], outcome: Outcome, slack_mm: float | None
) -> None:
    legs = (leg(way_mm=100.0, high_mm=high_mm), leg(way_mm=100.0, high_mm=high_mm))
    ((rule, told, size_mm, available_mm, _),) = asked(lengths(*legs, pressure_mm=12.0, **changes))
    assert (rule, told, size_mm) == (LengthRule.PRESSURE, outcome, 12.0)
    assert available_mm == (None if slack_mm is None else pytest.approx(slack_mm))


def test_a_leg_without_length_takes_nothing_from_the_slack_of_the_others() -> None:
    none = leg(way_mm=0.0, nominal_mm=0.0, low_mm=0.0, high_mm=0.0, least_mm=0.0)
    ((_, outcome, _, slack_mm, _),) = asked(lengths(leg(way_mm=100.0, high_mm=312.0), none, pressure_mm=12.0))
    assert (outcome, slack_mm) == (Outcome.FITS, 12.0)


def test_how_much_of_a_told_length_is_slack_nobody_knows() -> None:
    legs = (leg(way_mm=100.0, high_mm=400.0), leg(way_mm=100.0, told_by=LengthBy.TAPE))
    assert asked(lengths(*legs, pressure_mm=12.0)) == [(LengthRule.PRESSURE, Outcome.UNKNOWN, 12.0, None, "")]


@pytest.mark.parametrize(
    ("ratio", "outcome", "note"),
    [
        (0.03, Outcome.FITS, "+3 %"),
        (-0.03, Outcome.FITS, "-3 %"),
        (0.0301, Outcome.UNKNOWN, "+3 %"),
        (-0.04, Outcome.UNKNOWN, "-4 %"),
    ],
)
def test_an_old_line_that_disagrees_is_told_by_how_much(ratio: float, outcome: Outcome, note: str) -> None:
    found = lengths(leg(way_mm=100.0), old_makes_mm=1000 * (1 + ratio), measured_difference_ratio=ratio)
    assert asked(found) == [(LengthRule.MEASURED_LENGTH, outcome, 1000.0, 1000 * (1 + ratio), note)]


def test_a_leg_without_length_counts_as_the_middle_of_the_others_where_ways_are_put_in_order() -> None:
    legs = {"a": leg(way_mm=100.0), "b": leg(way_mm=None), "c": leg(way_mm=300.0)}
    assert ranking_lengths_mm(legs) == {"a": 100.0, "b": 200.0, "c": 300.0}
    assert ranking_lengths_mm({"a": legs["b"], "b": legs["b"]}) == {"a": 1.0, "b": 1.0}


def test_a_leg_turns_as_its_guide_or_its_curve_does() -> None:
    assert turn_of_leg_deg(leg=leg(curve=CORNER), run=OPEN) == pytest.approx(90.0)
    assert turn_of_leg_deg(leg=leg(curve=CORNER), run=replace(OPEN, guide=GUIDE)) == 35.0
    assert turn_of_leg_deg(leg=leg(curve=STRAIGHT), run=OPEN) == 0.0
    assert turn_of_leg_deg(leg=leg(), run=OPEN) == 0.0


def test_a_leg_is_told_from_the_end_it_is_entered_at() -> None:
    found = leg(curve=CORNER, relaxed_curve=STRAIGHT)
    assert leg_as_travelled(leg=found, from_place="start") is found
    back = leg_as_travelled(leg=found, from_place="p")
    assert (back.from_place, back.to_place) == ("p", "start")
    assert back.curve is not None
    assert back.relaxed_curve is not None
    assert (back.curve.points_mm, back.relaxed_curve.points_mm) == (CORNER.points_mm[::-1], STRAIGHT.points_mm[::-1])
    assert leg_as_travelled(leg=leg(), from_place="p").curve is None


def test_places_told_by_eye_leave_what_was_measured() -> None:
    for kept in (leg(told_by=LengthBy.TAPE), leg(basis="measured")):
        assert told_by_eye(kept) is kept
    seen = told_by_eye(leg(curve=CORNER))
    assert (seen.nominal_mm, seen.low_mm, seen.high_mm, seen.least_mm, seen.slack_variation_mm) == (None,) * 5
    assert (seen.basis, seen.way_mm, seen.curve) == ("not measured", 300.0, CORNER)


def test_slack_kept_on_purpose_counts_in_every_length_that_is_known() -> None:
    kept = replace(OPEN, slack_mm=40.0)
    found = with_slack(leg=leg(least_mm=None), run=kept)
    assert (found.nominal_mm, found.low_mm, found.high_mm, found.least_mm) == (340.0, 340.0, 340.0, None)
    assert (found.way_mm, found.basis) == (300.0, "shortest curve, with 40 mm of slack")
    plain = leg()
    assert with_slack(leg=plain, run=OPEN) is plain


PORTS = {
    port.id: port
    for port in (
        make_port("p", position_mm=(0.0, 0.0, 500.0), entry_drag_n=1.0),
        make_port("q", position_mm=(0.0, 0.0, 300.0), entry_drag_n=2.0),
        make_port("r", position_mm=(0.0, 0.0, 380.0), entry_drag_n=None),
    )
}


def met(feed_from: JobEnd, *legs: LegLength, **changes: Any) -> list[tuple[float, float, float | None, float]]:
    ports = {key: replace(port, **changes) for key, port in PORTS.items()}
    frame = replace(make_frame(runs=()), ports=ports)
    found = drag_legs(frame=frame, port_ids=("p", "q", "r"), between=legs, turns_deg=(10.0, 20.0), feed_from=feed_from)
    return [(one.turn_deg, one.length_mm, one.entry_drag_n, one.rise_mm) for one in found]


def test_holes_and_legs_are_met_in_the_order_the_line_goes_in() -> None:
    """From p at 500 down to q at 300 and up to r at 380; the last hole is the end of it."""
    legs = (leg("a", way_mm=250.0), leg("b", way_mm=120.0))
    assert met(JobEnd.FROM, *legs) == [(10.0, 250.0, 1.0, -200.0), (20.0, 120.0, 2.0, 80.0), (0.0, 0.0, None, 0.0)]
    assert met(JobEnd.TO, *legs) == [(20.0, 120.0, None, -80.0), (10.0, 250.0, 2.0, 200.0), (0.0, 0.0, 1.0, 0.0)]


def test_where_places_are_not_told_or_deny_the_length_a_leg_counts_as_hanging_straight_down() -> None:
    short = (leg("a", way_mm=199.0), leg("b", way_mm=80.0))
    assert [rise for *_, rise in met(JobEnd.FROM, *short)] == [-199.0, 80.0, 0.0]
    assert [rise for *_, rise in met(JobEnd.FROM, *short, position_mm=None)] == [-199.0, -80.0, 0.0]
    unknown = (leg("a", way_mm=None), leg("b", way_mm=None))
    assert [(length, rise) for _, length, _, rise in met(JobEnd.FROM, *unknown)] == [(0.0, 0.0)] * 3


def test_of_each_hole_the_moment_with_the_least_to_spare_is_told() -> None:
    def hole(port_id: str, outcome: Outcome, worst_mm: float | None, state: State) -> Check:
        return Check(
            rule=PlaceRule.PORT_CLEARANCE, outcome=outcome, port_id=port_id, worst_clearance_mm=worst_mm, state=state
        )

    drawing, riding = State.DRAWING, State.RIDING
    checks = (
        hole("p", Outcome.FITS, 0.4, drawing),
        hole("p", Outcome.FITS, 0.3, riding),
        hole("q", Outcome.TIGHT, 0.5, drawing),
        hole("q", Outcome.FITS, 0.1, riding),
        hole("r", Outcome.FITS, 0.2, drawing),
        hole("s", Outcome.FITS, None, drawing),
        hole("s", Outcome.FITS, 0.9, riding),
        Check(rule=PlaceRule.WALL_ENTRY, outcome=Outcome.NO_FIT, port_id="p", worst_clearance_mm=-3.0),
    )

    class Plan:
        pass

    plan = Plan()
    plan.checks = checks  # type: ignore[attr-defined]
    found = tightest_by_port(plan, ("q", "p", "s"))  # type: ignore[arg-type]
    assert found == {"p": checks[1], "q": checks[2], "s": checks[6]}
    assert list(found) == ["p", "q", "s"]
