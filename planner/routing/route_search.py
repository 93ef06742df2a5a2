"""The best route for one attempt: first by its worst outcome, then by its length."""

from collections.abc import Iterator
from dataclasses import dataclass

import networkx as nx

from planner.routing.run_graph import LEAVE, RunGraph, RunState, starts_of
from planner.verdicts import Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """A way from one anchor to the other.

    states : in order from the job's `from`; the first starts at its anchor
    outcome : the worst outcome along it
    length_mm : sum of its legs [mm]
    """

    states: tuple[RunState, ...]
    outcome: Outcome
    length_mm: float

    @property
    def port_ids(self) -> tuple[str, ...]:
        """Ids of the ports in order."""
        return tuple(state.place for state in self.states[1:])

    @property
    def run_ids(self) -> tuple[str, ...]:
        """Ids of the runs in order."""
        return tuple(state.run_id for state in self.states)


def find_best_route(
    *,
    graph: RunGraph,
    from_anchor_id: str,
    outcomes: dict[RunState, Outcome],
    worst_allowed: Outcome,
    must_use: tuple[str, ...] = (),
) -> Route | None:
    """The route with the best worst outcome, and the shortest of those.

    None when no route is that good.

    worst_allowed : nothing worse is taken into a route
    must_use : ids of the ports the old line is known to run through, in any order; empty for any

    Source: J. Y. Yen, "Finding the K shortest loopless paths in a network", Management Science 17 (1971) 712-716, as
    implemented by networkx.shortest_simple_paths; from memory of the paper.
    """
    for allowed in sorted({outcome for outcome in outcomes.values() if outcome <= worst_allowed}):
        usable = [state for state in graph if state == LEAVE or outcomes[state] <= allowed]
        for states in _shortest_first(graph.subgraph(usable), from_anchor_id):
            if not must_use or {state.place for state in states[1:]} == set(must_use):
                return _route(graph, states, outcomes)
    return None


def _shortest_first(graph: RunGraph, from_anchor_id: str) -> Iterator[tuple[RunState, ...]]:
    """Routes in order of length, over all runs that start at the anchor; none uses a port twice."""
    starts = starts_of(graph=graph, from_anchor_id=from_anchor_id)
    source = RunState(from_anchor_id, "")
    rooted = graph.copy()
    rooted.add_weighted_edges_from(((source, start, 0.0) for start in starts), weight="length_mm")
    if source not in rooted:
        return
    try:
        for _, *states, _ in nx.shortest_simple_paths(rooted, source, LEAVE, weight="length_mm"):
            places = [state.place for state in states]
            if len(places) == len(set(places)):
                yield tuple(states)
    except nx.NetworkXNoPath:
        return


def _route(graph: RunGraph, states: tuple[RunState, ...], outcomes: dict[RunState, Outcome]) -> Route:
    steps = zip(states, (*states[1:], LEAVE), strict=True)
    return Route(
        states=states,
        outcome=max(outcomes[state] for state in states),
        length_mm=sum(graph.edges[step]["length_mm"] for step in steps),
    )
