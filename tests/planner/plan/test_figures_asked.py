"""What a plan asks to be measured names the figure, and that figure, once read, answers it."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from planner import figure_words, figures_asked, find_frame_names, job_as_read, measures_told, plan_job
from planner.parts import (
    Figure,
    FigureRead,
    Frame,
    Guide,
    Job,
    LineFigure,
    LineKind,
    Method,
    OldLine,
    Opening,
    PortLooks,
    ReadWhat,
    RoundOpening,
    StayingLine,
)
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Outcome
from tests.builders import make_coupler, make_job, make_lane_frame, make_line, make_spoke, make_workshop
from tests.planner.fit.test_fitted_end import SLEEVE, plugged
from tests.work_orders.job_kinds import GEAR_HOUSING, KINDS, OVER

EIGHT = RoundOpening(diameter_mm=8.0, tolerance_mm=0.1)


def frame_with_port(**changes: object) -> Frame:
    frame = make_lane_frame((8.0, 8.0))
    port = replace(frame.ports["in-0"], **changes)  # type: ignore[arg-type]
    return replace(frame, ports={**frame.ports, port.id: port})


def frame_with_zone(**changes: object) -> Frame:
    frame = make_lane_frame((8.0, 8.0))
    zone = replace(frame.zones["tube-0"], **changes)  # type: ignore[arg-type]
    return replace(frame, zones={zone.id: zone})


def frame_with_guide() -> Frame:
    frame = make_lane_frame((8.0, 8.0))
    guide = Guide(bore_diameter_mm=6.5, bend_radius_mm=None, turn_deg=60.0, tolerance_mm=0.1)
    run = replace(frame.runs["through-0"], guide=guide)
    return replace(frame, runs={**frame.runs, run.id: run})


def with_bore(bore_mm: float | None) -> Job:
    job = make_job(make_lane_frame((8.0, 8.0)))
    return replace(job, new=replace(job.new, line=replace(job.new.line, bore_diameter_mm=bore_mm)))


def gears() -> Job:
    job = KINDS["plain: gears"]
    assert job.old is not None
    bare = replace(GEAR_HOUSING, cable_diameter_mm=None)
    return replace(job, old=OldLine(line=bare, from_end=job.old.from_end, to_end=job.old.to_end))


def plan_of(job: Job, *methods: Method) -> RoutingPlan:
    return plan_job(job=job, workshop=make_workshop(*methods))


def asked_first(plan: RoutingPlan, job: Job) -> tuple[Figure, ...]:
    return next(figures for one in measures_told(plan) if (figures := figures_asked(one, job)))


def _frame_job(make: Callable[[], Frame]) -> Callable[[], Job]:
    return lambda: make_job(make())


CASES: dict[str, tuple[Callable[[], Job], Method, dict[Figure, float | Opening | PortLooks]]] = {
    "a hole": (
        _frame_job(lambda: make_lane_frame((8.0, None))),
        make_coupler(),
        {Figure(what=ReadWhat.OPENING, id="out-0"): EIGHT},
    ),
    "a hole known by a gauge": (
        _frame_job(lambda: frame_with_port(opening=RoundOpening(diameter_mm=4.5, tolerance_mm=0.0, is_at_least=True))),
        make_coupler(),
        {Figure(what=ReadWhat.OPENING, id="in-0"): EIGHT},
    ),
    "lean and wall told as ranges": (
        _frame_job(
            lambda: frame_with_port(
                tilt_deg=45.0,
                tilt_tolerance_deg=20.0,
                wall_thickness_mm=2.0,
                wall_tolerance_mm=0.5,
                looks=PortLooks.ALONG,
            )
        ),
        make_coupler(),
        {Figure(what=ReadWhat.LEAN, id="in-0"): 10.0, Figure(what=ReadWhat.WALL, id="in-0"): 1.5},
    ),
    "a cavity": (
        _frame_job(lambda: frame_with_zone(bore_diameter_mm=None)),
        make_spoke(),
        {Figure(what=ReadWhat.CAVITY, id="tube-0"): 30.0},
    ),
    "the bend of a guide": (
        _frame_job(frame_with_guide),
        make_coupler(),
        {Figure(what=ReadWhat.BEND, id="through-0"): 150.0},
    ),
    "a bore": (lambda: with_bore(None), make_coupler(), {Figure(what=LineFigure.BORE, id="new"): 2.1}),
    "the cable in the old housing": (gears, OVER, {Figure(what=LineFigure.OLD_CABLE, id=GEAR_HOUSING.id): 1.2}),
    "a joint over a plug": (
        plugged,
        SLEEVE,
        {Figure(what=LineFigure.JOINT_OUTER, id="plug"): 6.0, Figure(what=LineFigure.JOINT_HOLDS, id="plug"): 20.0},
    ),
    "the old line and the hole it lies in": (
        _frame_job(lambda: make_lane_frame((4.5, 8.0))),
        make_coupler(),
        {Figure(what=ReadWhat.OPENING, id="in-0"): EIGHT, Figure(what=LineFigure.OLD_OUTER, id="old"): 5.0},
    ),
}


@pytest.mark.parametrize("case", CASES)
def test_what_is_asked_names_its_figures_and_they_answer_it_once_read(case: str) -> None:
    make, method, readings = CASES[case]
    job = make()
    before = plan_of(job, method)
    assert not before.outcome.lets_work_begin
    assert set(asked_first(before, job)) == set(readings)
    read = [FigureRead(figure=figure, value=value) for figure, value in readings.items()]
    after = plan_of(job_as_read(job, read), method)
    assert after.outcome.lets_work_begin, measures_told(after)


@pytest.mark.parametrize("case", CASES)
def test_every_figure_is_called_by_a_name_of_its_own(case: str) -> None:
    make, _, readings = CASES[case]
    told = [figure_words(figure, make()) for figure in readings]
    assert len(set(told)) == len(told)
    assert not any("_" in words or words != words.strip() for words in told)


def test_an_old_line_that_was_read_leaves_a_new_one_of_its_kind_as_the_catalog_has_it() -> None:
    """Read thinner than the catalog says it must not make the new one thin: that would be a false yes."""
    job = make_job(make_lane_frame((8.0, 8.0)))
    job = replace(
        job, old=replace(job.old, line=job.new.line), staying=(StayingLine(line=job.new.line, through=("in-0",)),)
    )
    thin = FigureRead(figure=Figure(what=LineFigure.OLD_OUTER, id=job.new.line.id), value=4.0, half=0.05)
    read = job_as_read(job, [thin])
    assert read.old is not None
    assert (read.old.line.outer_diameter_mm, read.old.line.outer_tolerance_mm) == (4.0, 0.05)
    assert (read.new, read.staying) == (job.new, job.staying)
    beside = job_as_read(job, [replace(thin, figure=replace(thin.figure, what=LineFigure.STAYING_OUTER))])
    assert beside.staying[0].line.outer_diameter_mm == 4.0
    assert (beside.new, beside.old) == (job.new, job.old)


def test_a_staying_line_whose_size_decides_is_asked_for_and_a_joint_is_not() -> None:
    beside = make_line(id="wire", kind=LineKind.ELECTRIC_WIRE, outer_diameter_mm=2.5, outer_tolerance_mm=0.4)
    job = make_job(make_lane_frame((8.0, 8.0)), staying=(StayingLine(line=beside, through=("in-0",)),))
    plan = plan_of(job, make_coupler())
    asked = {one.what: figures_asked(one, job) for one in measures_told(plan)}
    assert asked["wire"] == (Figure(what=LineFigure.STAYING_OUTER, id="wire"),)
    assert all(figures == () for what, figures in asked.items() if what == plan.method_id)


def test_labels_that_are_alike_are_told_apart_by_their_ids_and_others_are_not() -> None:
    frame = make_lane_frame((8.0, 8.0))
    alike = {id: replace(port, label="Down tube") for id, port in frame.ports.items()}
    assert find_frame_names(replace(frame, ports=alike)).places["in-0"] == "Down tube (in-0)"
    one = {**frame.ports, "in-0": replace(frame.ports["in-0"], label="Down tube")}
    assert find_frame_names(replace(frame, ports=one)).places["in-0"] == "Down tube"
    assert plan_of(make_job(frame), make_coupler()).outcome is Outcome.FITS
