"""The shortest way from anchor to anchor that uses no port twice."""

from collections.abc import Collection, Mapping
from heapq import heappop, heappush
from math import inf

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
    from planner.routing.named_ways import find_way_through  # loaded when asked: few jobs come to it

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

    None where the open states do not link the anchors. Of walks as cheap, the one whose states were told first.

    costs : as for `find_shortest_way` [mm or no unit]
    closed : states not to be used, in spite of their cost

    Source: E. W. Dijkstra, "A note on two problems in connexion with graphs", Numerische Mathematik 1 (1959) 269-271;
    from memory.
    """
    starts = [state for state in _open_starts(graph, from_anchor_id, costs) if state not in closed]
    least = dict.fromkeys(starts, 0.0)
    came_from: dict[RunState, RunState | None] = dict.fromkeys(starts)
    queue = [(0.0, nth, state) for nth, state in enumerate(starts)]
    put_n = len(queue)
    done: set[RunState] = set()
    while queue:
        cost, _, state = heappop(queue)
        if state == LEAVE:
            return _led_to(LEAVE, came_from)[:-1]
        if state in done:
            continue
        done.add(state)
        so_far = cost + costs[state]
        for head in graph.successors(state):
            is_open = head == LEAVE or (head in costs and head not in closed)
            if is_open and head not in done and so_far < least.get(head, inf):
                least[head], came_from[head] = so_far, state
                heappush(queue, (so_far, put_n, head))
                put_n += 1
    return None


def _led_to(state: RunState | None, came_from: Mapping[RunState, RunState | None]) -> Way:
    """The states that led to one, in order."""
    way: list[RunState] = []
    while state is not None:
        way.append(state)
        state = came_from[state]
    return tuple(reversed(way))


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
