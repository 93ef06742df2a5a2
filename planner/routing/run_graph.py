"""A frame as a graph whose nodes are (place, run): about to travel this run from this port or anchor."""

from collections.abc import Callable, Collection, Iterable, Iterator
from typing import NamedTuple

from planner.errors import UnknownPortError
from planner.parts import OUTSIDE, Frame, Run


class RunState(NamedTuple):
    """About to travel a run from one of its ends.

    place : id of the port or anchor it starts at
    run_id : the run
    """

    place: str
    run_id: str


LEAVE = RunState("", "")
"""The state of having arrived."""

Step = tuple[RunState, RunState, float]
"""A state, the one it leads on to, and the length of the run travelled in between. [mm]"""


class RunGraph:
    """Which run state leads on to which, in the order told; `LEAVE` is one of the states.

    states : all of them, also those that lead nowhere
    steps : each between two of the states, or to a state that is told by it
    """

    def __init__(self, states: Iterable[RunState], steps: Iterable[Step] = ()) -> None:
        self._onward: dict[RunState, dict[RunState, float]] = {state: {} for state in states}
        for tail, head, length_mm in steps:
            self._onward.setdefault(tail, {})[head] = length_mm
            self._onward.setdefault(head, {})
        self._back: dict[RunState, list[RunState]] = {state: [] for state in self._onward}
        for tail, head, _ in self.steps():
            self._back[head].append(tail)

    def __iter__(self) -> Iterator[RunState]:
        return iter(self._onward)

    def __len__(self) -> int:
        return len(self._onward)

    def successors(self, state: RunState) -> Iterable[RunState]:
        """The states that this one leads on to."""
        return self._onward[state].keys()

    def predecessors(self, state: RunState) -> Iterable[RunState]:
        """The states that lead on to this one."""
        return self._back[state]

    def steps(self) -> Iterator[Step]:
        """Every step, by the state it starts from."""
        return ((tail, head, length_mm) for tail, heads in self._onward.items() for head, length_mm in heads.items())

    def length_mm(self, tail: RunState, head: RunState) -> float:
        """Length of the run travelled from a state to one that it leads on to. [mm]"""
        return self._onward[tail][head]

    def part_of(self, states: Iterable[RunState]) -> "RunGraph":
        """The same with these states only, and the steps between them."""
        kept = set(states)
        return RunGraph(
            (state for state in self if state in kept),
            ((tail, head, length_mm) for tail, head, length_mm in self.steps() if tail in kept and head in kept),
        )


def far_end_of(*, run: Run, place: str) -> str:
    """The other end of a run."""
    first, second = run.between
    return second if place == first else first


def graph_of_runs(*, frame: Frame, from_anchor_id: str, to_anchor_id: str, leg_length_mm: dict[str, float]) -> RunGraph:
    """Every way of going from run to run through a port, between two anchors.

    A port joins two runs only where it joins their zones.

    from_anchor_id, to_anchor_id : where the line starts and ends
    leg_length_mm : length of every run, by its id

    Raises UnknownPortError when an anchor is not on the frame.
    """
    for anchor_id in (from_anchor_id, to_anchor_id):
        if anchor_id not in frame.anchors:
            raise UnknownPortError(frame_id=frame.id, port_id=anchor_id, known=tuple(frame.anchors))
    runs_at: dict[str, list[Run]] = {}
    for run in frame.runs.values():
        for place in run.between:
            runs_at.setdefault(place, []).append(run)
    states: dict[RunState, None] = {LEAVE: None}
    steps: list[Step] = []
    for state in (RunState(place, run.id) for run in frame.runs.values() for place in run.between):
        run, end = frame.runs[state.run_id], far_end_of(run=frame.runs[state.run_id], place=state.place)
        may_start = state.place == from_anchor_id or state.place in frame.ports
        if may_start and end != from_anchor_id:
            heads = [LEAVE] if end == to_anchor_id else _onward_from(frame, run, end, runs_at[end])
            states.update(dict.fromkeys((state, *heads)))
            steps += [(state, head, leg_length_mm[run.id]) for head in heads]
    return RunGraph(states, steps)


def _onward_from(frame: Frame, run: Run, end: str, runs: Iterable[Run]) -> list[RunState]:
    """The runs that a line goes on into through the port at the end of this one."""
    if end not in frame.ports:
        return []
    joins = set(frame.ports[end].joins)
    return [
        RunState(end, onward.id) for onward in runs if onward.id != run.id and joins == {run.zone_id, onward.zone_id}
    ]


def starts_of(*, graph: RunGraph, from_anchor_id: str) -> tuple[RunState, ...]:
    """The states in which a route may begin.

    from_anchor_id : where routes start
    """
    return tuple(state for state in graph if state != LEAVE and state.place == from_anchor_id)


def states_in_order(*, graph: RunGraph, from_anchor_id: str) -> tuple[RunState, ...]:
    """States that lie on some way between the anchors, nearest the start first, counted in ports.

    Returns without those from which the far anchor cannot be reached.

    from_anchor_id : where routes start
    """
    leads_on = {state for layer in _layers([LEAVE], graph.predecessors) for state in layer} - {LEAVE}
    starts = starts_of(graph=graph, from_anchor_id=from_anchor_id)
    layers = _layers(starts, graph.successors)
    return tuple(state for layer in layers for state in sorted(layer) if state in leads_on)


def _layers(
    first: Iterable[RunState], next_to: Callable[[RunState], Iterable[RunState]]
) -> Iterator[Collection[RunState]]:
    """States by how many steps they lie from the first ones, nearest first; each once."""
    layer = dict.fromkeys(first)
    seen = set(layer)
    while layer:
        yield layer
        layer = dict.fromkeys(state for before in layer for state in next_to(before) if state not in seen)
        seen |= layer.keys()


def zone_bore_tolerance_mm(*, frame: Frame, run: Run) -> float:
    """Plus or minus on the clear diameter of the cavity a run lies in; 0 outside. [mm]"""
    return 0.0 if run.zone_id == OUTSIDE else frame.zones[run.zone_id].bore_tolerance_mm


def zone_bore_mm(*, frame: Frame, run: Run) -> float | None:
    """Clear diameter of the cavity a run lies in.

    None for a run outside, or in a cavity nobody measured.
    """
    return None if run.zone_id == OUTSIDE else frame.zones[run.zone_id].bore_diameter_mm
