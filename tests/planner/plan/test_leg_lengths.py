"""Legs over the motion of bar and rear, and what they ask the mechanic to see to."""

from dataclasses import replace
from math import cos, pi, radians, sqrt

import pytest

from planner import plan_job
from planner.parts import OUTSIDE, Anchor, Bar, Guide, MovesWith, NewLine, OldLine, Run, SinglePivot
from planner.parts.lines import LineEnd
from planner.plan.cut_length import find_lengths
from planner.plan.leg_lengths import find_legs
from planner.verdicts import Outcome
from tests.builders import (
    make_frame,
    make_job,
    make_lane_frame,
    make_limits,
    make_line,
    make_port,
    make_run,
    make_workshop,
)


def straight_frame(**changes):
    """Start and end in line with two holes, 1200 mm apart."""
    frame = make_lane_frame((8.0, 8.0))
    return replace(frame, **changes)


def test_a_leg_that_nothing_moves_is_as_long_as_its_shortest_curve() -> None:
    """All in one line: 300 + 500 + 400 mm."""
    legs = find_legs(frame=straight_frame(), line=make_line())
    assert [legs[run_id].nominal_mm for run_id in ("to-0", "through-0", "from-0")] == pytest.approx([300, 500, 400])
    assert {leg.low_mm for leg in legs.values()} == {leg.high_mm for leg in legs.values()}
    assert legs["to-0"].worst_posture == "at rest"


def test_the_bar_is_taken_where_the_line_must_reach_farthest() -> None:
    """Steering distance by the law of cosines: L^2 = a^2 + b^2 + h^2 - 2 a b cos(phi), from 60/40/80 mm apart.

    The headings are chosen so that the shortest curve is checked against the straight distance as its lower bound.
    """
    bar = Bar(axis_point_mm=(0.0, 0.0, 0.0), axis=(0.0, 0.0, 1.0), lock_deg=60.0)
    anchor = Anchor(id="start", position_mm=(40.0, 0.0, 80.0), heading=(0.0, 0.0, -1.0), moves_with=MovesWith.BAR)
    frame = straight_frame()
    port = replace(frame.ports["in-0"], position_mm=(60.0, 0.0, 0.0), heading=(0.0, 0.0, -1.0))
    frame = replace(frame, bar=bar, anchors={**frame.anchors, "start": anchor}, ports={**frame.ports, "in-0": port})
    line = make_line(minimum_bend_radius_mm=1.0, outer_diameter_mm=2.2, bore_diameter_mm=None)
    leg = find_legs(frame=frame, line=line)["to-0"]
    apart_mm = sqrt(40**2 + 60**2 + 80**2 - 2 * 40 * 60 * cos(radians(60)))
    assert apart_mm < leg.high_mm < apart_mm + 4
    assert "60°" in leg.worst_posture
    assert leg.slack_variation_mm == pytest.approx(leg.least_mm - leg.low_mm)
    assert leg.low_mm <= leg.nominal_mm <= leg.least_mm <= leg.high_mm


def test_ports_that_ride_on_the_rear_do_not_change_the_run_between_them() -> None:
    rear = SinglePivot(pivot_mm=(0.0, 50.0), swing_deg=20.0, moves=("in-0", "out-0"))
    legs = find_legs(frame=straight_frame(rear=rear), line=make_line())
    assert legs["through-0"].slack_variation_mm == 0
    assert legs["to-0"].slack_variation_mm > 0


def test_a_measured_guide_counts_as_measured() -> None:
    guide = Guide(bore_diameter_mm=7.0, bend_radius_mm=300.0, turn_deg=10.0, length_mm=512.0, tolerance_mm=0.1)
    frame = straight_frame()
    runs = {**frame.runs, "through-0": replace(frame.runs["through-0"], guide=guide)}
    leg = find_legs(frame=replace(frame, runs=runs), line=make_line())["through-0"]
    assert (leg.low_mm, leg.nominal_mm, leg.high_mm, leg.basis) == (512.0, 512.0, 512.0, "measured")


def test_via_points_are_joined_with_fillets() -> None:
    """Tangent arcs: 650 - 2 (2 T - arc) = 607.0796 for three legs of 200, 150 and 300 mm and R = 50 mm."""
    port = make_port("in", position_mm=(200.0, 150.0, 300.0), heading=(0.0, 0.0, 1.0))
    run = Run(id="a", zone_id=OUTSIDE, between=("start", "in"), via_mm=((200.0, 0.0, 0.0), (200.0, 150.0, 0.0)))
    frame = make_frame(port, runs=(run,))
    anchor = replace(frame.anchors["start"], position_mm=(0.0, 0.0, 0.0))
    line = make_line(outer_diameter_mm=5.0, minimum_bend_radius_mm=47.5)
    leg = find_legs(frame=replace(frame, anchors={**frame.anchors, "start": anchor}), line=line)["a"]
    assert leg.nominal_mm == pytest.approx(650 - 2 * (100 - 50 * pi / 2), abs=1e-9)
    assert leg.basis == "fillets"


def test_a_corner_too_tight_for_the_line_stops_it_and_says_what_radius_there_is() -> None:
    frame = straight_frame()
    bent = replace(frame.runs["through-0"], via_mm=((-250.0, 0.0, 0.0), (-250.0, 30.0, 0.0)))
    plan = plan_job(job=make_job(replace(frame, runs={**frame.runs, "through-0": bent})), workshop=make_workshop())
    assert plan.outcome is Outcome.NO_FIT
    stopped = [rejection for rejection in plan.rejected if rejection.check.rule == "bend_radius"]
    assert {rejection.check.run_id for rejection in stopped} == {"through-0"}
    assert all(rejection.check.available_mm < rejection.check.size_mm == 37.5 for rejection in stopped)
    assert plan.no_route is not None
    assert plan.no_route.runs == ("through-0",)


@pytest.mark.parametrize(
    ("guide_radius_mm", "outcome"),
    [(35.0, Outcome.FITS), (34.0, Outcome.FITS), (33.9, Outcome.TIGHT), (33.0, Outcome.TIGHT), (32.9, Outcome.NO_FIT)],
)
def test_a_guide_must_not_bend_the_line_tighter_than_its_maker_allows(guide_radius_mm: float, outcome: Outcome) -> None:
    """Line 5 mm in a bore of 7: 2 mm of play; in the middle it bends 1 mm wider than the guide, at most 2 mm wider."""
    guide = Guide(bore_diameter_mm=7.0, bend_radius_mm=guide_radius_mm, turn_deg=20.0, tolerance_mm=0.0)
    frame = straight_frame()
    runs = {**frame.runs, "through-0": replace(frame.runs["through-0"], guide=guide)}
    plan = plan_job(job=make_job(replace(frame, runs=runs)), workshop=make_workshop())
    told = [check.outcome for check in plan.checks if check.rule == "bend_radius"]
    assert (told or [plan.outcome])[0] is outcome


def test_free_spans_are_told_until_a_clip_shortens_them() -> None:
    frame = straight_frame()
    plan = plan_job(job=make_job(frame), workshop=make_workshop())
    assert {(c.run_id, c.size_mm) for c in plan.advisories if c.rule == "free_span"} == {("to-0", 300), ("from-0", 400)}
    clipped = replace(frame.runs["from-0"], clips_mm=((-700.0, 0.0, 0.0),))
    plan = plan_job(job=make_job(replace(frame, runs={**frame.runs, "from-0": clipped})), workshop=make_workshop())
    assert {c.run_id for c in plan.advisories if c.rule == "free_span"} == {"to-0"}


@pytest.mark.parametrize(
    ("measured_mm", "outcome"), [(1210, Outcome.FITS), (1170, Outcome.UNKNOWN), (1250, Outcome.UNKNOWN)]
)
def test_a_measured_old_line_that_disagrees_is_questioned(measured_mm: float, outcome: Outcome) -> None:
    old = OldLine(line=make_line(id="old"), from_end=LineEnd(), to_end=LineEnd(), measured_length_mm=float(measured_mm))
    plan = plan_job(job=make_job(straight_frame(), old=old), workshop=make_workshop())
    (told,) = (check for check in plan.advisories if check.rule == "measured_length")
    assert told.outcome is outcome
    assert plan.outcome is Outcome.FITS


@pytest.mark.parametrize(
    ("need_mm", "cut_mm"), [(1190.0, 1200.0), (1190.1, 1205.0), (1195.0, 1205.0), (1194.9, 1205.0)]
)
def test_cut_lengths_are_rounded_up_to_the_shops_step(need_mm: float, cut_mm: float) -> None:
    """Need plus 10 mm to trim, no fittings, up to the next 5 mm."""
    legs = find_legs(frame=straight_frame(), line=make_line())
    leg = replace(legs["to-0"], high_mm=need_mm)
    job = make_job(straight_frame(), new=NewLine(line=make_line(), from_end=LineEnd(), to_end=LineEnd()))
    assert find_lengths(job=job, legs=[leg], limits=make_limits()).cut_mm == cut_mm


def test_a_run_told_the_other_way_round_is_as_long() -> None:
    frame = straight_frame()
    turned = make_run("through-0", "out-0", "in-0", zone_id="tube-0")
    other = find_legs(frame=replace(frame, runs={**frame.runs, "through-0": turned}), line=make_line())
    assert other["through-0"].nominal_mm == pytest.approx(
        find_legs(frame=frame, line=make_line())["through-0"].nominal_mm
    )
