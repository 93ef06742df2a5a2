"""A frame as a graph whose nodes are (place, run): about to travel this run from this port or anchor."""

from typing import NamedTuple, TypeAlias

import networkx as nx

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

RunGraph: TypeAlias = nx.DiGraph
"""Nodes are run states and `LEAVE`; edges carry `length_mm`."""


def far_end_of(*, run: Run, place: str) -> str:
    """The other end of a run."""
    first, second = run.between
    return second if place == first else first


def graph_of_runs(*, frame: Frame, from_anchor_id: str, to_anchor_id: str, leg_length_mm: dict[str, float]) -> RunGraph:
    """Every way of going from run to run through a port, between two anchors.

    Edges carry `length_mm` of the run travelled. A port joins two runs only where it joins their zones.

    Returns nodes are `RunState`s and `LEAVE`.

    from_anchor_id, to_anchor_id : where the line starts and ends
    leg_length_mm : length of every run, by its id

    Raises UnknownPortError when an anchor is not on the frame.
    """
    for anchor_id in (from_anchor_id, to_anchor_id):
        if anchor_id not in frame.anchors:
            raise UnknownPortError(frame_id=frame.id, port_id=anchor_id, known=tuple(frame.anchors))
    graph: RunGraph = nx.DiGraph()
    graph.add_node(LEAVE)
    runs_at: dict[str, list[Run]] = {}
    for run in frame.runs.values():
        for place in run.between:
            runs_at.setdefault(place, []).append(run)
    for run in frame.runs.values():
        for place in run.between:
            _add_run(graph, frame, runs_at, RunState(place, run.id), (from_anchor_id, to_anchor_id), leg_length_mm)
    return graph


def _add_run(
    graph: RunGraph,
    frame: Frame,
    runs_at: dict[str, list[Run]],
    state: RunState,
    anchors: tuple[str, str],
    leg_length_mm: dict[str, float],
) -> None:
    from_anchor_id, to_anchor_id = anchors
    run = frame.runs[state.run_id]
    end = far_end_of(run=run, place=state.place)
    starts_here = state.place == from_anchor_id
    if not (starts_here or state.place in frame.ports) or end == from_anchor_id:
        return
    graph.add_node(state)
    if end == to_anchor_id:
        graph.add_edge(state, LEAVE, length_mm=leg_length_mm[run.id])
    elif end in frame.ports:
        for onward in runs_at[end]:
            if onward.id != run.id and set(frame.ports[end].joins) == {run.zone_id, onward.zone_id}:
                graph.add_edge(state, RunState(end, onward.id), length_mm=leg_length_mm[run.id])


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
    leads_on = nx.ancestors(graph, LEAVE)
    ordered: dict[RunState, None] = {}
    layers = nx.bfs_layers(graph, list(starts_of(graph=graph, from_anchor_id=from_anchor_id)))
    for layer in layers:
        ordered.update(dict.fromkeys(sorted(state for state in layer if state in leads_on)))
    return tuple(ordered)


def zone_bore_tolerance_mm(*, frame: Frame, run: Run) -> float:
    """Plus or minus on the clear diameter of the cavity a run lies in; 0 outside. [mm]"""
    return 0.0 if run.zone_id == OUTSIDE else frame.zones[run.zone_id].bore_tolerance_mm


def zone_bore_mm(*, frame: Frame, run: Run) -> float | None:
    """Clear diameter of the cavity a run lies in.

    None for a run outside, or in a cavity nobody measured.
    """
    return None if run.zone_id == OUTSIDE else frame.zones[run.zone_id].bore_diameter_mm
