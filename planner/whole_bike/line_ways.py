"""The ways of one new line through the frame, and what can lead it in on each, whatever lies beside it."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from planner.fit.compatibility import check_compatibility
from planner.parts import Adapter, Frame, Job, Visit, VisitLine, Workshop
from planner.plan.job_time import expected_minutes
from planner.plan.leg_lengths import find_legs
from planner.plan.leg_views import ranking_lengths_mm
from planner.plan.lengths import LegLength
from planner.plan.options import Candidate, describe_attempt, handling_of, rank_of_candidate
from planner.routing.attempts import Attempt, find_attempts
from planner.routing.every_way import find_every_way
from planner.routing.route_search import Route
from planner.routing.run_graph import RunState, graph_of_runs
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome, State, worst_of
from planner.whole_bike.changes import Asked, Led, LineWay, Manner, Value
from planner.whole_bike.lyings import find_lying

MOST_WAYS = 24
"""Ways of one line that are looked at."""

SHARED = (PlaceRule.PORT_CLEARANCE, PlaceRule.LEADING_FITTING, PlaceRule.GUIDE_BORE, PlaceRule.ZONE_BORE)
"""What is asked beside other lines; nothing else looks at them."""

States = tuple[RunState, ...]


def states_of_line(*, frame: Frame, line: VisitLine, at_most: int = MOST_WAYS) -> tuple[States, ...]:
    """Every way of a line, whatever is led along it, up to so many."""
    graph = graph_of_runs(
        frame=frame,
        from_anchor_id=line.from_anchor_id,
        to_anchor_id=line.to_anchor_id,
        leg_length_mm=dict.fromkeys(frame.runs, 0.0),
    )
    return find_every_way(graph=graph, from_anchor_id=line.from_anchor_id, at_most=at_most)


def has_too_many_ways(*, frame: Frame, line: VisitLine) -> bool:
    """Whether a line has more ways than are looked at."""
    return len(states_of_line(frame=frame, line=line, at_most=MOST_WAYS + 1)) > MOST_WAYS


def ports_of(states: States) -> tuple[str, ...]:
    """Ids of the ports of a way, in order."""
    return tuple(state.place for state in states[1:])


def states_wanted(*, frame: Frame, line: VisitLine, ports: Iterable[str]) -> list[States]:
    """The ways of a new line through just these ports, or past all of them outside; every way where none are named.

    ports : ids
    """
    wanted = set(ports)
    ways = states_of_line(frame=frame, line=line)
    return [states for states in ways if not wanted or set(ports_of(states)) in (wanted, set())]


def job_of_line(*, visit: Visit, line: VisitLine) -> Job:
    """The job of one line with a new line, as if the visit were for it alone."""
    assert line.new is not None, "asked only of a line that goes in"
    return Job(
        id=f"{visit.id}-{line.id}",
        title=f"{visit.title}: {line.id}",
        frame=visit.frame,
        from_anchor_id=line.from_anchor_id,
        to_anchor_id=line.to_anchor_id,
        old=line.old,
        new=line.new,
        staying=visit.staying,
        rotor_mm=line.rotor_mm,
        rotor_hub=line.rotor_hub,
        may_remove_inserts=visit.may_remove_inserts,
        keeps_old_brake=visit.keeps_old_brake and line.old is not None,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class LineQuestion:
    """One line with all that is the same on every way of it.

    line_id : which
    job : its own, alone
    workshop : with the methods that are asked
    legs : every run's length and shape, by run id
    adapter : what goes between the mounts; None where nothing does, or where it is not known
    """

    line_id: str
    job: Job
    workshop: Workshop
    legs: dict[str, LegLength]
    adapter: Adapter | None


def ask_line(*, line_id: str, job: Job, ways: Iterable[States], workshop: Workshop) -> LineQuestion:
    """The question of one line, its legs measured once for all of these ways."""
    runs = {state.run_id for states in ways for state in states}
    return LineQuestion(
        line_id=line_id,
        job=job,
        workshop=workshop,
        legs=find_legs(frame=_with_runs(job.frame, runs), line=job.new.line),
        adapter=check_compatibility(job=job, adapters=workshop.adapters, limits=workshop.limits).adapter,
    )


def find_line_way(question: LineQuestion, states: States) -> tuple[LineWay, tuple[Manner, ...]]:
    """The line on one of its ways, and every manner that can lead it in there, best first."""
    job = replace(_on_way_only(question.job, states), staying=())
    graph = graph_of_runs(
        frame=_with_runs(job.frame, {state.run_id for state in states}),
        from_anchor_id=job.from_anchor_id,
        to_anchor_id=job.to_anchor_id,
        leg_length_mm=ranking_lengths_mm(question.legs),
    )
    attempts = find_attempts(
        job=job,
        methods=question.workshop.methods,
        graph=graph,
        limits=question.workshop.limits,
        bend_checks={run_id: leg.bend_checks for run_id, leg in question.legs.items()},
    )
    manners = [manner for attempt in attempts for manner in _manners(attempt, states, question)]
    through = (*ports_of(states), *(state.run_id for state in states))
    way = LineWay(
        line_id=question.line_id,
        job=job,
        through=through,
        lying=find_lying(frame=job.frame, line=job.new.line, through=through),
        riding=_asked(attempts, states, State.RIDING),
    )
    return way, tuple(sorted(manners, key=rank_of_manner))


def rank_of_manner(manner: Manner) -> tuple[Value, tuple[tuple[object, ...], ...]]:
    """What manners are put in order by: what they cost, then as ways of one line are."""
    return manner.value, tuple((*rank_of_candidate(led.candidate)[4:], led.line_id) for led in manner.led)


def _with_runs(frame: Frame, run_ids: Iterable[str]) -> Frame:
    wanted = set(run_ids)
    return replace(frame, runs={run_id: run for run_id, run in frame.runs.items() if run_id in wanted})


def _on_way_only(job: Job, states: States) -> Job:
    """The job on a frame that leaves no other way; beside a straight run the ways inside stay, to be told as such."""
    kept = {state.run_id for state in states}
    if len(states) == 1:
        ends = {job.from_anchor_id, job.to_anchor_id}
        kept |= {run.id for run in job.frame.runs.values() if set(run.between) != ends}
    return replace(job, frame=_with_runs(job.frame, kept))


def _manners(attempt: Attempt, states: States, known: LineQuestion) -> Iterator[Manner]:
    """The attempt on this very way, whatever lies beside it."""
    if attempt.joint is None or not attempt.step_checks.keys() >= set(states):
        return
    checks = tuple(check for state in states for check in attempt.step_checks[state])
    alone = worst_of(
        (*attempt.general_checks, *(check for check in checks if check.rule not in SHARED)), of_nothing=Outcome.FITS
    )
    if alone is Outcome.NO_FIT:
        return
    lengths_mm = ranking_lengths_mm(known.legs)
    on_way = replace(
        attempt, route=Route(states=states, outcome=alone, length_mm=sum(lengths_mm[state.run_id] for state in states))
    )
    candidate = describe_attempt(workshop=known.workshop, attempt=on_way, legs=known.legs, adapter=known.adapter)
    if candidate is not None:
        yield Manner(
            led=(Led(line_id=known.line_id, candidate=candidate),),
            value=value_of(((candidate, known.workshop),)),
            alone=alone,
            drawing=_of_moment(checks, State.DRAWING),
        )


def value_of(led: Iterable[tuple[Candidate, Workshop]]) -> Value:
    """What one draw costs with nothing unmeasured; of several lines each is handled as the most delicate must be.

    led : each line as it is led in, with the workshop it was asked with
    """
    led = tuple(led)
    handling = max(handling_of(candidate) for candidate, _ in led)
    return (
        0,
        sum(candidate.attempt.leaves_old_way for candidate, _ in led),
        len(led) * (handling > 1),
        len(led) * (handling == 1),
        sum(round(_own_minutes(candidate, workshop) * 1000) for candidate, workshop in led),
        sum(round(candidate.attempt.route.length_mm * 100) for candidate, _ in led if candidate.attempt.route),
    )


def _own_minutes(candidate: Candidate, workshop: Workshop) -> float:
    """Without the steps that stand once in a visit."""
    of_visit = {step.id for step in workshop.steps if step.is_once}
    own = [step_id for step_id in candidate.option.step_ids if step_id not in of_visit]
    return float(expected_minutes(step_ids=own, method=candidate.attempt.method, workshop=workshop))


def _asked(attempts: Iterable[Attempt], states: States, moment: State) -> tuple[Asked, ...]:
    """What the first attempt that was asked at every step was asked at a moment that is the same for all of them."""
    maps: Iterator[Mapping[RunState, tuple[Check, ...]]] = (attempt.step_checks for attempt in attempts)
    checks = next((steps for steps in maps if steps.keys() >= set(states)), {})
    return _of_moment(tuple(check for state in states for check in checks.get(state, ())), moment)


def _of_moment(checks: Iterable[Check], moment: State) -> tuple[Asked, ...]:
    asked = (
        Asked(
            place_id=check.port_id or check.run_id or "",
            room=check.room,
            size=(check.thing.diameter_mm, check.thing.tolerance_mm),
        )
        for check in checks
        if check.rule in SHARED and check.state is moment and check.room is not None and check.thing is not None
    )
    return tuple(dict.fromkeys(asked))
