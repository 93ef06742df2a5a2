"""Legs over the motion of bar and rear, and what they ask the mechanic to see to."""

from collections.abc import Sequence
from dataclasses import replace
from math import cos, radians, sin, sqrt

import pytest

from planner import plan_job
from planner.geometry.curves.hose_lengths import HoseRange, find_hose_ranges
from planner.geometry.curves.legs import LegRange, Posture
from planner.parts import (
    OUTSIDE,
    Anchor,
    Bar,
    Frame,
    Guide,
    MountKind,
    MovesWith,
    NewLine,
    OldLine,
    Point,
    Run,
    SinglePivot,
)
from planner.parts.lines import LineEnd
from planner.plan import leg_lengths
from planner.plan.cut_length import check_supplied_length, find_lengths, order_words
from planner.plan.leg_lengths import find_legs, hang_legs
from planner.plan.lengths import LegLength
from planner.rules import LengthRule, PlaceRule
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
from tests.planner.plan.test_ways_out_of_parts import POSTS, brake, brake_job, shop


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


def test_a_leg_at_a_glance_is_that_of_the_whole_frame() -> None:
    """To rounding: figures are worked out for all runs together, yes and no for those that are asked about."""
    frame, line = straight_frame(), make_line(minimum_bend_radius_mm=41.0)
    alone = find_legs(frame=frame, line=line, run_ids={"through-0"})
    assert set(alone) == {"through-0"}
    assert alone["through-0"].nominal_mm == pytest.approx(find_legs(frame=frame, line=line)["through-0"].nominal_mm)


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
    leg = hang_legs(frame=frame, line=line, legs=find_legs(frame=frame, line=line), run_ids=["to-0"])["to-0"]
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


def led_leg(*points_mm: Point, end_mm: Point, heading: Point = (-1.0, 0.0, 0.0), radius_mm: float = 50.0) -> LegLength:
    """A leg from the origin, heading along -x, past points; R is the centre line's."""
    port = make_port("in", position_mm=end_mm, heading=heading)
    run = Run(id="a", zone_id=OUTSIDE, between=("start", "in"), clips_mm=points_mm)
    frame = make_frame(port, runs=(run,))
    anchor = replace(frame.anchors["start"], position_mm=(0.0, 0.0, 0.0), heading=(-1.0, 0.0, 0.0))
    line = make_line(outer_diameter_mm=5.0, minimum_bend_radius_mm=radius_mm - 2.5)
    frame = replace(frame, anchors={**frame.anchors, "start": anchor})
    return hang_legs(frame=frame, line=line, legs=find_legs(frame=frame, line=line), run_ids=["a"])["a"]


def test_a_led_run_keeps_the_headings_of_its_ends_and_is_never_shorter_than_without_its_points() -> None:
    """There and back again past a point: the shortest curve without it takes 569.6 mm of R = 50."""
    leg = led_leg((200.0, 0.0, 0.0), end_mm=(400.0, 0.0, 0.0), heading=(1.0, 0.0, 0.0))
    assert leg.way_mm > 569.6
    assert leg.nominal_mm is None
    assert [check.rule for check in leg.length_checks] == [LengthRule.LEG_LOOP]


def test_a_led_run_is_as_long_as_its_pieces_and_hangs_longer() -> None:
    straight = led_leg((-200.0, 0.0, 0.0), end_mm=(-400.0, 0.0, 0.0))
    assert (straight.nominal_mm, straight.high_mm) == pytest.approx((400.0, 400.0))
    free = led_leg(end_mm=(-400.0, 60.0, 0.0))
    aside = led_leg((-200.0, 60.0, 0.0), end_mm=(-400.0, 60.0, 0.0))
    assert free.nominal_mm is not None
    assert aside.nominal_mm is not None
    assert aside.high_mm is not None
    assert free.nominal_mm < aside.nominal_mm < aside.high_mm
    assert aside.basis == "relaxed shape"
    assert (-200.0, 60.0, 0.0) in aside.curve.points_mm


@pytest.mark.parametrize("without_shape", [(), (0,), (1,), (0, 1)])
def test_a_led_run_is_an_estimate_where_one_of_its_pieces_is(
    without_shape: tuple[int, ...], monkeypatch: pytest.MonkeyPatch
) -> None:
    """As if no shape had been found of the piece before the point, of that behind it, or of both."""

    def found_in_part(ranges: Sequence[LegRange]) -> tuple[HoseRange, ...]:
        hoses = find_hose_ranges(ranges)
        assert len(hoses) == 2
        return tuple(
            replace(hose, estimated=(Posture(),) if n in without_shape else ()) for n, hose in enumerate(hoses)
        )

    monkeypatch.setattr(leg_lengths, "_find_hoses", found_in_part)
    leg = led_leg((-200.0, 60.0, 0.0), end_mm=(-400.0, 60.0, 0.0))
    assert leg.basis == ("estimate" if without_shape else "relaxed shape")


def test_clipping_the_cockpit_of_a_bar_never_shortens_it() -> None:
    bar = Bar(axis_point_mm=(405.0, 0.0, 612.0), axis=(-0.42, 0.0, 0.91), lock_deg=60.0)
    lever = Anchor(id="start", position_mm=(470, -210, 690), heading=(0.5, 0.85, 0.1), moves_with=MovesWith.BAR)
    port = make_port("in", position_mm=(416, 24, 520), heading=(-0.48, -0.643, -0.6))
    line = make_line(outer_diameter_mm=5.0, minimum_bend_radius_mm=35.0)

    def cockpit(*clips_mm: Point) -> LegLength:
        run = Run(id="a", zone_id=OUTSIDE, between=("start", "in"), clips_mm=clips_mm)
        frame = replace(make_frame(port, runs=(run,)), bar=bar)
        frame = replace(frame, anchors={**frame.anchors, "start": lever})
        return hang_legs(frame=frame, line=line, legs=find_legs(frame=frame, line=line), run_ids=["a"])["a"]

    free = cockpit()
    assert free.high_mm is not None
    for clip_mm in ((450.0, 60.0, 640.0), (500.0, 0.0, 640.0)):
        clipped = cockpit(clip_mm)
        assert clipped.high_mm is not None
        assert clipped.high_mm > free.high_mm
        assert clipped.least_mm >= free.least_mm


def test_points_that_no_bend_gets_past_stop_the_line_and_say_what_radius_would() -> None:
    """Two points 12 mm apart, across the way and back: a bend of 37.5 cannot dodge them, one of a few mm can."""
    frame = straight_frame()
    dodge = ((-250.0, 0.0, 0.0), (-245.0, 12.0, 0.0), (-260.0, 12.0, 0.0))
    bent = replace(frame.runs["through-0"], via_mm=dodge)
    plan = plan_job(job=make_job(replace(frame, runs={**frame.runs, "through-0": bent})), workshop=make_workshop())
    assert plan.outcome is Outcome.NO_FIT
    stopped = [one.check for one in plan.rejected if one.check.rule is PlaceRule.LED_POINT]
    assert {check.run_id for check in stopped} == {"through-0"}
    assert all(0 < check.available_mm < check.size_mm == 35 for check in stopped)
    assert plan.no_route is not None
    assert plan.no_route.runs == ("through-0",)


def test_points_that_no_bend_gets_past_are_left_by_other_changes_with_the_bend_that_would() -> None:
    """A change is looked at without that figure; whoever reads what it leaves needs it."""
    dodge = ((-250.0, 0.0, 0.0), (-245.0, 12.0, 0.0), (-260.0, 12.0, 0.0))
    frame = straight_frame(brakes={"rear": POSTS})
    bent = replace(frame.runs["through-0"], via_mm=dodge)
    job = replace(
        brake_job(named=brake(caliper_mount=MountKind.FLAT)),
        frame=replace(frame, runs={**frame.runs, "through-0": bent}),
    )
    no_route = plan_job(job=job, workshop=shop()).no_route
    assert no_route is not None
    left = [check for way in no_route.ways_out for check in way.leaves if check.rule is PlaceRule.LED_POINT]
    assert left
    assert all(check.size_mm == 35 and 0 < check.available_mm < 35 for check in left)


def test_points_that_coincide_or_lie_on_an_end_are_passed_once() -> None:
    twice = led_leg((-200.0, 0.0, 0.0), (-200.0, 0.0, 0.0), end_mm=(-400.0, 0.0, 0.0))
    at_end = led_leg((0.0, 0.0, 0.0), (-400.0, 0.0, 0.0), end_mm=(-400.0, 0.0, 0.0))
    assert twice.high_mm == pytest.approx(400.0)
    assert at_end.high_mm == pytest.approx(400.0)


def nearly_touching(aside_mm: float) -> Frame:
    """The last port 6 mm before the end, aside of it by so much."""
    frame = straight_frame()
    end = replace(frame.anchors["end"], position_mm=(-506.0, aside_mm, 0.0))
    return replace(frame, anchors={**frame.anchors, "end": end})


def test_ends_that_nearly_touch_leave_the_length_to_be_asked_where_only_a_loop_joins_them() -> None:
    job = make_job(nearly_touching(0.0))
    straight = plan_job(job=job, workshop=make_workshop())
    assert straight.lengths is not None
    assert straight.lengths.known
    assert straight.lengths.legs[-1].high_mm == pytest.approx(6.0)
    looped = plan_job(job=replace(job, frame=nearly_touching(0.5)), workshop=make_workshop())
    assert looped.outcome is straight.outcome is Outcome.FITS
    assert looped.lengths is not None
    assert not looped.lengths.known
    assert (looped.lengths.need_mm, looped.lengths.cut_mm, looped.lengths.spare_mm) == (None, None, None)
    assert looped.lengths.legs[-1].high_mm is None
    (asked,) = (check for check in looped.advisories if check.rule is LengthRule.LEG_LOOP)
    # sqrt(4 R y - y^2) = 6 with y = 0.5: R = (36 + 0.25) / 2 to the centre line, less half of 5 mm
    assert asked.available_mm == pytest.approx(18.125 - 2.5, abs=0.05)
    assert asked.clearance_mm is not None
    assert asked.clearance_mm > 200
    assert (check_supplied_length(lengths=looped.lengths), order_words(looped.lengths)) == (None, None)


@pytest.mark.parametrize(("turn_deg", "is_known"), [(179.0, True), (186.0, False)])
def test_a_turn_of_little_more_than_half_a_circle_asks_for_the_headings(turn_deg: float, is_known: bool) -> None:
    """One arc of 37.5 that turns the line back on itself, and 80 mm straight on from there."""
    turn, frame = radians(turn_deg), straight_frame()
    x, y = -37.5 * sin(turn) - 80 * cos(turn), 37.5 * (1 - cos(turn)) + 80 * sin(turn)
    end = replace(frame.anchors["end"], position_mm=(x - 500, y, 0.0), heading=(cos(turn), -sin(turn), 0.0))
    frame, line = replace(frame, anchors={**frame.anchors, "end": end}), make_line()
    leg = hang_legs(frame=frame, line=line, legs=find_legs(frame=frame, line=line), run_ids=["from-0"])["from-0"]
    assert leg.way_mm == pytest.approx(37.5 * turn + 80)
    assert (leg.high_mm is not None) is is_known
    assert [check.rule for check in leg.length_checks] == ([] if is_known else [LengthRule.LEG_EDGE])


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
