"""The ways through a frame, by its plan of holes and runs alone: many frames have the same."""

from collections.abc import Hashable
from dataclasses import dataclass

from planner.parts import Case
from planner.routing.every_way import Way, find_ways_if_few
from planner.routing.run_graph import RunGraph, RunState, graph_of_runs

MOST_WAYS = 64
"""Of a frame with more, each pair is planned by itself."""

STEPS_ALLOWED = 20_000
"""Steps tried before a frame counts as one with more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ground:
    """The ways of a case that use no port twice.

    ways : all of them; none where there are too many, or they are none of a table's business
    states : every step on any of them
    graph : as the search has it, but for its lengths
    """

    ways: tuple[Way, ...] = ()
    states: tuple[RunState, ...] = ()
    graph: RunGraph


def plan_of_holes(case: Case) -> Hashable:
    """All that the ways hang on: by it grounds are remembered."""
    frame = case.frame
    runs = tuple((run.id, run.zone_id, run.between) for run in frame.runs.values())
    ports = tuple((port.id, port.joins) for port in frame.ports.values())
    through = () if case.old is None else case.old.through
    return case.from_anchor_id, case.to_anchor_id, runs, ports, through


def find_ground(case: Case) -> Ground:
    """The ways between the ends of a case; where the old line's way is known, those through just its ports.

    Raises UnknownPortError when an anchor is not on the frame.
    """
    frame, ends = case.frame, {case.from_anchor_id, case.to_anchor_id}
    graph = graph_of_runs(
        frame=frame,
        from_anchor_id=case.from_anchor_id,
        to_anchor_id=case.to_anchor_id,
        leg_length_mm=dict.fromkeys(frame.runs, 1.0),
    )
    if any(set(run.between) == ends for run in frame.runs.values()):
        return Ground(graph=graph)  # what may be laid along the outside is planned by itself
    ways = find_ways_if_few(
        graph=graph, from_anchor_id=case.from_anchor_id, at_most=MOST_WAYS, steps_allowed_n=STEPS_ALLOWED
    )
    if ways is None:
        return Ground(graph=graph)
    if case.old is not None and case.old.through:
        ways = tuple(way for way in ways if {state.place for state in way[1:]} == set(case.old.through))
    return Ground(ways=ways, states=tuple(sorted({state for way in ways for state in way})), graph=graph)
