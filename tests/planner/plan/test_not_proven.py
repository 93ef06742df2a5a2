"""What nobody measured is not proven, and begins with what to measure; it is a no only where no measure would help."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner import measures_told, plan_job, sentence_for
from planner.parts import Job, Method, OldLine
from planner.plan.routing_plan import RoutingPlan
from planner.rules import JointRule, PlaceRule
from planner.verdicts import Check, Outcome
from tests.builders import make_coupler, make_job, make_lane_frame, make_spoke, make_workshop
from tests.work_orders.job_kinds import GEAR_HOUSING, KINDS, LEADER, OVER


def hose_with(bore_mm: float | None, hole_mm: float = 8.0) -> Job:
    """A new hose of 5.0 whose bore may not have been measured, between two such holes."""
    job = make_job(make_lane_frame((hole_mm, hole_mm)))
    return replace(job, new=replace(job.new, line=replace(job.new.line, bore_diameter_mm=bore_mm)))


def plan_of(job: Job, *methods: Method) -> RoutingPlan:
    return plan_job(job=job, workshop=make_workshop(*methods))


@pytest.mark.parametrize("method", [make_coupler(), make_spoke()], ids=lambda method: method.kind)
def test_a_bore_that_nobody_measured_is_to_be_measured_and_is_no_no(method: Method) -> None:
    plan = plan_of(hose_with(None), method)
    assert (plan.outcome, plan.steps) == (Outcome.UNKNOWN, ())
    assert measures_told(plan)[0].what == JointRule.JOINT_BORE
    assert "measure it" in measures_told(plan)[0].reason


def test_what_no_bore_would_let_pass_is_a_no_and_the_hole_is_told() -> None:
    plan = plan_of(hose_with(None, 4.9), make_coupler())
    assert plan.outcome is Outcome.NO_FIT
    assert plan.no_route is not None
    assert plan.no_route.ports
    assert {miss.check.port_id for miss in plan.no_route.closest_misses} <= {"in-0", "out-0"}


@given(
    bore_mm=st.floats(min_value=1.5, max_value=3.0),
    hole_mm=st.floats(min_value=4.8, max_value=6.0),
    stud_mm=st.floats(min_value=2.0, max_value=3.0),
)
def test_a_no_without_the_bore_is_a_no_with_any(bore_mm: float, hole_mm: float, stud_mm: float) -> None:
    coupler = make_coupler(stud_diameter_mm=stud_mm, collar_diameter_mm=max(4.4, stud_mm))
    if plan_of(hose_with(bore_mm, hole_mm), coupler).outcome <= Outcome.TIGHT:
        assert plan_of(hose_with(None, hole_mm), coupler).outcome is Outcome.UNKNOWN


def test_a_leaders_thread_in_an_unmeasured_bore_is_not_proven() -> None:
    studded = replace(LEADER, stud_diameter_mm=2.6, joint_length_mm=12.0)
    assert plan_of(replace(hose_with(None), old=None), studded).outcome is Outcome.UNKNOWN


def test_the_inner_cable_of_an_old_housing_is_to_be_measured() -> None:
    job = KINDS["plain: gears"]
    assert job.old is not None
    old = OldLine(line=replace(GEAR_HOUSING, cable_diameter_mm=None), from_end=job.old.from_end, to_end=job.old.to_end)
    plan = plan_of(replace(job, old=old), OVER)
    assert plan.outcome is Outcome.UNKNOWN
    assert measures_told(plan)[0].what == JointRule.CABLE_USE


def test_an_unmeasured_hole_is_told_once_and_a_bend_or_width_beside_it() -> None:
    frame = make_lane_frame((8.0, None))
    zone = replace(frame.zones["tube-0"], bore_diameter_mm=None)
    plan = plan_of(make_job(replace(frame, zones={zone.id: zone})), make_spoke())
    assert plan.outcome is Outcome.UNKNOWN
    told = [measure.reason for measure in measures_told(plan)]
    assert len([reason for reason in told if "opening of" in reason]) == 1
    assert len([reason for reason in told if "clear width" in reason]) == 1
    assert len(set(told)) == len(told)


def test_a_plan_that_is_proven_asks_nothing_of_this_sort() -> None:
    assert [measure for measure in measures_told(plan_of(hose_with(2.1), make_coupler())) if not measure.place_id] == []


def test_what_is_not_proven_to_lie_side_by_side_is_told_so_and_not_as_unmeasured() -> None:
    check = Check(
        rule=PlaceRule.PORT_CLEARANCE, outcome=Outcome.UNKNOWN, port_id="in", size_mm=5.0, band_mm=(-0.1, 0.1)
    )
    assert "side by side" in sentence_for(check)
    assert sentence_for(replace(check, band_mm=None)) == "in was not measured"
