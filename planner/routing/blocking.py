"""No route: the fewest places that stop every route, and how near the best way came."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import networkx as nx

from planner.routing.attempts import Attempt
from planner.routing.closest_miss import place_of
from planner.routing.run_graph import LEAVE, RunGraph, RunState, starts_of
from planner.verdicts import Outcome

Place = tuple[str, str]
"""("port", id) or ("run", id)."""

SETS_TRIED = 2000
"""How many sets of places are tried before the sets of the single attempts are put together instead."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Blockage:
    """The proof that nothing gets through.

    ports, runs : ids of the places that together stop every route; as few as possible
    is_connected : False where the frame's runs do not link the anchors, so that nothing needs stopping
    """

    ports: tuple[str, ...]
    runs: tuple[str, ...]
    is_connected: bool


def find_blockage(*, graph: RunGraph, from_anchor_id: str, failing: dict[RunState, frozenset[Place]]) -> Blockage:
    """The smallest set of failing places that every route goes through: a minimum cut.

    Every failing place may be cut at a cost of one (a run a trace more than a port, so that ports are named where
    either would do); a place that does not fail cannot be cut.

    Returns empty and not connected where the anchors are not linked at all.

    from_anchor_id : where routes start
    failing : for each state that fails, the places that make it fail: ("port", id) or ("run", id). States that pass
        are absent

    Raises ValueError when a route exists that nothing stops.

    Source: Max-flow min-cut theorem: L. R. Ford, D. R. Fulkerson, "Maximal flow through a network", Canad. J. Math. 8
    (1956) 399-404; from memory of the paper. Computed by networkx.minimum_cut.
    """
    starts = starts_of(graph=graph, from_anchor_id=from_anchor_id)
    if not any(nx.has_path(graph, start, LEAVE) for start in starts):
        return Blockage(ports=(), runs=(), is_connected=False)
    network = _place_network(graph, starts, failing)
    try:
        _, (near, far) = nx.minimum_cut(network, "start", LEAVE)
    except nx.NetworkXUnbounded as unbounded:
        raise ValueError("a route exists that no failing place stops") from unbounded
    cut = sorted(
        (head[1], head[2])
        for tail, head in network.edges
        if tail in near and head in far and isinstance(head, tuple) and head[0] == "after"
    )
    return Blockage(
        ports=tuple(place for kind, place in cut if kind == "port"),
        runs=tuple(place for kind, place in cut if kind == "run"),
        is_connected=True,
    )


def find_common_blockage(*, attempts: Sequence[Attempt], graph: RunGraph, from_anchor_id: str) -> Blockage:
    """The fewest places that stop every route of every attempt whose joint can be made.

    Places that fail in all attempts are tried first. Where these do not close every route, sets of failing places are
    tried, small ones first; where that would take too long, each attempt's own smallest set is taken and the sets are
    put together.

    Returns empty where no joint can be made, or where the anchors are not linked.

    attempts : everything tried; none may have found a way
    from_anchor_id : where routes start
    """
    tried = [_failing_places(attempt) for attempt in attempts if attempt.step_checks and attempt.route is None]
    shared = tried[0] if tried else {}
    for other in tried[1:]:
        shared = {state: shared.get(state, frozenset()) & other.get(state, frozenset()) for state in shared}
    common = _cut_or_none(graph, from_anchor_id, shared)
    if common is not None:
        return common
    cuts = [cut for failing in tried if (cut := _cut_or_none(graph, from_anchor_id, failing)) is not None]
    together = {("port", port) for cut in cuts for port in cut.ports} | {
        ("run", run) for cut in cuts for run in cut.runs
    }
    smallest = _smallest_for_all(graph, from_anchor_id, tried, at_most=len(together)) or tuple(sorted(together))
    return Blockage(
        ports=tuple(place for kind, place in smallest if kind == "port"),
        runs=tuple(place for kind, place in smallest if kind == "run"),
        is_connected=True,
    )


def _smallest_for_all(
    graph: RunGraph,
    from_anchor_id: str,
    tried: Sequence[dict[RunState, frozenset[Place]]],
    *,
    at_most: int,
) -> tuple[Place, ...] | None:
    """The fewest places that close every way of every attempt, found by trying sets, small ones first.

    None where there is no smaller set than `at_most`, or where trying them all would take too long.
    """
    places = sorted({place for failing in tried for found in failing.values() for place in found})
    left = SETS_TRIED
    for size in range(1, at_most):
        for chosen in combinations(places, size):
            left -= 1
            if left < 0:
                return None
            if all(_closes(graph, from_anchor_id, failing, frozenset(chosen)) for failing in tried):
                return chosen
    return None


def _closes(
    graph: RunGraph, from_anchor_id: str, failing: dict[RunState, frozenset[Place]], places: frozenset[Place]
) -> bool:
    open_states = [state for state in graph if not failing.get(state, frozenset()) & places]
    ways = graph.subgraph(open_states)
    return not any(nx.has_path(ways, start, LEAVE) for start in starts_of(graph=ways, from_anchor_id=from_anchor_id))


def _cut_or_none(graph: RunGraph, from_anchor_id: str, failing: dict[RunState, frozenset[Place]]) -> Blockage | None:
    try:
        return find_blockage(graph=graph, from_anchor_id=from_anchor_id, failing=failing)
    except ValueError:
        return None


def _failing_places(attempt: Attempt) -> dict[RunState, frozenset[Place]]:
    failing = {
        state: frozenset(place_of(check) for check in checks if check.outcome is Outcome.NO_FIT)
        for state, checks in attempt.step_checks.items()
    }
    return {state: places for state, places in failing.items() if places}


def _place_network(
    graph: RunGraph, starts: tuple[RunState, ...], failing: dict[RunState, frozenset[Place]]
) -> nx.DiGraph:
    """States as plain nodes; each place a state fails at is one shared edge, so cutting it once stops every state."""
    network: nx.DiGraph = nx.DiGraph()
    run_cost = 1 + 1 / (1 + graph.number_of_nodes())
    for state in graph:
        inner: object = ("in", state)
        for kind, place in sorted(failing.get(state, frozenset())):
            before, after = ("before", kind, place), ("after", kind, place)
            network.add_edge(before, after, capacity=1.0 if kind == "port" else run_cost)
            network.add_edge(inner, before)
            inner = ("behind", state, kind, place)
            network.add_edge(after, inner)
        for onward in graph.successors(state):
            network.add_edge(inner, LEAVE if onward == LEAVE else ("in", onward))
    for start in starts:
        network.add_edge("start", ("in", start))
    return network
