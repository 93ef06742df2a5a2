"""What one method has asked of a hole or a run is not asked again, and the answers are those of asking each alone."""

from dataclasses import replace

import pytest

from planner.parts import JobEnd, StayingLine
from planner.routing import passage
from planner.routing.attempts import find_attempts
from planner.routing.passage import AskedBefore, Mover, check_step
from planner.routing.run_graph import LEAVE, graph_of_runs, states_in_order
from planner.verdicts import State, Thing, ThingKind
from tests.builders import make_job, make_lane_frame, make_limits
from tests.planner.plan.level_samples import demo_job

JOINT = Thing(id="coupler", kind=ThingKind.JOINT, diameter_mm=5.4, tolerance_mm=0.1, rigid_length_mm=26.0)
THICK = replace(JOINT, diameter_mm=7.9)
NUT = Thing(id="nut", kind=ThingKind.FITTING, diameter_mm=8.0, tolerance_mm=0.0, rigid_length_mm=30.0)
MOVERS = [
    Mover(joint=joint, leading_fitting=fitting, feed_from=end)
    for joint in (JOINT, THICK)
    for fitting in (None, NUT)
    for end in JobEnd
]


def graph_of(job):
    lengths = dict.fromkeys(job.frame.runs, 100.0)
    return graph_of_runs(
        frame=job.frame, from_anchor_id=job.from_anchor_id, to_anchor_id=job.to_anchor_id, leg_length_mm=lengths
    )


def lane_job():
    """A frame where a hole and a run are called the same, as ids of ports and runs may be, and a line stays in it."""
    frame = make_lane_frame((12.0, 9.0), (8.0, 8.5))
    run = replace(frame.runs["through-0"], id="in-0")
    runs = {("in-0" if key == "through-0" else key): one for key, one in frame.runs.items()} | {"in-0": run}
    job = make_job(replace(frame, runs=runs))
    return replace(job, staying=(StayingLine(line=job.new.line, through=("in-0", "out-0")),), staying_at_end=())


@pytest.mark.parametrize("job", [lane_job(), demo_job("trail-rear-brake")[0]], ids=["lane", "demo"])
def test_answers_given_before_are_those_of_asking_anew(job) -> None:
    before, limits = AskedBefore(), make_limits()
    for mover in (*MOVERS, *reversed(MOVERS)):
        for state in (state for state in graph_of(job) if state != LEAVE):
            alone = check_step(job=job, mover=mover, state=state, limits=limits)
            assert check_step(job=job, mover=mover, state=state, limits=limits, before=before) == alone


def test_the_line_that_rides_is_asked_about_once_a_hole(monkeypatch: pytest.MonkeyPatch) -> None:
    job, workshop = demo_job("trail-rear-brake")
    asked: list[str] = []
    ask = passage.check_things_through_port

    def counted(**question):
        if question["state"] is State.RIDING:
            asked.append(question["port"].id)
        return ask(**question)

    monkeypatch.setattr(passage, "check_things_through_port", counted)
    attempts = find_attempts(job=job, methods=workshop.methods, graph=graph_of(job), limits=workshop.limits)
    assert len(attempts) > 10
    assert sorted(asked) == sorted({state.place for state in graph_of(job) if state.place in job.frame.ports})


def test_no_step_is_asked_about_that_lies_on_no_way() -> None:
    """A hole that leads into a cavity and nowhere on: in frames of many holes most are such."""
    job, workshop = demo_job("trail-rear-brake")
    graph = graph_of(job)
    on_ways = set(states_in_order(graph=graph, from_anchor_id=job.from_anchor_id))
    assert on_ways < set(graph) - {LEAVE}, "some lie on none"
    attempts = find_attempts(job=job, methods=workshop.methods, graph=graph, limits=workshop.limits)
    assert {state for attempt in attempts for state in attempt.step_checks} == on_ways
