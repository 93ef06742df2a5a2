"""Routes: the best by outcome then length, checked against every simple path that networkx enumerates."""

from random import Random

import networkx as nx
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import UnknownPortError
from planner.parts import OUTSIDE
from planner.routing.route_search import find_best_route
from planner.routing.run_graph import LEAVE, RunGraph, RunState, graph_of_runs, states_in_order
from planner.routing.ways import find_shortest_walk, find_shortest_way, ports_used_twice
from planner.verdicts import Outcome
from tests.builders import make_frame, make_lane_frame, make_port, make_run
from tests.planner.routing.random_frames import random_frame, rungs_frame, ways_of


def graph_with_lengths(frame, lengths_mm=None):
    lengths = dict.fromkeys(frame.runs, 100.0) | (lengths_mm or {})
    return graph_of_runs(frame=frame, from_anchor_id="start", to_anchor_id="end", leg_length_mm=lengths)


def all_routes(graph: RunGraph) -> list[tuple[RunState, ...]]:
    """Every way, by networkx's own enumeration of simple paths: the outside reference."""
    starts = [state for state in graph if state != LEAVE and state.place == "start"]
    outside = nx.DiGraph((tail, head) for tail, head, _ in graph.steps())
    outside.add_nodes_from(graph)
    paths = [tuple(path[:-1]) for start in starts for path in nx.all_simple_paths(outside, start, LEAVE)]
    return [path for path in paths if len({state.place for state in path}) == len(path)]


def ladder_frame(width: int, rungs: int):
    """Several tubes side by side with holes between neighbours: many ways."""
    ports, runs = [], []
    for n in range(width):
        ports += [
            make_port(f"in-{n}", joins=(OUTSIDE, f"t{n}")),
            make_port(f"out-{n}", joins=(f"t{n}", OUTSIDE)),
        ]
        runs += [
            make_run(f"a{n}", "start", f"in-{n}", zone_id=OUTSIDE),
            make_run(f"z{n}", f"out-{n}", "end", zone_id=OUTSIDE),
        ]
        runs.append(make_run(f"s{n}", f"in-{n}", f"out-{n}", zone_id=f"t{n}"))
    for n in range(width - 1):
        for k in range(rungs):
            hole = f"x{n}-{k}"
            ports.append(make_port(hole, joins=(f"t{n}", f"t{n + 1}")))
            for side in (n, n + 1):
                runs += [
                    make_run(f"{hole}-i{side}", f"in-{side}", hole, zone_id=f"t{side}"),
                    make_run(f"{hole}-o{side}", hole, f"out-{side}", zone_id=f"t{side}"),
                ]
    return make_frame(*ports, runs=tuple(runs))


@settings(max_examples=40, deadline=None)
@given(st.data())
def test_best_route_is_the_best_of_all_simple_paths(data: st.DataObject) -> None:
    frame = ladder_frame(3, 2)
    lengths = {run_id: data.draw(st.integers(1, 50)) * 1.0 for run_id in sorted(frame.runs)}
    graph = graph_with_lengths(frame, lengths)
    outcomes = {
        state: data.draw(st.sampled_from(list(Outcome)), label=str(state)) for state in sorted(graph) if state != LEAVE
    }

    def rank(states: tuple[RunState, ...]) -> tuple[Outcome, float]:
        return max(outcomes[state] for state in states), sum(lengths[state.run_id] for state in states)

    plannable = [states for states in all_routes(graph) if rank(states)[0] <= Outcome.TIGHT]
    found = find_best_route(graph=graph, from_anchor_id="start", outcomes=outcomes, worst_allowed=Outcome.TIGHT)
    if not plannable:
        assert found is None
    else:
        assert found is not None
        assert (found.outcome, found.length_mm) == min(rank(states) for states in plannable)
        assert (found.outcome, found.length_mm) == rank(found.states)


def test_a_fitting_detour_beats_a_short_tight_way() -> None:
    frame = make_lane_frame((8.0, 8.0), (8.0, 8.0))
    graph = graph_with_lengths(frame, {"through-0": 10.0, "through-1": 900.0})
    outcomes = dict.fromkeys(graph, Outcome.FITS)
    outcomes[RunState("in-0", "through-0")] = Outcome.TIGHT
    found = find_best_route(graph=graph, from_anchor_id="start", outcomes=outcomes, worst_allowed=Outcome.TIGHT)
    assert found is not None
    assert found.port_ids == ("in-1", "out-1")


def test_the_ports_of_the_old_line_are_kept_to() -> None:
    frame = make_lane_frame((8.0, 8.0), (8.0, 8.0))
    graph = graph_with_lengths(frame, {"through-1": 900.0})
    outcomes = dict.fromkeys(graph, Outcome.FITS)
    found = find_best_route(
        graph=graph,
        from_anchor_id="start",
        outcomes=outcomes,
        worst_allowed=Outcome.TIGHT,
        must_use=("out-1", "in-1"),
    )
    assert found is not None
    assert found.port_ids == ("in-1", "out-1")


def test_ways_through_named_ports_are_the_shortest_of_all_that_use_them_and_no_others() -> None:
    found_n = none_n = 0
    for seed in range(500):
        draw = Random(seed)
        frame = random_frame(draw, ports_n=draw.randint(2, 7), zones_n=draw.randint(1, 3), share=draw.uniform(0.4, 0.9))
        lengths = {run_id: float(draw.randint(0, 50)) for run_id in sorted(frame.runs)}
        graph = graph_with_lengths(frame, lengths)
        ways = ways_of(graph, at_most=200)
        if not ways:
            continue
        named = {state.place for state in draw.choice(ways)[1:]}
        if draw.random() < 0.3:
            named ^= {draw.choice(sorted(frame.ports))}
        costs = {state: lengths[state.run_id] for state in graph if state != LEAVE}
        alike = [way for way in ways if not named or {state.place for state in way[1:]} == named]
        way = find_shortest_way(graph=graph, from_anchor_id="start", costs=costs, must_use=named)
        if not alike:
            assert way is None
            none_n += 1
        else:
            assert way in alike
            assert sum(costs[state] for state in way) == min(sum(costs[state] for state in way) for way in alike)
            found_n += 1
    assert min(found_n, none_n) > 30


@pytest.mark.parametrize("splits", [0, 1, 200])
def test_ways_through_no_port_twice_are_the_shortest_however_they_are_looked_for(
    splits: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """By splitting ports used twice, by the integer program, and by one after the other."""
    monkeypatch.setattr("planner.routing.ways.SPLITS", splits)
    twice_n = 0
    for seed in range(150):
        draw = Random(seed)
        frame = random_frame(draw, ports_n=4, zones_n=draw.randint(2, 3), share=draw.uniform(0.7, 1.0))
        lengths = {run_id: float(draw.randint(0, 50)) for run_id in sorted(frame.runs)}
        graph = graph_with_lengths(frame, lengths)
        costs = {state: lengths[state.run_id] for state in graph if state != LEAVE}
        ways = ways_of(graph, at_most=300)
        if ways is None:
            continue
        walk = find_shortest_walk(graph=graph, from_anchor_id="start", costs=costs)
        twice_n += walk is not None and bool(ports_used_twice(walk))
        way = find_shortest_way(graph=graph, from_anchor_id="start", costs=costs)
        assert (way is None) == (not ways)
        if way is not None:
            assert way in ways
            assert sum(costs[state] for state in way) == min(sum(costs[state] for state in way) for way in ways)
    assert twice_n > 10


@pytest.mark.parametrize("columns", [4, 20, 40])
def test_named_ports_are_decided_as_fast_where_they_make_no_way_as_where_they_do(columns: int) -> None:
    """Ladders of up to 120 ports: every port named makes no way, and one rail of them makes one."""
    graph = graph_with_lengths(rungs_frame(rails=3, columns=columns))
    ports = sorted({state.place for state in graph if state.place.startswith("p")})
    costs = {state: 1.0 for state in graph if state != LEAVE}
    assert find_shortest_way(graph=graph, from_anchor_id="start", costs=costs, must_use=ports[:-1]) is None
    assert find_shortest_way(graph=graph, from_anchor_id="start", costs=costs, must_use=ports) is None
    one_rail = [port for port in ports if port.startswith("p1")]
    way = find_shortest_way(graph=graph, from_anchor_id="start", costs=costs, must_use=one_rail)
    assert way is not None
    assert sorted(state.place for state in way[1:]) == sorted(one_rail)


def test_runs_of_one_cavity_never_meet_in_a_port_of_two_others() -> None:
    """A port joins exactly its two zones: outside to tube, never outside to outside."""
    frame = make_frame(
        make_port("in"),
        runs=(make_run("a", "start", "in", zone_id=OUTSIDE), make_run("b", "in", "end", zone_id=OUTSIDE)),
    )
    assert all_routes(graph_with_lengths(frame)) == []


def test_states_are_told_nearest_first_and_without_dead_ends() -> None:
    frame = make_lane_frame((8.0, 8.0))
    extra = make_frame(
        *frame.ports.values(),
        make_port("blind", joins=(OUTSIDE, "tube-0")),
        runs=(*frame.runs.values(), make_run("to-blind", "start", "blind", zone_id=OUTSIDE)),
        zones=tuple(frame.zones.values()),
    )
    ordered = states_in_order(graph=graph_with_lengths(extra), from_anchor_id="start")
    assert [state.place for state in ordered] == ["start", "in-0", "out-0"]


def test_an_anchor_the_frame_lacks_is_named() -> None:
    frame = make_lane_frame((8.0, 8.0))
    with pytest.raises(UnknownPortError, match="frame has no port or anchor nowhere; it has start, end"):
        graph_of_runs(frame=frame, from_anchor_id="nowhere", to_anchor_id="end", leg_length_mm={})
