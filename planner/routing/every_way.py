"""Every way from anchor to anchor, where one best way is not enough to know."""

from collections.abc import Iterator
from itertools import islice

from planner.routing.run_graph import LEAVE, RunGraph, RunState, starts_of, states_in_order

Way = tuple[RunState, ...]


def find_every_way(*, graph: RunGraph, from_anchor_id: str, at_most: int) -> tuple[Way, ...]:
    """The ways between the graph's anchors that use no port twice, in the order of their states.

    Returns no more than asked for; as many as that may mean that there are more.

    from_anchor_id : where ways start
    at_most : how many are wanted
    """
    found = (way for way in _steps_on(graph, from_anchor_id) if way)
    return tuple(islice(found, at_most))


def find_ways_if_few(
    *, graph: RunGraph, from_anchor_id: str, at_most: int, steps_allowed_n: int
) -> tuple[Way, ...] | None:
    """The same where there are no more than that many; None where there are, or where looking takes too long.

    from_anchor_id : where ways start
    at_most : how many are wanted at most
    steps_allowed_n : steps that may be tried
    """
    found: list[Way] = []
    for steps_n, way in enumerate(_steps_on(graph, from_anchor_id)):
        found += [way] if way else []
        if len(found) > at_most or steps_n > steps_allowed_n:
            return None
    return tuple(found)


def _steps_on(graph: RunGraph, from_anchor_id: str) -> Iterator[Way]:
    """One step after the other, depth first: a way where it arrives, nothing where it does not."""
    leads_on = set(states_in_order(graph=graph, from_anchor_id=from_anchor_id))
    starts = (state for state in starts_of(graph=graph, from_anchor_id=from_anchor_id) if state in leads_on)
    todo = [iter(sorted(starts))]
    way: list[RunState] = []
    while todo:
        head = next(todo[-1], None)
        if head is None:
            todo.pop()
            del way[-1:]
        elif all(head.place != state.place for state in way):
            way.append(head)
            heads = set(graph.successors(head))
            yield tuple(way) if LEAVE in heads else ()
            todo.append(iter(sorted(heads & leads_on)))
