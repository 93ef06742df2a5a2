"""The changes of a visit: where each line lies now, every way of the new one, and what can lead it in."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from planner.errors import OldWayNotToldError
from planner.fit.compatibility import check_compatibility
from planner.parts import Adapter, Frame, Job, LineKind, OldLine, Visit, VisitLine, Workshop
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
from planner.whole_bike.changes import Asked, Change, Manner, StepKind, Way
from planner.whole_bike.lyings import Lying, find_lying

MOST_WAYS = 24
"""Ways of one line that are looked at."""

SHARED = (PlaceRule.PORT_CLEARANCE, PlaceRule.LEADING_FITTING, PlaceRule.GUIDE_BORE, PlaceRule.ZONE_BORE)
"""What is asked beside other lines; nothing else looks at them."""

States = tuple[RunState, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class OldPlace:
    """Where an old line lies.

    ports : ids of its ports, told or the only ones there can be
    through : the same with its runs
    lying : as others meet it; None where there is no old line, or no way for one
    """

    ports: tuple[str, ...] = ()
    through: tuple[str, ...] = ()
    lying: Lying | None = None


def find_old_place(*, frame: Frame, line: VisitLine) -> OldPlace:
    """Where the old line lies: as told, or on the only way that takes it.

    Raises OldWayNotToldError where more than one way is open and the job does not say.
    """
    if line.old is None:
        return OldPlace()
    kind, told = line.old.line.kind, line.old.through
    ways = [states for states in _ways(frame, line) if _suits_old(frame, states, kind, told)]
    if not told and len(ways) > 1:
        raise OldWayNotToldError(line_id=line.id, ways=tuple(_ports_of(states) for states in ways))
    if not told and not ways:
        return OldPlace()
    ports = told or _ports_of(ways[0])
    through = tuple(dict.fromkeys((*ports, *(state.run_id for states in ways for state in states))))
    return OldPlace(ports=ports, through=through, lying=find_lying(frame=frame, line=line.old.line, through=through))


def old_ways_not_told(visit: Visit) -> tuple[tuple[int, str], ...]:
    """Lines whose old line may lie on several ways, by their place in the visit, each with a sentence of it."""
    found: list[tuple[int, str]] = []
    for nth, line in enumerate(visit.lines):
        try:
            find_old_place(frame=visit.frame, line=line)
        except OldWayNotToldError as refusal:
            found.append((nth, str(refusal)))
    return tuple(found)


def find_changes(*, visit: Visit, line: VisitLine, workshop: Workshop, is_split: bool = False) -> tuple[Change, ...]:
    """What is done to one line: one change, or its going out and its coming in where it is taken out first.

    Raises OldWayNotToldError as `find_old_place` does.

    workshop : methods, limits and steps
    is_split : whether the old line comes out before the new one goes in
    """
    old = find_old_place(frame=visit.frame, line=line)
    out = Change(line_id=line.id, kind=StepKind.OUT, old=old.lying, old_through=old.through, ways=(Way(),))
    if line.new is None:
        return (out,)
    if line.old is None or is_split:
        ways = _new_ways(visit, line, None, OldPlace(), workshop)
        goes_in = Change(line_id=line.id, kind=StepKind.IN, old=None, old_through=(), ways=ways)
        return (out, goes_in) if is_split else (goes_in,)
    ways = _new_ways(visit, line, line.old, old, workshop)
    return (Change(line_id=line.id, kind=StepKind.SWAP, old=old.lying, old_through=old.through, ways=ways),)


def has_too_many_ways(*, frame: Frame, line: VisitLine) -> bool:
    """Whether a line has more ways than are looked at."""
    graph = graph_of_runs(
        frame=frame,
        from_anchor_id=line.from_anchor_id,
        to_anchor_id=line.to_anchor_id,
        leg_length_mm=dict.fromkeys(frame.runs, 0.0),
    )
    return len(find_every_way(graph=graph, from_anchor_id=line.from_anchor_id, at_most=MOST_WAYS + 1)) > MOST_WAYS


def _ways(frame: Frame, line: VisitLine) -> tuple[States, ...]:
    graph = graph_of_runs(
        frame=frame,
        from_anchor_id=line.from_anchor_id,
        to_anchor_id=line.to_anchor_id,
        leg_length_mm=dict.fromkeys(frame.runs, 0.0),
    )
    return find_every_way(graph=graph, from_anchor_id=line.from_anchor_id, at_most=MOST_WAYS)


def _ports_of(states: States) -> tuple[str, ...]:
    return tuple(state.place for state in states[1:])


def _suits_old(frame: Frame, states: States, kind: LineKind, told: tuple[str, ...]) -> bool:
    ports = _ports_of(states)
    if told:
        return set(ports) == set(told)
    return all(not frame.ports[port_id].admits or kind in frame.ports[port_id].admits for port_id in ports)


def _new_ways(
    visit: Visit, line: VisitLine, old: OldLine | None, place: OldPlace, workshop: Workshop
) -> tuple[Way, ...]:
    wanted = set(line.through if old is None else place.ports)
    ways = [states for states in _ways(visit.frame, line) if not wanted or set(_ports_of(states)) in (wanted, set())]
    if old is not None:
        old = replace(old, through=place.ports)
    job = job_of_line(visit=visit, line=replace(line, old=old))
    runs = {state.run_id for states in ways for state in states}
    legs = find_legs(frame=_with_runs(visit.frame, runs), line=job.new.line)
    adapter = check_compatibility(job=job, adapters=workshop.adapters, limits=workshop.limits).adapter
    known = _Known(workshop=workshop, legs=legs, adapter=adapter)
    found = (_find_way(job, states, known) for states in ways)
    return tuple(sorted((way for way in found if way.manners), key=lambda way: (way.manners[0].value, way.through)))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Known:
    workshop: Workshop
    legs: dict[str, LegLength]
    adapter: Adapter | None


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


def _find_way(job: Job, states: States, known: _Known) -> Way:
    pinned = replace(_on_way_only(job, states), staying=())
    graph = graph_of_runs(
        frame=_with_runs(job.frame, {state.run_id for state in states}),
        from_anchor_id=job.from_anchor_id,
        to_anchor_id=job.to_anchor_id,
        leg_length_mm=ranking_lengths_mm(known.legs),
    )
    attempts = find_attempts(
        job=pinned,
        methods=known.workshop.methods,
        graph=graph,
        limits=known.workshop.limits,
        bend_checks={run_id: leg.bend_checks for run_id, leg in known.legs.items()},
    )
    manners = [manner for attempt in attempts for manner in _manners(attempt, states, known)]
    through = (*_ports_of(states), *(state.run_id for state in states))
    return Way(
        job=pinned,
        through=through,
        new=find_lying(frame=job.frame, line=job.new.line, through=through),
        manners=tuple(sorted(manners, key=lambda manner: (manner.value, rank_of_candidate(manner.candidate)[4:]))),
        riding=_asked(attempts, states, State.RIDING),
    )


def _manners(attempt: Attempt, states: States, known: _Known) -> Iterator[Manner]:
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
            candidate=candidate,
            value=_value(candidate, known.workshop),
            alone=alone,
            drawing=_of_moment(checks, State.DRAWING),
        )


def _value(candidate: Candidate, workshop: Workshop) -> tuple[int, ...]:
    handling, route = handling_of(candidate), candidate.attempt.route
    of_visit = {step.id for step in workshop.steps if step.is_once}
    own = [step_id for step_id in candidate.option.step_ids if step_id not in of_visit]
    minutes = expected_minutes(step_ids=own, method=candidate.attempt.method, workshop=workshop)
    return (
        0,
        int(candidate.attempt.leaves_old_way),
        int(handling > 1),
        int(handling == 1),
        round(minutes * 1000),
        0 if route is None else round(route.length_mm * 100),
    )


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
