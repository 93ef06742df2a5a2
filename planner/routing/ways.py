"""The shortest way from anchor to anchor that uses no port twice."""

from collections.abc import Collection, Mapping
from heapq import heappop, heappush

import networkx as nx

from planner.routing.named_ways import find_way_through
from planner.routing.run_graph import LEAVE, RunGraph, RunState, starts_of

Way = tuple[RunState, ...]

SPLITS = 200
"""How often a port used twice is split before the whole question is put as one integer program."""


def find_shortest_way(
    *, graph: RunGraph, from_anchor_id: str, costs: Mapping[RunState, float], must_use: Collection[str] = ()
) -> Way | None:
    """The cheapest way over the states that have a cost, in order from the anchor; none uses a port twice.

    The cheapest walk is taken; where it uses a port twice, the states of that port fall in two groups of which a way
    uses one at most, and both are tried without the other, cheapest first.

    None where there is no such way.

    costs : of travelling each state's run, at least zero; a state without one is closed [mm or no unit]
    must_use : ids of the ports the way uses, all of them and no others, in any order; empty for any

    Source: best-first branch and bound on shortest paths, derived.
    """
    if must_use:
        costs = _only_named(costs, must_use, from_anchor_id)
    queue: list[tuple[float, int, frozenset[RunState], Way]] = []
    seen: set[frozenset[RunState]] = set()

    def put(closed: frozenset[RunState]) -> None:
        walk = (
            None
            if closed in seen
            else find_shortest_walk(graph=graph, from_anchor_id=from_anchor_id, costs=costs, closed=closed)
        )
        seen.add(closed)
        if walk is not None:
            heappush(queue, (sum(costs[state] for state in walk), len(seen), closed, walk))

    put(frozenset())
    while queue and len(seen) <= SPLITS:
        _, _, closed, walk = heappop(queue)
        twice = ports_used_twice(walk)
        if not twice:
            if not must_use or len(walk) == len(set(must_use)) + 1:
                return walk
            break
        for group in _groups(graph, walk, twice[0]):
            put(closed | group)
    else:
        if not queue:
            return None
    return find_way_through(
        graph=graph, starts=_open_starts(graph, from_anchor_id, costs), costs=costs, must_use=frozenset(must_use)
    )


def find_shortest_walk(
    *,
    graph: RunGraph,
    from_anchor_id: str,
    costs: Mapping[RunState, float],
    closed: frozenset[RunState] = frozenset(),
) -> Way | None:
    """The cheapest walk over the states that have a cost; it may go through a port there and back.

    None where the open states do not link the anchors.

    costs : as for `find_shortest_way` [mm or no unit]
    closed : states not to be used, in spite of their cost
    """
    starts = [state for state in _open_starts(graph, from_anchor_id, costs) if state not in closed]

    def step(tail: RunState, head: RunState, _: object) -> float | None:
        is_shut = head != LEAVE and (head not in costs or head in closed)
        return None if is_shut else costs[tail]

    try:
        _, walk = nx.multi_source_dijkstra(graph, starts, LEAVE, weight=step) if starts else (0.0, [])
    except nx.NetworkXNoPath:
        return None
    return tuple(walk[:-1]) or None


def ports_used_twice(walk: Way) -> tuple[str, ...]:
    """Ids of the ports a walk goes through more than once, in the order it first meets them."""
    places = [state.place for state in walk]
    return tuple(dict.fromkeys(place for place in places if places.count(place) > 1))


def _open_starts(graph: RunGraph, from_anchor_id: str, costs: Mapping[RunState, float]) -> tuple[RunState, ...]:
    return tuple(state for state in starts_of(graph=graph, from_anchor_id=from_anchor_id) if state in costs)


def _only_named(
    costs: Mapping[RunState, float], must_use: Collection[str], from_anchor_id: str
) -> dict[RunState, float]:
    named = {*must_use, from_anchor_id}
    return {state: cost for state, cost in costs.items() if state.place in named}


def _groups(graph: RunGraph, walk: Way, port_id: str) -> tuple[frozenset[RunState], frozenset[RunState]]:
    """The states of a port, parted so that the walk's two uses lie in different groups: by the way they lead on."""
    first, second, *_ = (state for state in walk if state.place == port_id)
    ahead = set(graph.predecessors(first))
    alike = frozenset(state for state in graph if state.place == port_id and set(graph.predecessors(state)) & ahead) - {
        second
    }
    rest = frozenset(state for state in graph if state.place == port_id) - alike
    return alike, rest
