"""No route: the fewest places that stop every way, checked by trying all sets of places."""

from dataclasses import replace
from itertools import combinations

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner import plan_job
from planner.parts import Guide, LineEnd, NewLine
from planner.routing.blocking import find_blockage
from planner.routing.run_graph import LEAVE, RunState
from tests.builders import (
    make_coupler,
    make_job,
    make_lane_frame,
    make_line,
    make_sleeve,
    make_spoke,
    make_workshop,
)
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


def test_one_port_that_serves_for_all_attempts_is_preferred_to_a_port_for_each() -> None:
    """Two methods: one fails at in-0 and out-0, the other at out-0 only; out-0 alone stops both."""
    frame = make_lane_frame((4.9, 5.1))
    plan = plan_job(job=make_job(frame), workshop=make_workshop(make_spoke(), make_coupler()))
    assert plan.no_route is not None
    assert plan.no_route.ports == ("in-0",)


def test_methods_stopped_at_different_places_need_both_places() -> None:
    """A bend that only stops the stiff coupler, and behind it a hole that only stops the thick sleeve."""
    frame = make_lane_frame((8.0, 6.0))
    guide = Guide(bore_diameter_mm=8.0, bend_radius_mm=30.0, turn_deg=90.0, tolerance_mm=0.0)
    runs = {**frame.runs, "through-0": replace(frame.runs["through-0"], guide=guide)}
    new = NewLine(line=make_line(id="new", minimum_bend_radius_mm=20.0), from_end=LineEnd(), to_end=LineEnd())
    job = make_job(replace(frame, runs=runs), new=new)
    plan = plan_job(job=job, workshop=make_workshop(make_coupler(stud_length_mm=20.0), make_sleeve()))
    assert plan.no_route is not None
    assert (plan.no_route.ports, plan.no_route.runs) == (("out-0",), ("through-0",))
