"""Whatever is told as a way out is applied by hand and planned again: the answer must be better, and as it was told."""

from collections.abc import Iterable
from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner import plan_job, way_out_sentences
from planner.parts import (
    Adapter,
    AdapterKind,
    HubKind,
    Job,
    JobEnd,
    LeaderLine,
    Line,
    LineEnd,
    LineKind,
    MethodKind,
    MountKind,
    NewLine,
    SetBy,
    SpokeLink,
    Workshop,
)
from planner.plan import tried
from planner.plan.change import faults_of, is_less
from planner.plan.plan_builder import look_at, plan_again
from planner.plan.routing_plan import RoutingPlan
from planner.plan.size_changes import grown_opening
from planner.plan.way_out import WayOut, WayOutKind
from planner.verdicts import Outcome
from tests.builders import make_job, make_lane_frame, make_workshop
from tests.planner.plan import jobs_that_are_noes as noes


def ways_of(plan: RoutingPlan) -> tuple[WayOut, ...]:
    return plan.ways_out if plan.no_route is None else plan.no_route.ways_out


def apply(way: WayOut, job: Job, workshop: Workshop) -> tuple[Job, Workshop]:
    """The job and shop with the change that the sentence names."""
    kind, new = way.kind, job.new
    if way.method is not None:
        return job, replace(workshop, methods=(*workshop.methods, way.method))
    if kind is WayOutKind.INSERTS_OUT:
        return replace(job, may_remove_inserts=True), workshop
    if kind is WayOutKind.OLD_BRAKE_GIVEN_UP:
        return replace(job, keeps_old_brake=False), workshop
    if kind is WayOutKind.OTHER_ROTOR:
        return replace(job, rotor_mm=way.size_mm), workshop
    if kind is WayOutKind.OTHER_ROTOR_SEAT:
        return replace(job, rotor_hub=HubKind(way.name)), workshop
    if kind is WayOutKind.ADAPTER:
        return job, replace(workshop, adapters=(*workshop.adapters, adapter_of(way, job)))
    if kind is WayOutKind.LARGER_HOLE:
        return with_larger_hole(way, job), workshop
    if kind is WayOutKind.WIDER_INSERT:
        return with_wider_insert(way, job), workshop
    if kind is WayOutKind.CORD_FIRST:
        leaders = tuple(method for method in workshop.methods if method.kind is MethodKind.LEADER_LINE)
        return replace(job, old=None), replace(workshop, methods=leaders)
    changed = {
        WayOutKind.BARE_ENDS: lambda: bare(new, way.end),
        WayOutKind.LONGER_LINE: lambda: replace(new, supplied_length_mm=way.size_mm),
        WayOutKind.OTHER_FITTING: lambda: fitted(new, way.end, workshop.fittings[way.with_id]),
        WayOutKind.FITTING_MADE: lambda: fitted(new, way.end, made_for(new, way.end)),
        WayOutKind.OTHER_LINE: lambda: replace(new, line=workshop.lines[way.with_id], brake=None, **BARE),
        WayOutKind.OTHER_BRAKE: lambda: of_brake(workshop.brakes[way.with_id]),
        WayOutKind.OTHER_MOUNT: lambda: replace(new, brake=replace(new.brake, caliper_mount=MountKind(way.name))),
        WayOutKind.THINNER_LINE: lambda: thinner(new, way.size_mm or 0.0),
        WayOutKind.SUPPLER_LINE: lambda: replace(new, line=replace(new.line, minimum_bend_radius_mm=way.size_mm)),
    }[kind]()
    shop = workshop
    if kind is WayOutKind.THINNER_LINE:
        shop = replace(workshop, methods=(*workshop.methods, *thin_joints(changed.line, job)))
    return replace(job, new=changed), shop


BARE = {"from_end": LineEnd(), "to_end": LineEnd()}


def adapter_of(way: WayOut, job: Job) -> Adapter:
    mount = job.frame.brakes["rear"].mount
    kinds = {MountKind.POST: AdapterKind.POST_STEP, MountKind.FLAT: AdapterKind.FLAT_PLATE}
    assert job.new.brake is not None
    assert job.new.brake.caliper_mount is not None
    return Adapter(
        id="needed",
        name="Needed",
        kind=kinds.get(mount, AdapterKind.TABS),
        frame_mount=mount,
        caliper_mount=job.new.brake.caliper_mount,
        step_mm=way.size_mm,
    )


def with_larger_hole(way: WayOut, job: Job) -> Job:
    port = job.frame.ports[way.port_id or ""]
    assert port.opening is not None
    assert way.opening == grown_opening(port.opening, way.size_mm or 0.0)
    ports = {**job.frame.ports, port.id: replace(port, opening=way.opening)}
    return replace(job, frame=replace(job.frame, ports=ports))


def with_wider_insert(way: WayOut, job: Job) -> Job:
    port = job.frame.ports[way.port_id or ""]
    assert port.insert is not None
    assert way.opening is not None
    ports = {**job.frame.ports, port.id: replace(port, insert=replace(port.insert, opening=way.opening))}
    return replace(job, frame=replace(job.frame, ports=ports))


def bare(new: NewLine, end: JobEnd | None) -> NewLine:
    def undone(at_end: LineEnd) -> LineEnd:
        if at_end.fitting is None or at_end.fitting.set_by is SetBy.WORKSHOP:
            return at_end
        return LineEnd(fitting=replace(at_end.fitting, set_by=SetBy.WORKSHOP))

    from_end = new.from_end if end is JobEnd.TO else undone(new.from_end)
    to_end = new.to_end if end is JobEnd.FROM else undone(new.to_end)
    return replace(new, from_end=from_end, to_end=to_end)


def fitted(new: NewLine, end: JobEnd | None, fitting: object) -> NewLine:
    at_end = LineEnd(fitting=fitting)  # type: ignore[arg-type]
    return replace(new, from_end=at_end) if end is JobEnd.FROM else replace(new, to_end=at_end)


def made_for(new: NewLine, end: JobEnd | None) -> object:
    fitting = new.end_at(end or JobEnd.FROM).fitting
    assert fitting is not None
    return replace(fitting, line_outer_diameter_mm=new.line.outer_diameter_mm, set_by=SetBy.WORKSHOP)


def of_brake(brake: object) -> NewLine:
    return NewLine(
        line=brake.line,  # type: ignore[attr-defined]
        from_end=brake.lever_end,  # type: ignore[attr-defined]
        to_end=brake.caliper_end,  # type: ignore[attr-defined]
        brake=brake,  # type: ignore[arg-type]
        supplied_length_mm=brake.supplied_length_mm,  # type: ignore[attr-defined]
    )


def thinner(new: NewLine, diameter_mm: float) -> NewLine:
    """With ends to suit it."""

    def to_suit(end: LineEnd) -> LineEnd:
        if end.fitting is None:
            return end
        return replace(end, fitting=replace(end.fitting, line_outer_diameter_mm=None))

    bore_mm = None if new.line.bore_diameter_mm is None else min(new.line.bore_diameter_mm, diameter_mm / 2)
    line = replace(new.line, outer_diameter_mm=diameter_mm, bore_diameter_mm=bore_mm)
    return replace(new, line=line, from_end=to_suit(new.from_end), to_end=to_suit(new.to_end))


def thin_joints(line: Line, job: Job) -> tuple[SpokeLink | LeaderLine, ...]:
    """Joints no thicker than the lines."""
    if job.old is None or job.old.line.kind is LineKind.INNER_CABLE:
        sizes = {"outer_diameter_mm": 0.5, "joint_diameter_mm": line.outer_diameter_mm, "joint_length_mm": 0.0}
        return (LeaderLine(id="thin", name="Thin", holds_n=None, setup_min=1, **sizes),)
    bores = [line.bore_diameter_mm, job.old.line.bore_diameter_mm]
    known = [bore for bore in bores if bore is not None]
    if len(known) < len(bores):
        return ()
    return (SpokeLink(id="thin", name="Thin", rod_diameter_mm=min(known), reach_mm=0.01, holds_n=0, setup_min=1),)


def told_and_true(ways: Iterable[WayOut], job: Job, workshop: Workshop, no: RoutingPlan) -> bool:
    """Of several of one sort, such as holes that have to be larger together, all are applied."""
    outcomes = set()
    for way in ways:
        job, workshop = apply(way, job, workshop)
        outcomes.add(way.outcome)
    then = plan_job(job=job, workshop=workshop)
    if then.outcome < Outcome.NO_FIT:
        return outcomes == {then.outcome}
    return outcomes == {Outcome.NO_FIT} and is_less(faults_of(then).keys(), faults_of(no).keys())


@given(seed=st.integers(min_value=0, max_value=10_000))
@settings(max_examples=15)
def test_every_way_out_makes_the_answer_the_better_one_that_was_told(seed: int) -> None:
    draw = Random(seed)
    job, workshop = noes.job(draw), noes.workshop(draw)
    no = plan_job(job=job, workshop=workshop)
    if no.outcome is not Outcome.NO_FIT:
        assert ways_of(no) == ()
        return
    for way in ways_of(no):
        assert told_and_true([way], job, workshop, no) or told_and_true(
            [each for each in ways_of(no) if each.kind is way.kind], job, workshop, no
        ), (seed, way.kind)
    assert len(set(way_out_sentences(no))) == len(way_out_sentences(no))


@given(seed=st.integers(min_value=0, max_value=10_000))
@settings(max_examples=15)
def test_a_glance_is_never_surer_than_the_plan_and_says_no_for_the_same_reasons(seed: int) -> None:
    draw = Random(seed)
    job, workshop = noes.job(draw), noes.workshop(draw)
    glance, plan = look_at(job, workshop), plan_again(job, workshop)
    assert glance.outcome in (plan.outcome, Outcome.UNKNOWN)
    if glance.outcome is Outcome.NO_FIT:
        assert faults_of(glance).keys() == faults_of(plan).keys()


def test_where_the_holes_stop_every_way_no_leg_is_given_a_shape(monkeypatch: pytest.MonkeyPatch) -> None:
    job = make_job(make_lane_frame((4.0, 4.0)))
    glance, no_route = look_at(job, make_workshop()), plan_again(job, make_workshop()).no_route
    monkeypatch.setattr(tried, "find_legs", None)
    assert look_at(job, make_workshop()) == glance
    assert glance.no_route is not None
    assert no_route is not None
    assert glance.no_route.ports == no_route.ports
