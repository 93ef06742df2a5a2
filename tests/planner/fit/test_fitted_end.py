"""A line that carries a fitting on its leading end passes by it or not at all; what nobody measured is not proven."""

from dataclasses import replace
from math import sqrt

import pytest

from planner import measures_told, plan_job, verdict_sentence
from planner.fit.fitted_end import check_joint_on_fittings, hold_on_fittings_n, joint_on_fittings
from planner.parts import Fitting, FittingStyle, Job, LineEnd, LineKind, Method, NewLine, OldLine, SetBy
from planner.plan.routing_plan import RoutingPlan
from planner.rules import JointRule
from planner.verdicts import Outcome, State, Thing, ThingKind
from tests.builders import (
    make_coupler,
    make_job,
    make_lane_frame,
    make_limits,
    make_line,
    make_sleeve,
    make_spoke,
    make_workshop,
)
from tests.work_orders.job_kinds import LEADER, LINER, SUCTION

PLUG = Fitting(
    id="plug",
    name="Moulded plug",
    style=FittingStyle.PLUG,
    set_by=SetBy.FACTORY,
    outer_diameter_mm=4.8,
    length_mm=14.0,
)
WIRE = make_line(id="wire", kind=LineKind.ELECTRIC_WIRE, outer_diameter_mm=2.5, bore_diameter_mm=None)
SLEEVE = make_sleeve(bore_diameter_mm=2.0, outer_diameter_mm=4.0)
OVER_PLUG_MM = sqrt(4.0**2 - 2.0**2 + 4.8**2)


def plugged(hole_mm: float = 9.0, *, plug: Fitting = PLUG, old_plug: Fitting | None = None) -> Job:
    """A wire with a moulded plug at both ends, beside an old one that is bare or plugged at both."""
    end, old_end = LineEnd(fitting=plug, is_fitted=True), LineEnd(fitting=old_plug, is_fitted=old_plug is not None)
    return make_job(
        make_lane_frame((hole_mm, hole_mm)),
        old=OldLine(line=WIRE, from_end=old_end, to_end=old_end),
        new=NewLine(line=WIRE, from_end=end, to_end=end),
    )


def plan_of(job: Job, *methods: Method) -> RoutingPlan:
    return plan_job(job=job, workshop=make_workshop(*methods))


def test_a_sleeve_over_a_plug_that_nobody_made_up_is_not_proven_and_begins_with_what_to_measure() -> None:
    plan = plan_of(plugged(), SLEEVE)
    assert plan.outcome is Outcome.UNKNOWN
    assert plan.steps == ()
    assert plan.joint is not None
    assert plan.joint.thing.diameter_mm == pytest.approx(OVER_PLUG_MM)  # 5.92: over the plug, not over the wire
    assert (plan.joint.thing.rigid_length_mm, plan.joint.holds_n) == (14.0, None)
    assert measures_told(plan)[0].reason.startswith("The joint goes over Moulded plug, and how thick it then is")
    assert "must be measured first" in verdict_sentence(plan)


def test_a_plug_that_was_made_up_and_measured_is_planned_on_with_its_own_figures() -> None:
    plan = plan_of(plugged(plug=replace(PLUG, joint_diameter_mm=6.4, joint_holds_n=12.0)), SLEEVE)
    assert plan.outcome is Outcome.FITS
    assert plan.joint is not None
    assert (plan.joint.thing.diameter_mm, plan.joint.holds_n) == (6.4, 12.0)


@pytest.mark.parametrize(("hole_mm", "outcome"), [(5.9, Outcome.NO_FIT), (6.0, Outcome.UNKNOWN)])
def test_what_does_not_pass_over_its_plug_does_not_pass(hole_mm: float, outcome: Outcome) -> None:
    """The plug alone, 4.8, would go through both."""
    assert plan_of(plugged(hole_mm), SLEEVE).outcome is outcome


def test_half_of_the_figures_is_not_enough() -> None:
    for known in ({"joint_diameter_mm": 6.4}, {"joint_holds_n": 12.0}):
        assert plan_of(plugged(plug=replace(PLUG, **known)), SLEEVE).outcome is Outcome.UNKNOWN


def test_the_old_wires_plug_goes_through_the_frame_with_the_joint() -> None:
    measured = replace(PLUG, joint_diameter_mm=6.4, joint_holds_n=12.0)
    plan = plan_of(plugged(plug=measured, old_plug=replace(PLUG, id="old-plug")), SLEEVE)
    assert plan.outcome is Outcome.UNKNOWN
    both = plan_of(plugged(plug=measured, old_plug=replace(measured, joint_diameter_mm=7.0, joint_holds_n=9.0)), SLEEVE)
    assert both.outcome is Outcome.FITS
    assert both.joint is not None
    assert (both.joint.thing.diameter_mm, both.joint.thing.rigid_length_mm, both.joint.holds_n) == (7.0, 28.0, 9.0)


@pytest.mark.parametrize(
    ("sleeve", "outcome"),
    [
        (make_sleeve(bore_diameter_mm=2.39, outer_diameter_mm=4.0), Outcome.NO_FIT),  # more than twice its bore
        (make_sleeve(bore_diameter_mm=2.4, outer_diameter_mm=4.0), Outcome.UNKNOWN),
    ],
    ids=["too narrow", "just wide enough"],
)
def test_a_sleeve_is_stretched_over_the_plug_only_so_far(sleeve: Method, outcome: Outcome) -> None:
    workshop = make_workshop(sleeve, limits=replace(make_limits(), sleeve_stretch_max_ratio=2.0))
    assert plan_job(job=plugged(), workshop=workshop).outcome is outcome


def test_nothing_is_screwed_or_slid_into_an_end_that_carries_a_fitting() -> None:
    crimp = LineEnd(fitting=replace(PLUG, id="crimp", outer_diameter_mm=8.0), is_fitted=True)
    job = make_job(make_lane_frame((20.0, 20.0)), new=NewLine(line=make_line(), from_end=crimp, to_end=crimp))
    studded = replace(LEADER, stud_diameter_mm=2.6, joint_length_mm=12.0)
    for methods, old in (((make_coupler(), make_spoke()), job.old), ((studded,), None)):
        plan = plan_of(replace(job, old=old), *methods)
        assert plan.outcome is Outcome.NO_FIT
        assert {r.check.rule for r in plan.rejected} == {JointRule.LEADING_JOINT}


@pytest.mark.parametrize("leader", [LEADER, SUCTION], ids=lambda method: method.kind)
def test_a_leader_fastened_over_a_plug_is_measured_too(leader: Method) -> None:
    empty = replace(plugged(), old=None)
    assert plan_of(empty, leader).outcome is Outcome.UNKNOWN
    known = replace(plugged(plug=replace(PLUG, joint_diameter_mm=5.8, joint_holds_n=15.0)), old=None)
    assert plan_of(known, leader).outcome is Outcome.FITS


def test_a_plug_does_not_go_through_a_liner_that_its_wire_goes_through() -> None:
    cable = make_line(id="cable", kind=LineKind.INNER_CABLE, outer_diameter_mm=1.2, bore_diameter_mm=None)
    liner = replace(LINER, bore_diameter_mm=3.0, outer_diameter_mm=3.6)
    job = plugged()
    old = OldLine(line=cable, from_end=LineEnd(), to_end=LineEnd())
    assert plan_of(replace(job, old=old), liner).outcome is Outcome.NO_FIT
    bare = replace(job, old=old, new=NewLine(line=WIRE, from_end=LineEnd(), to_end=LineEnd()))
    assert plan_of(bare, liner).outcome is Outcome.FITS


def test_what_may_be_made_on_fittings_is_asked_while_drawing_and_names_each_once() -> None:
    measured = replace(PLUG, joint_diameter_mm=6.4, joint_holds_n=12.0)
    thin, thick = replace(measured, outer_diameter_mm=2.0), replace(measured, outer_diameter_mm=4.01)
    stretchy = make_limits(sleeve_stretch_max_ratio=2.0)
    told = [
        (SLEEVE, (measured,), make_limits(), Outcome.FITS, ""),
        (SLEEVE, (measured, PLUG), make_limits(), Outcome.UNKNOWN, ""),
        (SLEEVE, (measured, thin), make_limits(), Outcome.NO_FIT, "slips_off"),  # 2.0 in a bore of 2.0
        (SLEEVE, (replace(thin, outer_diameter_mm=2.01),), make_limits(), Outcome.FITS, ""),
        (SLEEVE, (thick,), stretchy, Outcome.NO_FIT, "not_stretched"),
        (SLEEVE, (replace(thick, outer_diameter_mm=4.0),), stretchy, Outcome.FITS, ""),
        (make_coupler(), (measured,), make_limits(), Outcome.NO_FIT, ""),
        (LEADER, (PLUG,), make_limits(), Outcome.UNKNOWN, ""),
        (LINER, (replace(PLUG, outer_diameter_mm=1.8),), make_limits(), Outcome.NO_FIT, "not_through_liner"),
    ]
    for method, fittings, limits, outcome, note in told:
        check = check_joint_on_fittings(method=method, fittings=fittings, limits=limits)
        assert check is not None
        assert (check.rule, check.state) == (JointRule.LEADING_JOINT, State.DRAWING)
        assert (check.outcome, check.note, check.with_ids) == (outcome, note, ("plug",))
    through = replace(PLUG, outer_diameter_mm=1.79)
    assert check_joint_on_fittings(method=LINER, fittings=[through], limits=make_limits()) is None
    assert check_joint_on_fittings(method=SLEEVE, fittings=[], limits=make_limits()) is None


def test_a_joint_over_fittings_is_as_thick_as_the_thickest_and_as_stiff_as_all_of_them() -> None:
    bare = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=4.2, tolerance_mm=0.05, rigid_length_mm=20.0)
    measured = replace(PLUG, joint_diameter_mm=6.4)

    def over(method: Method, *fittings: Fitting) -> tuple[float, float]:
        joint = joint_on_fittings(joint=bare, method=method, fittings=fittings)
        return joint.diameter_mm, joint.rigid_length_mm

    assert over(SLEEVE) == (4.2, 20.0)
    assert over(SLEEVE, PLUG) == (pytest.approx(OVER_PLUG_MM), 20.0)  # 14 is less than it is stiff already
    assert over(SLEEVE, PLUG, measured) == (6.4, 28.0)
    assert over(LEADER, PLUG) == (4.8, 20.0)
    assert over(LEADER, replace(PLUG, outer_diameter_mm=3.0)) == (4.2, 20.0)
    assert over(make_coupler(), PLUG) == (4.2, 20.0)
    assert hold_on_fittings_n([replace(PLUG, joint_holds_n=9.0), replace(PLUG, joint_holds_n=7.0)]) == 7.0
    assert hold_on_fittings_n([replace(PLUG, joint_holds_n=9.0), PLUG]) is None
    assert hold_on_fittings_n([]) is None
