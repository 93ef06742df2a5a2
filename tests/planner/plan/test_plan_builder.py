"""Whole plans on small frames: what is chosen, what is kept with its reason, and the proof of a no."""

from collections import Counter
from dataclasses import replace
from math import exp, pi

import pytest

from planner import plan_as_record, plan_job
from planner.parts import (
    OUTSIDE,
    Fitting,
    FittingStyle,
    Guide,
    Insert,
    JobEnd,
    LineEnd,
    NewLine,
    OldLine,
    RoundOpening,
    SetBy,
    Zone,
)
from planner.verdicts import Outcome, State
from tests.builders import (
    make_coupler,
    make_frame,
    make_job,
    make_lane_frame,
    make_line,
    make_port,
    make_run,
    make_sleeve,
    make_spoke,
    make_workshop,
)


def make_fitting(**changes):
    fields = {
        "id": "nut",
        "name": "Nut",
        "style": FittingStyle.COMPRESSION,
        "set_by": SetBy.WORKSHOP,
        "outer_diameter_mm": 9.5,
        "length_mm": 18.0,
    }
    return Fitting(**{**fields, **changes})


CRIMPED = make_fitting(id="crimp", style=FittingStyle.CRIMPED, set_by=SetBy.FACTORY)


def test_the_joint_that_holds_is_chosen_before_the_quicker_one_that_does_not() -> None:
    plan = plan_job(job=make_job(make_lane_frame((8.0, 8.0))), workshop=make_workshop(make_spoke(), make_coupler()))
    assert (plan.outcome, plan.method_id, plan.route) == (Outcome.FITS, "stud", ("in-0", "out-0"))
    spokes = [option for option in plan.options if option.method_id == "spoke"]
    assert {option.remark for option in spokes} == {"holds_nothing"}
    assert {option.holds_drag for option in spokes} == {False}


@pytest.mark.parametrize(
    ("hole_mm", "method_id"),
    [(8.0, "sleeve"), (5.6, "stud"), (5.2, "spoke")],
)
def test_a_tighter_hole_leaves_only_the_thinner_joint(hole_mm: float, method_id: str) -> None:
    """Sleeve joint 6.708 mm, the quickest; stud joint 5.230 mm; spoke joint 5.0 mm, which holds nothing."""
    plan = plan_job(job=make_job(make_lane_frame((8.0, hole_mm))), workshop=make_workshop())
    assert plan.method_id == method_id


def test_a_fit_below_the_running_clearance_is_tight() -> None:
    """Spoke joint 5.0 + 0.05 in 5.3 - 0.1 leaves 0.15 mm, under the shop's 0.2 mm."""
    plan = plan_job(job=make_job(make_lane_frame((8.0, 5.3))), workshop=make_workshop(make_spoke()))
    assert plan.outcome is Outcome.TIGHT


def test_no_route_names_the_fewest_ports_and_the_closest_miss_of_each_method() -> None:
    frame = make_lane_frame((4.0, 4.5), (8.0, 4.9))
    plan = plan_job(job=make_job(frame), workshop=make_workshop(make_spoke(), make_sleeve()))
    assert (plan.outcome, plan.route, plan.method_id) == (Outcome.NO_FIT, (), None)
    assert plan.no_route is not None
    assert len(plan.no_route.ports) == 2
    assert "out-1" in plan.no_route.ports
    spoke, sleeve = plan.no_route.closest_misses
    assert (spoke.method_id, spoke.check.port_id) == ("spoke", "out-1")
    assert spoke.check.clearance_mm == pytest.approx(-0.1)
    assert sleeve.check.clearance_mm == pytest.approx(4.9 - 6.708204, abs=1e-5)


def test_ends_that_no_run_links_are_told_so() -> None:
    frame = make_frame(make_port("in"), runs=(make_run("a", "start", "in", zone_id=OUTSIDE),))
    plan = plan_job(job=make_job(frame), workshop=make_workshop())
    assert plan.no_route is not None
    assert not plan.no_route.is_connected


def test_a_port_nobody_measured_is_unknown_and_not_planned_on() -> None:
    plan = plan_job(job=make_job(make_lane_frame((8.0, None))), workshop=make_workshop())
    assert plan.outcome is Outcome.UNKNOWN
    measured = plan_job(job=make_job(make_lane_frame((8.0, None), (5.6, 5.6))), workshop=make_workshop())
    assert measured.route == ("in-1", "out-1")


def test_a_fitted_leading_end_must_pass_and_the_other_direction_is_taken() -> None:
    new = NewLine(line=make_line(id="new"), from_end=LineEnd(), to_end=LineEnd(fitting=make_fitting(), is_fitted=True))
    plan = plan_job(job=make_job(make_lane_frame((8.0, 8.0)), new=new), workshop=make_workshop(make_coupler()))
    assert (plan.feed_from, plan.cut_old_at) == (JobEnd.TO, JobEnd.TO)
    rejected = {(r.feed_from, r.check.rule, r.check.port_id) for r in plan.rejected}
    assert (JobEnd.FROM, "leading_fitting", "in-0") in rejected


def test_a_crimped_fitting_that_is_not_on_yet_cannot_lead() -> None:
    new = NewLine(line=make_line(id="new"), from_end=LineEnd(), to_end=LineEnd(fitting=CRIMPED))
    plan = plan_job(job=make_job(make_lane_frame((8.0, 8.0)), new=new), workshop=make_workshop(make_coupler()))
    assert plan.feed_from is JobEnd.TO
    assert "leading_end" in {r.check.rule for r in plan.rejected if r.feed_from is JobEnd.FROM}


def test_a_kept_brake_is_never_cut_at_its_crimped_end() -> None:
    old = OldLine(line=make_line(id="old"), from_end=LineEnd(fitting=CRIMPED, is_fitted=True), to_end=LineEnd())
    frame = make_lane_frame((8.0, 8.0))
    workshop = make_workshop(make_coupler())
    assert plan_job(job=make_job(frame, old=old), workshop=workshop).cut_old_at is JobEnd.FROM
    kept = plan_job(job=make_job(frame, old=old, keeps_old_brake=True), workshop=workshop)
    assert kept.cut_old_at is JobEnd.TO
    assert "cut_end" in {r.check.rule for r in kept.rejected if r.feed_from is JobEnd.FROM}


def test_an_insert_that_comes_out_lets_the_joint_pass_and_goes_back_for_riding() -> None:
    insert = Insert(opening=RoundOpening(diameter_mm=5.4, tolerance_mm=0.1), is_removable=True)
    frame = make_frame(
        make_port("in", diameter_mm=8.0, insert=insert),
        make_port("out", diameter_mm=8.0, joins=("tube", OUTSIDE)),
        runs=(
            make_run("a", "start", "in", zone_id=OUTSIDE),
            make_run("b", "in", "out"),
            make_run("c", "out", "end", zone_id=OUTSIDE),
        ),
    )
    workshop = make_workshop(make_sleeve())
    plan = plan_job(job=make_job(frame), workshop=workshop)
    sizes = {
        check.state: check.available_mm
        for check in plan.checks
        if check.port_id == "in" and check.rule == "port_clearance"
    }
    assert sizes == {State.DRAWING: pytest.approx(8.0), State.RIDING: pytest.approx(5.4)}
    kept_in = plan_job(job=make_job(frame, may_remove_inserts=False), workshop=workshop)
    assert kept_in.outcome is Outcome.NO_FIT


def test_a_guides_bend_stops_a_long_link_and_lets_a_sleeve_pass() -> None:
    guide = Guide(bore_diameter_mm=7.0, bend_radius_mm=60.0, turn_deg=90.0, tolerance_mm=0.0)
    frame = make_frame(
        make_port("in"),
        make_port("out", joins=("tube", OUTSIDE)),
        runs=(
            make_run("a", "start", "in", zone_id=OUTSIDE),
            make_run("bent", "in", "out", guide=guide),
            make_run("c", "out", "end", zone_id=OUTSIDE),
        ),
    )
    plan = plan_job(job=make_job(frame), workshop=make_workshop(make_spoke(reach_mm=30.0), make_sleeve()))
    assert plan.method_id == "sleeve"
    assert ("spoke", "guide_bend", "bent") in {(r.method_id, r.check.rule, r.check.run_id) for r in plan.rejected}


def test_a_link_that_is_too_long_for_a_bend_is_told_how_far_it_may_reach() -> None:
    """R = 60 + 3.5, bore 7, joint 5 + 0.05: 2 sqrt(67^2 - 65.05^2) = 32.09 long, half of it in each bore."""
    guide = Guide(bore_diameter_mm=7.0, bend_radius_mm=60.0, turn_deg=90.0, tolerance_mm=0.0)
    frame = make_frame(
        make_port("in"),
        make_port("out", joins=("tube", OUTSIDE)),
        runs=(
            make_run("a", "start", "in", zone_id=OUTSIDE),
            make_run("bent", "in", "out", guide=guide),
            make_run("c", "out", "end", zone_id=OUTSIDE),
        ),
    )
    workshop = make_workshop(make_spoke(reach_mm=30.0))
    refused = plan_job(job=make_job(frame), workshop=workshop)
    assert refused.outcome is Outcome.NO_FIT
    (proposal,) = (check for check in refused.advisories if check.rule == "spoke_reach")
    assert proposal.size_mm == pytest.approx(16.05, abs=0.01)
    assert proposal.run_id == "bent"
    shorter = make_workshop(make_spoke(reach_mm=proposal.size_mm - 0.01))
    assert plan_job(job=make_job(frame), workshop=shorter).outcome is Outcome.FITS


def test_of_equal_joints_the_rod_that_suits_its_bores_is_taken_then_the_one_that_holds_more() -> None:
    frame = make_lane_frame((5.6, 5.6))
    weak, strong = make_coupler(id="a-weak", holds_n=50.0), make_coupler(id="b-strong", holds_n=60.0)
    assert plan_job(job=make_job(frame), workshop=make_workshop(weak, strong)).method_id == "b-strong"
    edge, middle = make_coupler(id="a-edge", stud_diameter_mm=2.3), make_coupler(id="b-middle", stud_diameter_mm=2.6)
    assert plan_job(job=make_job(frame), workshop=make_workshop(edge, middle)).method_id == "b-middle"
    loose, close = make_spoke(id="a-loose", rod_diameter_mm=1.6), make_spoke(id="b-close", rod_diameter_mm=2.0)
    assert plan_job(job=make_job(frame), workshop=make_workshop(loose, close)).method_id == "b-close"


@pytest.mark.parametrize(("heading", "stops"), [((-1.0, 0.0, 0.0), False), ((-1.0, 0.0, -1.1), True)])
def test_a_hole_that_looks_along_its_tube_asks_no_dive_of_a_stiff_piece(heading, stops: bool) -> None:
    """A link of 60 mm goes straight into a tube's end; through its side it does not dip into a bore of 12 mm."""
    narrow = Zone(id="tube", path_mm=((0.0, 0.0, 0.0), (-500.0, 0.0, 0.0)), bore_diameter_mm=12.0)
    frame = make_frame(
        make_port("in", heading=heading),
        make_port("out", joins=("tube", OUTSIDE), position_mm=(-500.0, 0.0, 0.0)),
        runs=(
            make_run("a", "start", "in", zone_id=OUTSIDE),
            make_run("b", "in", "out"),
            make_run("c", "out", "end", zone_id=OUTSIDE),
        ),
        zones=(narrow,),
    )
    plan = plan_job(job=make_job(frame), workshop=make_workshop(make_spoke(reach_mm=30.0)))
    assert (plan.outcome is Outcome.NO_FIT) is stops
    assert any(rejection.check.rule.startswith("wall_") for rejection in plan.rejected) is stops


def test_the_stated_turn_of_a_guide_counts_in_the_drag() -> None:
    """Two holes of 1.5 N and a turn of 90 degrees at friction 0.3: 1.5 e^(0.3 pi / 2) + 1.5 = 3.90 N, plus weight."""
    drags = []
    for turn_deg in (0.0, 90.0):
        guide = Guide(bore_diameter_mm=8.0, bend_radius_mm=300.0, turn_deg=turn_deg, length_mm=500.0, tolerance_mm=0.1)
        frame = make_lane_frame((8.0, 8.0))
        runs = {**frame.runs, "through-0": replace(frame.runs["through-0"], guide=guide)}
        new = NewLine(line=make_line(id="new", mass_g_per_m=0.0), from_end=LineEnd(), to_end=LineEnd())
        plan = plan_job(job=make_job(replace(frame, runs=runs), new=new), workshop=make_workshop(make_coupler()))
        assert plan.joint is not None
        drags.append(plan.joint.drag_n)
    assert drags == pytest.approx([3.0, 1.5 * exp(0.3 * pi / 2) + 1.5])


def test_too_short_a_supply_is_a_no_with_what_is_missing() -> None:
    new = NewLine(line=make_line(id="new"), from_end=LineEnd(), to_end=LineEnd(), supplied_length_mm=1000.0)
    plan = plan_job(job=make_job(make_lane_frame((8.0, 8.0)), new=new), workshop=make_workshop())
    assert plan.outcome is Outcome.NO_FIT
    assert plan.lengths is not None
    assert plan.lengths.spare_mm == pytest.approx(1000.0 - plan.lengths.cut_mm)
    assert plan.lengths.spare_mm < 0


def test_the_record_holds_plain_values_only() -> None:
    import json

    plan = plan_job(job=make_job(make_lane_frame((8.0, 8.0))), workshop=make_workshop())
    record = plan_as_record(plan)
    assert json.loads(json.dumps(record)) == record


def test_each_place_that_fails_is_told_once_and_no_run_stands_for_another() -> None:
    """Two lanes whose guides are both too narrow, and a hole that two runs lead on from: two runs, one hole."""
    narrow = Guide(bore_diameter_mm=4.0, tolerance_mm=0.1, bend_radius_mm=None, turn_deg=0.0)
    frame = make_lane_frame((8.0, 8.0), (8.0, 8.0))
    guided = {run_id: replace(frame.runs[run_id], guide=narrow) for run_id in ("through-0", "through-1")}
    job = make_job(replace(frame, runs={**frame.runs, **guided}))
    rejected = plan_job(job=job, workshop=make_workshop(make_spoke())).rejected
    for feed_from in JobEnd:
        runs = Counter(one.check.run_id for one in rejected if one.feed_from is feed_from)
        assert runs == {"through-0": 2, "through-1": 2}, "once while drawing, once while riding"
    small = make_lane_frame((4.0, 8.0))
    beside = replace(small.runs["through-0"], id="beside-0")
    job = make_job(replace(small, runs={**small.runs, "beside-0": beside}))
    rejected = plan_job(job=job, workshop=make_workshop(make_spoke())).rejected
    told = [(one.feed_from, one.check.state) for one in rejected if one.check.port_id == "in-0"]
    assert told
    assert len(told) == len(set(told))
