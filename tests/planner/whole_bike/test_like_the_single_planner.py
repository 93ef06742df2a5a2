"""Each line of a visit is planned as its own job, with what lies beside it: swinging rears, turning bars, rotors."""

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from catalog import Catalog, read_catalog, read_job
from planner import plan_as_record, plan_job, plan_visit
from planner.parts import Frame, Job, LineEnd, NewLine, StayingLine, Visit, VisitLine
from planner.plan.size_changes import grown_opening

DEMO = Path(__file__).parents[3] / "demo_frames"
MOVING = {
    "four-bar-rear-brake": "a rear that swings",
    "trail-rear-brake": "a rear that swings, a rotor that asks for an adapter",
    "dropbar-headset": "a bar that turns with the holes in it",
    "front-through-fork": "a fork that turns with the bar",
    "dropper-beside-wires": "lines that stay",
}
"""Demo jobs, and what they have that the wide hardtail of the cockpit swap has not."""


@cache
def catalog() -> Catalog:
    return read_catalog(sorted(DEMO.glob("*.frame.yaml")), over_starter=True)


def job_called(name: str) -> Job:
    return read_job(DEMO / f"{name}.job.yaml", catalog())


def visit_of(job: Job, *more: VisitLine) -> Visit:
    """The job as a line of a visit."""
    line = VisitLine(
        id="line",
        from_anchor_id=job.from_anchor_id,
        to_anchor_id=job.to_anchor_id,
        old=job.old,
        new=job.new,
        rotor_mm=job.rotor_mm,
        rotor_hub=job.rotor_hub,
    )
    return Visit(
        id=job.id,
        title=job.title,
        frame=job.frame,
        lines=(line, *more),
        staying=job.staying,
        may_remove_inserts=job.may_remove_inserts,
        keeps_old_brake=job.keeps_old_brake,
    )


def told(job: Job) -> dict[str, Any]:
    return without_name(plan_as_record(plan_job(job=job, workshop=catalog().workshop)))


def without_name(record: dict[str, Any]) -> dict[str, Any]:
    """A record without what it is called; that the old line lies where it lies is asked only where it is told."""
    checks = [check for check in record["checks"] if check["rule"] != "old_route"]
    return {**record, "job": "", "title": "", "checks": checks}


@pytest.mark.parametrize("name", MOVING)
def test_a_visit_of_one_line_is_its_job(name: str) -> None:
    job = job_called(name)
    plan = plan_visit(visit=visit_of(job), workshop=catalog().workshop)
    (line,) = plan.lines
    assert line.plan is not None
    assert without_name(plan_as_record(line.plan)) == told(job)


def roomy(frame: Frame) -> Frame:
    """The same frame with room for a second line everywhere."""
    ports = {
        port.id: replace(port, opening=None if port.opening is None else grown_opening(port.opening, 8.0), insert=None)
        for port in frame.ports.values()
    }
    runs = {
        run.id: run
        if run.guide is None
        else replace(run, guide=replace(run.guide, bore_diameter_mm=run.guide.bore_diameter_mm + 8.0))
        for run in frame.runs.values()
    }
    return replace(frame, ports=ports, runs=runs)


@pytest.mark.parametrize("name", ["trail-rear-brake"])
def test_with_a_wire_to_go_in_beside_it_each_is_its_job_with_the_other_as_it_lies_then(name: str) -> None:
    job = job_called(name)
    job = replace(job, frame=roomy(job.frame))
    way = plan_job(job=job, workshop=catalog().workshop).route
    wire = NewLine(line=catalog().lines["wire-25"], from_end=LineEnd(), to_end=LineEnd())
    places = {"from_anchor_id": job.from_anchor_id, "to_anchor_id": job.to_anchor_id}
    visit = visit_of(job, VisitLine(id="wire", old=None, new=wire, through=way, **places))
    plan = plan_visit(visit=visit, workshop=catalog().workshop)
    assert [step.line_id for step in plan.order] in (["line", "wire"], ["wire", "line"])
    wire_is_first = plan.order[0].line_id == "wire"
    runs = {line.line_id: line.plan.runs for line in plan.lines if line.plan is not None}
    a_wire = StayingLine(line=wire.line, through=(*way, *runs["wire"]))
    a_line = StayingLine(line=job.new.line, through=(*way, *runs["line"]))
    old = () if job.old is None else (StayingLine(line=job.old.line, through=(*way, *runs["line"])),)
    stays = job.staying
    alone = {
        "line": replace(job, staying=(*stays, a_wire) if wire_is_first else stays, staying_at_end=(*stays, a_wire)),
        "wire": replace(
            job,
            old=None,
            new=wire,
            rotor_mm=None,
            rotor_hub=None,
            keeps_old_brake=False,
            staying=(*stays, *(old if wire_is_first else (a_line,))),
            staying_at_end=(*stays, a_line),
        ),
    }
    for line in plan.lines:
        assert line.plan is not None
        found, single = without_name(plan_as_record(line.plan)), told(alone[line.line_id])
        assert {key: found[key] for key in DECIDED} == {key: single[key] for key in DECIDED}


DECIDED = ("outcome", "route", "method", "feed_from", "cut_old_at", "joint", "checks", "lengths", "parts")
"""What the hands go by; other ways may differ where the visit leaves a line one way only."""


def test_a_rotor_that_the_frame_does_not_take_is_a_no_for_its_line_and_so_for_the_visit() -> None:
    job = replace(job_called("trail-rear-brake"), rotor_mm=220.0)
    single = plan_job(job=job, workshop=catalog().workshop)
    plan = plan_visit(visit=visit_of(job), workshop=catalog().workshop)
    assert single.outcome is plan.outcome
    assert plan.outcome.word == "no_fit"
    assert plan.steps == ()


def test_the_demo_frames_move_as_they_are_said_to() -> None:
    assert job_called("four-bar-rear-brake").frame.rear is not None
    assert job_called("trail-rear-brake").rotor_mm is not None
    assert job_called("dropbar-headset").frame.bar is not None
