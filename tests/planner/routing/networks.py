"""Networks of places and lengths as the graphs that the route search takes."""

import networkx as nx

from planner.routing.run_graph import LEAVE, RunGraph, RunState

Way = tuple[str, str, float]


def graph_of(ways: list[Way], *, end: str, are_one_way: bool) -> RunGraph:
    """States by place and run; a run is never followed by itself."""
    graph: RunGraph = nx.DiGraph()
    graph.add_node(LEAVE)
    states = [(RunState(a, f"{a}-{b}"), b, length) for a, b, length in ways]
    if not are_one_way:
        states += [(RunState(b, f"{a}-{b}"), a, length) for a, b, length in ways]
    for state, far, length in states:
        graph.add_node(state)
        onward = [LEAVE] if far == end else [s for s, _, _ in states if s.place == far and s.run_id != state.run_id]
        graph.add_edges_from(((state, following) for following in onward), length_mm=length)
    return graph
