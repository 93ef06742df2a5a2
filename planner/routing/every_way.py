"""Every way from anchor to anchor, where one best way is not enough to know."""

from collections.abc import Iterator
from itertools import islice

from planner.routing.run_graph import LEAVE, RunGraph, RunState, starts_of


def find_every_way(*, graph: RunGraph, from_anchor_id: str, at_most: int) -> tuple[tuple[RunState, ...], ...]:
    """The ways between the graph's anchors that use no port twice, in the order of their states.

    Returns no more than asked for; as many as that may mean that there are more.

    from_anchor_id : where ways start
    at_most : how many are wanted
    """
    starts = sorted(starts_of(graph=graph, from_anchor_id=from_anchor_id))
    ways = (way for start in starts for way in _onward(graph, (start,)))
    return tuple(islice(ways, at_most))


def _onward(graph: RunGraph, way: tuple[RunState, ...]) -> Iterator[tuple[RunState, ...]]:
    heads = set(graph.successors(way[-1]))
    if LEAVE in heads:
        yield way
    passed = {state.place for state in way}
    for head in sorted(heads - {LEAVE}):
        if head.place not in passed:
            yield from _onward(graph, (*way, head))
