"""No route: the fewest places that stop every way, checked by trying all sets of places."""

from itertools import combinations

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.routing.blocking import find_blockage
from planner.routing.run_graph import LEAVE, RunState
from tests.builders import make_lane_frame
from tests.planner.routing.test_route_search import all_routes, graph_with_lengths, ladder_frame


def stops_everything(graph, failing, places) -> bool:
    """By removing every state that fails at one of the places, and asking networkx whether a path is left."""
    kept = [state for state in graph if not failing.get(state, frozenset()) & set(places)]
    left = graph.subgraph(kept)
    starts = [state for state in left if state != LEAVE and state.place == "start"]
    return not any(nx.has_path(left, start, LEAVE) for start in starts)


def port_failures(graph, ports) -> dict[RunState, frozenset[tuple[str, str]]]:
    return {state: frozenset({("port", state.place)}) for state in graph if state != LEAVE and state.place in ports}


@settings(max_examples=60, deadline=None)
@given(st.data())
def test_cut_stops_everything_and_nothing_smaller_does(data: st.DataObject) -> None:
    graph = graph_with_lengths(ladder_frame(3, 1))
    ports = sorted({state.place for state in graph if state != LEAVE and state.place != "start"})
    failing_ports = data.draw(st.sets(st.sampled_from(ports)))
    failing = port_failures(graph, failing_ports)
    places = [("port", port) for port in sorted(failing_ports)]
    if not stops_everything(graph, failing, places):
        with pytest.raises(ValueError, match="no failing place stops"):
            find_blockage(graph=graph, from_anchor_id="start", failing=failing)
        return
    cut = find_blockage(graph=graph, from_anchor_id="start", failing=failing)
    assert cut.is_connected
    assert stops_everything(graph, failing, [("port", port) for port in cut.ports])
    for smaller in combinations(places, max(len(cut.ports) - 1, 0)):
        assert len(cut.ports) == 0 or not stops_everything(graph, failing, smaller)


def test_two_lanes_need_a_port_each() -> None:
    graph = graph_with_lengths(make_lane_frame((8.0, 8.0), (8.0, 8.0)))
    cut = find_blockage(
        graph=graph, from_anchor_id="start", failing=port_failures(graph, {"in-0", "out-0", "in-1", "out-1"})
    )
    assert len(cut.ports) == 2
    assert {port[-1] for port in cut.ports} == {"0", "1"}


def test_a_port_is_named_before_a_run_that_would_do_as_well() -> None:
    graph = graph_with_lengths(make_lane_frame((8.0, 8.0)))
    failing = {
        RunState("in-0", "through-0"): frozenset({("run", "through-0")}),
        RunState("out-0", "from-0"): frozenset({("port", "out-0")}),
    }
    cut = find_blockage(graph=graph, from_anchor_id="start", failing=failing)
    assert (cut.ports, cut.runs) == (("out-0",), ())


def test_a_run_is_named_where_only_it_stops() -> None:
    graph = graph_with_lengths(make_lane_frame((8.0, 8.0)))
    failing = {RunState("in-0", "through-0"): frozenset({("run", "through-0")})}
    cut = find_blockage(graph=graph, from_anchor_id="start", failing=failing)
    assert (cut.ports, cut.runs) == ((), ("through-0",))


def test_ends_that_are_not_linked_need_no_stopping() -> None:
    graph = graph_with_lengths(make_lane_frame((8.0, 8.0)))
    graph.remove_node(RunState("in-0", "through-0"))
    cut = find_blockage(graph=graph, from_anchor_id="start", failing={})
    assert (cut.ports, cut.is_connected) == ((), False)
    assert all_routes(graph) == []
