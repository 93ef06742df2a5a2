"""What becomes of the new line's ends: fittings taken off to lead, pieces that a joint marked, fluids kept apart."""

from dataclasses import replace

import pytest

from planner import plan_job
from planner.parts import (
    Brake,
    Fitting,
    FittingStyle,
    Fluid,
    Job,
    JobEnd,
    LineEnd,
    MethodKind,
    NewLine,
    OldLine,
    SetBy,
)
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Outcome
from tests.builders import make_coupler, make_job, make_lane_frame, make_limits, make_line, make_sleeve, make_spoke
from tests.builders import make_workshop as make_shop

CUTS_AWAY = {"coupler_cut_away_mm": 10.0, "sleeve_cut_away_mm": 0.0, "spoke_cut_away_mm": 0.0}
LIMITS = make_limits(touched_cut_away_mm=20.0, undone_end_mm=20.0, **CUTS_AWAY)
NUT = Fitting(
    id="nut",
    name="Nut",
    style=FittingStyle.COMPRESSION,
    set_by=SetBy.WORKSHOP,
    outer_diameter_mm=9.0,
    length_mm=15.0,
    uses=("olive",),
)
CRIMP = replace(NUT, id="crimp", style=FittingStyle.CRIMPED, set_by=SetBy.FACTORY, uses=())


def nut_at_lever_and_crimp_at_caliper() -> Job:
    """The commonest hose as supplied; its nut is wider than the holes."""
    new = NewLine(
        line=make_line(id="new"),
        from_end=LineEnd(fitting=NUT, is_fitted=True),
        to_end=LineEnd(fitting=CRIMP, is_fitted=True),
    )
    return make_job(make_lane_frame((8.0, 8.0)), new=new)


def plan_of(job: Job, *methods: object) -> RoutingPlan:
    return plan_job(job=job, workshop=make_shop(*methods, limits=LIMITS))


def brake_with(fluid: Fluid) -> Brake:
    return Brake(
        id=fluid,
        name=fluid,
        fluid=fluid,
        line=make_line(),
        supplied_length_mm=None,
        lever_end=LineEnd(),
        caliper_end=LineEnd(),
    )


def wet_job(old: Fluid | None, new: Fluid) -> Job:
    bare = LineEnd()
    old_brake = None if old is None else brake_with(old)
    return make_job(
        make_lane_frame((8.0, 8.0)),
        old=OldLine(line=make_line(id="old"), from_end=bare, to_end=bare, brake=old_brake),
        new=NewLine(line=make_line(id="new"), from_end=bare, to_end=bare, brake=brake_with(new)),
    )


def test_a_nut_that_a_workshop_set_is_taken_off_to_lead() -> None:
    plan = plan_of(nut_at_lever_and_crimp_at_caliper(), make_coupler())
    assert (plan.outcome, plan.feed_from) == (Outcome.FITS, JobEnd.TO)
    assert [part.id for part in plan.parts] == ["olive"]  # the ring is used once, so a new one is on the list
    assert plan.lengths is not None
    assert (plan.lengths.undone_mm, plan.lengths.bitten_mm) == (20.0, 19.0)


def test_a_crimp_is_never_taken_off() -> None:
    job = nut_at_lever_and_crimp_at_caliper()
    both = replace(job, new=replace(job.new, from_end=LineEnd(fitting=CRIMP, is_fitted=True)))
    assert plan_of(both, make_coupler()).outcome is Outcome.NO_FIT


def test_a_nut_that_passes_comes_off_for_a_stud_and_stays_on_under_a_sleeve_that_was_measured_over_it() -> None:
    """With ring and insert it closes the bore, so that no stud goes in."""
    job = replace(nut_at_lever_and_crimp_at_caliper(), frame=make_lane_frame((12.0, 12.0)))
    measured = LineEnd(fitting=replace(NUT, joint_diameter_mm=10.0, joint_holds_n=20.0), is_fitted=True)
    over_nut = replace(job, new=replace(job.new, from_end=measured))
    for asked, method, undone_and_bitten in (
        (job, make_coupler(), (20.0, 19.0)),
        (over_nut, make_sleeve(bore_diameter_mm=4.8, outer_diameter_mm=6.8), (0.0, 0.0)),
    ):
        plan = plan_of(asked, method)
        assert plan.outcome is Outcome.FITS
        assert plan.lengths is not None
        assert (plan.lengths.undone_mm, plan.lengths.bitten_mm) == undone_and_bitten


@pytest.mark.parametrize(
    ("method", "bitten_mm"), [(make_coupler(), 19.0), (make_spoke(), 20.0), (make_sleeve(), 25.0)], ids=lambda v: str(v)
)
def test_what_a_joint_marked_is_cut_away_and_counted(method: object, bitten_mm: float) -> None:
    plan = plan_of(make_job(make_lane_frame((8.0, 8.0))), method)
    lengths = plan.lengths
    assert lengths is not None
    assert lengths.bitten_mm == bitten_mm
    assert lengths.cut_mm >= lengths.need_mm + lengths.insertion_mm + lengths.trim_mm + bitten_mm
    assert lengths.final_mm == lengths.cut_mm - bitten_mm


def test_a_supplied_line_that_only_just_reached_without_the_bite_is_too_short() -> None:
    job = make_job(make_lane_frame((8.0, 8.0)))
    cut_mm = plan_of(job, make_coupler()).lengths.cut_mm  # type: ignore[union-attr]
    enough = plan_of(replace(job, new=replace(job.new, supplied_length_mm=cut_mm)), make_coupler())
    short = plan_of(replace(job, new=replace(job.new, supplied_length_mm=cut_mm - 1)), make_coupler())
    assert (enough.outcome, short.outcome) == (Outcome.FITS, Outcome.NO_FIT)


@pytest.mark.parametrize("old", [*Fluid, None])
def test_a_spoke_never_lets_two_classes_of_fluid_meet(old: Fluid | None) -> None:
    plan = plan_of(wet_job(old, Fluid.MINERAL_OIL), make_spoke())
    expected = {Fluid.MINERAL_OIL: Outcome.FITS, None: Outcome.UNKNOWN}.get(old, Outcome.NO_FIT)
    assert plan.outcome is expected


@pytest.mark.parametrize("method", [make_coupler(), make_sleeve()], ids=["stud", "sleeve"])
def test_what_another_fluid_touched_is_cut_away_further(method: object) -> None:
    apart = plan_of(wet_job(Fluid.GLYCOL_DOT4, Fluid.MINERAL_OIL), method).lengths
    same = plan_of(wet_job(Fluid.MINERAL_OIL, Fluid.MINERAL_OIL), method).lengths
    assert apart is not None
    assert same is not None
    covers_mm = {MethodKind.THREADED_COUPLER: 9.0, MethodKind.SLEEVE_TUBE: 25.0}[method.kind]  # type: ignore[attr-defined]
    assert apart.bitten_mm == covers_mm + 20.0 > same.bitten_mm


def test_slack_kept_in_a_run_on_purpose_is_part_of_every_length() -> None:
    job = make_job(make_lane_frame((8.0, 8.0)))
    loop = replace(job.frame.runs["from-0"], slack_mm=150.0)
    with_loop = replace(job, frame=replace(job.frame, runs={**job.frame.runs, "from-0": loop}))
    plain, slack = (plan_of(each, make_coupler()).lengths for each in (job, with_loop))
    assert plain is not None
    assert slack is not None
    assert (slack.need_mm or 0.0) - (plain.need_mm or 0.0) == pytest.approx(150.0)
    assert slack.legs[-1].basis.endswith("with 150 mm of slack")


def test_nothing_is_lost_at_an_end_that_is_not_undone_or_where_the_shop_says_nothing_of_it() -> None:
    plain = plan_of(make_job(make_lane_frame((8.0, 8.0))), make_coupler())
    silent = make_shop(make_coupler(), limits=replace(LIMITS, undone_end_mm=None))
    undone = plan_job(job=nut_at_lever_and_crimp_at_caliper(), workshop=silent)
    for plan in (plain, undone):
        assert plan.lengths is not None
        assert plan.lengths.undone_mm == 0.0
