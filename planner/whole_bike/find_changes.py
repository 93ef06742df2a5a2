"""The changes of a visit: where each line lies now, every way of the new one, and what can lead it in."""

from dataclasses import dataclass, replace

from planner.errors import OldWayNotToldError
from planner.parts import Frame, LineKind, OldLine, Visit, VisitLine, Workshop
from planner.whole_bike.changes import Change, StepKind, Way
from planner.whole_bike.drawn_together import NeverTogether, find_never_together, find_ways_together
from planner.whole_bike.line_ways import (
    States,
    ask_line,
    find_line_way,
    job_of_line,
    ports_of,
    states_of_line,
    states_wanted,
)
from planner.whole_bike.lyings import Lying, find_lying


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
    ways = [states for states in states_of_line(frame=frame, line=line) if _suits_old(frame, states, kind, told)]
    if not told and len(ways) > 1:
        raise OldWayNotToldError(line_id=line.id, ways=tuple(ports_of(states) for states in ways))
    if not told and not ways:
        return OldPlace()
    ports = told or ports_of(ways[0])
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


def find_changes(
    *, visit: Visit, lines: tuple[VisitLine, ...], workshop: Workshop, is_split: bool = False
) -> tuple[Change, ...]:
    """What is done to one line: one change, or its going out and its coming in where it is taken out first.

    Raises OldWayNotToldError as `find_old_place` does.

    lines : the line; or several that are drawn in together, the one with an old line first
    workshop : methods, limits and steps
    is_split : whether the old line comes out before the new one goes in
    """
    line, ids = lines[0], tuple(each.id for each in lines)
    old = find_old_place(frame=visit.frame, line=line)
    out = Change(line_ids=ids, kind=StepKind.OUT, old=old.lying, old_through=old.through, ways=(Way(),))
    if line.new is None:
        return (out,)
    is_swap = line.old is not None and not is_split
    if len(lines) > 1:
        ways = find_ways_together(visit=visit, lines=lines, ports=old.ports, workshop=workshop)
    else:
        ways = _new_ways(visit, line, line.old if is_swap else None, old if is_swap else OldPlace(), workshop)
    if is_swap:
        return (Change(line_ids=ids, kind=StepKind.SWAP, old=old.lying, old_through=old.through, ways=ways),)
    goes_in = Change(line_ids=ids, kind=StepKind.IN, old=None, old_through=(), ways=ways)
    return (out, goes_in) if is_split else (goes_in,)


def why_never_together(*, visit: Visit, lines: tuple[VisitLine, ...], workshop: Workshop) -> NeverTogether | None:
    """Why lines can never go in with one draw, whatever room there is; None where room decides.

    lines : the one with an old line first
    """
    ports = find_old_place(frame=visit.frame, line=lines[0]).ports
    return find_never_together(visit=visit, lines=lines, ports=ports, workshop=workshop)


def _new_ways(
    visit: Visit, line: VisitLine, old: OldLine | None, place: OldPlace, workshop: Workshop
) -> tuple[Way, ...]:
    ways = states_wanted(frame=visit.frame, line=line, ports=line.through if old is None else place.ports)
    if old is not None:
        old = replace(old, through=place.ports)
    job = job_of_line(visit=visit, line=replace(line, old=old))
    question = ask_line(line_id=line.id, job=job, ways=ways, workshop=workshop)
    found = (find_line_way(question, states) for states in ways)
    kept = (Way(lines=(way,), manners=manners) for way, manners in found if manners)
    return tuple(sorted(kept, key=lambda way: (way.manners[0].value, way.lines[0].through)))


def _suits_old(frame: Frame, states: States, kind: LineKind, told: tuple[str, ...]) -> bool:
    ports = ports_of(states)
    if told:
        return set(ports) == set(told)
    return all(frame.ports[port_id].takes(kind) for port_id in ports)
