"""No route: the fewest places that stop every way, checked by trying all sets of places."""

from collections import Counter
from dataclasses import replace
from itertools import combinations
from random import Random

import pytest

from planner import plan_job, verdict_sentence
from planner.parts import OUTSIDE, Guide, LineEnd, NewLine, OldLine
from planner.plan.names import Names
from planner.routing.blocking import Tried, find_blockage
from planner.routing.run_graph import LEAVE, RunState
from planner.verdicts import NoWay, Outcome
from tests.builders import (
    make_coupler,
    make_frame,
    make_job,
    make_lane_frame,
    make_line,
    make_port,
    make_run,
    make_sleeve,
    make_spoke,
    make_workshop,
)
from tests.planner.routing.random_frames import make_zone, random_failures, random_frame, rungs_frame, ways_of
from tests.planner.routing.test_route_search import all_routes, graph_with_lengths


def places_on(way, failing) -> frozenset[tuple[str, str]]:
    return frozenset(place for state in way for place in failing.get(state, ()))


def fewest_by_trying(ways, tried) -> tuple[int, int] | None:
    """How many places stop every way, and the fewest runs among them, by trying all sets; None where a way is open."""
    wanted = [places_on(way, failing) for failing in tried for way in ways]
    if not all(wanted):
        return None
    places = sorted(frozenset().union(*wanted))
    for size in range(len(places) + 1):
        runs = [
            sum(kind == "run" for kind, _ in chosen)
            for chosen in combinations(places, size)
            if all(places_.intersection(chosen) for places_ in wanted)
        ]
        if runs:
            return size, min(runs)
    raise AssertionError("all places together stop every way")


def port_failures(graph, ports) -> dict[RunState, frozenset[tuple[str, str]]]:
    return {state: frozenset({("port", state.place)}) for state in graph if state != LEAVE and state.place in ports}


def test_fewest_places_are_as_few_as_by_trying_all_sets_and_ports_come_first() -> None:
    """500 frames of any shape with up to three methods; among those with ways some are open, some stopped."""
    told = Counter()
    for seed in range(500):
        draw = Random(seed)
        graph = graph_with_lengths(
            random_frame(draw, ports_n=draw.randint(2, 7), zones_n=draw.randint(1, 3), share=draw.uniform(0.4, 0.9))
        )
        tried = [random_failures(draw, graph, share=draw.uniform(0.3, 1.5)) for _ in range(draw.randint(1, 3))]
        ways = ways_of(graph, at_most=60)
        if ways is None:
            continue
        wanted = fewest_by_trying(ways, tried)
        if ways and wanted is None:
            with pytest.raises(ValueError, match="no failing place stops"):
                find_blockage(graph=graph, from_anchor_id="start", tried=[Tried(failing=failing) for failing in tried])
            told["open"] += 1
            continue
        found = find_blockage(graph=graph, from_anchor_id="start", tried=[Tried(failing=failing) for failing in tried])
        told[found.reason] += 1
        assert (found.reason is NoWay.STOPPED) == bool(ways)
        if ways:
            assert found.is_fewest
            assert (len(found.ports) + len(found.runs), len(found.runs)) == wanted, seed
            chosen = {("port", port) for port in found.ports} | {("run", run) for run in found.runs}
            assert all(places_on(way, failing) & chosen for way in ways for failing in tried)
    assert told[NoWay.STOPPED] > 150
    assert min(told[NoWay.NOT_LINKED], told[NoWay.PORT_TWICE], told["open"]) > 2


def test_flow_that_no_line_can_take_needs_no_stopping() -> None:
    """Two methods' worth of ways cross in one hole; a line that enters it by one run cannot leave by the other."""
    frame = make_lane_frame((8.0, 8.0), (8.0, 8.0))
    graph = graph_with_lengths(frame)
    failing = {
        RunState("start", "to-0"): frozenset({("run", "shared")}),
        RunState("in-1", "through-1"): frozenset({("run", "shared")}),
    }
    found = find_blockage(graph=graph, from_anchor_id="start", tried=[Tried(failing=failing)])
    assert (found.ports, found.runs) == ((), ("shared",))


def test_two_lanes_need_a_port_each() -> None:
    graph = graph_with_lengths(make_lane_frame((8.0, 8.0), (8.0, 8.0)))
    failing = port_failures(graph, {"in-0", "out-0", "in-1", "out-1"})
    cut = find_blockage(graph=graph, from_anchor_id="start", tried=[Tried(failing=failing)])
    assert len(cut.ports) == 2
    assert {port[-1] for port in cut.ports} == {"0", "1"}


def test_a_port_is_named_before_a_run_that_would_do_as_well() -> None:
    graph = graph_with_lengths(make_lane_frame((8.0, 8.0)))
    failing = {
        RunState("in-0", "through-0"): frozenset({("run", "through-0")}),
        RunState("out-0", "from-0"): frozenset({("port", "out-0")}),
    }
    cut = find_blockage(graph=graph, from_anchor_id="start", tried=[Tried(failing=failing)])
    assert (cut.ports, cut.runs) == (("out-0",), ())


def test_a_run_is_named_where_only_it_stops() -> None:
    graph = graph_with_lengths(make_lane_frame((8.0, 8.0)))
    failing = {RunState("in-0", "through-0"): frozenset({("run", "through-0")})}
    cut = find_blockage(graph=graph, from_anchor_id="start", tried=[Tried(failing=failing)])
    assert (cut.ports, cut.runs) == ((), ("through-0",))


def test_ends_that_are_not_linked_need_no_stopping() -> None:
    whole = graph_with_lengths(make_lane_frame((8.0, 8.0)))
    graph = whole.part_of(state for state in whole if state != RunState("in-0", "through-0"))
    cut = find_blockage(graph=graph, from_anchor_id="start", tried=[Tried(failing={})])
    assert (cut.ports, cut.reason) == ((), NoWay.NOT_LINKED)
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


def there_and_back_frame():
    """In by the only port, on through the cavity behind it, and back by the same port to the far end."""
    return make_frame(
        make_port("mouth", joins=(OUTSIDE, "tube")),
        make_port("window", joins=("tube", "side")),
        make_port("hatch", joins=("tube", "side")),
        runs=(
            make_run("to", "start", "mouth", zone_id=OUTSIDE),
            make_run("a", "mouth", "window"),
            make_run("b", "window", "hatch", zone_id="side"),
            make_run("c", "hatch", "mouth"),
            make_run("from", "mouth", "end", zone_id=OUTSIDE),
        ),
        zones=(make_zone("tube"), make_zone("side")),
    )


def test_a_way_that_would_use_a_port_twice_is_told_as_the_reason() -> None:
    plan = plan_job(job=make_job(there_and_back_frame()), workshop=make_workshop(make_spoke()))
    assert plan.no_route is not None
    assert (plan.no_route.reason, plan.no_route.ports_twice) == (NoWay.PORT_TWICE, ("mouth",))
    told = verdict_sentence(replace(plan, names=Names(places={"mouth": "Mouth"})))
    assert told == "No plan: the only way between these two ends would go through Mouth there and back."


def test_a_way_left_open_that_would_use_a_port_twice_is_told_beside_the_proof() -> None:
    frame = there_and_back_frame()
    lane = make_lane_frame((4.0, 8.0))
    both = replace(
        frame,
        ports={**frame.ports, **lane.ports},
        runs={**frame.runs, **lane.runs},
        zones={**frame.zones, **lane.zones},
    )
    plan = plan_job(job=make_job(both), workshop=make_workshop(make_spoke()))
    assert plan.no_route is not None
    assert (plan.no_route.ports, plan.no_route.ports_twice) == (("in-0",), ("mouth",))
    assert "stopped at in-0; the way left open would go through mouth there and back." in verdict_sentence(plan)


def test_a_no_that_concerns_the_lines_alone_is_not_told_as_a_place() -> None:
    plan = plan_job(job=make_job(make_lane_frame((8.0, 8.0))), workshop=make_workshop(make_spoke(rod_diameter_mm=3.0)))
    assert plan.no_route is not None
    assert (plan.no_route.reason, plan.no_route.ports) == (NoWay.NO_METHOD, ())
    assert verdict_sentence(plan).startswith("No plan: no joining method in the catalog can be used on these two lines")


def old_line_through(*ports: str) -> OldLine:
    return OldLine(line=make_line(id="old"), from_end=LineEnd(), to_end=LineEnd(), through=ports)


def test_ports_of_the_old_line_that_make_no_way_are_told_as_the_reason_at_once() -> None:
    """All eight ports of a ladder with two rails: no line takes them all."""
    frame = rungs_frame(rails=2, columns=4)
    plan = plan_job(job=make_job(frame, old=old_line_through(*frame.ports)), workshop=make_workshop())
    assert plan.no_route is not None
    assert (plan.outcome, plan.no_route.reason) == (Outcome.NO_FIT, NoWay.OLD_ROUTE)
    assert verdict_sentence(plan) == (
        "No plan: the ports the old line is said to run through make no way between these two ends."
    )


def test_a_stopped_way_of_the_old_line_is_proven_by_its_own_ports() -> None:
    """The other lane is open, but the old line does not lie in it."""
    frame = make_lane_frame((4.0, 8.0), (8.0, 8.0))
    plan = plan_job(job=make_job(frame, old=old_line_through("in-0", "out-0")), workshop=make_workshop(make_spoke()))
    assert plan.no_route is not None
    assert (plan.no_route.reason, plan.no_route.ports) == (NoWay.STOPPED, ("in-0",))
    assert [miss.check.port_id for miss in plan.no_route.closest_misses] == ["in-0"]


def test_ends_that_no_run_links_are_told_without_a_word_about_methods() -> None:
    frame = make_frame(make_port("in"), runs=(make_run("a", "start", "in", zone_id=OUTSIDE),))
    plan = plan_job(job=make_job(frame), workshop=make_workshop(make_spoke(rod_diameter_mm=3.0)))
    assert verdict_sentence(plan) == ("No plan: the frame has no way between these two ends; its runs do not meet.")


def with_a_run_outside(frame, *, is_too_tight: bool):
    """Another way from end to end that goes through no hole, led round a corner that no hose takes, or round none."""
    corner = ((0.0, 400.0, 0.0), (0.0, 410.0, 0.0), (0.0, 400.0, 5.0)) if is_too_tight else ((-300.0, 200.0, 0.0),)
    outside = replace(make_run("outside", "start", "end", zone_id=OUTSIDE), via_mm=corner)
    return replace(frame, runs={**frame.runs, "outside": outside})


def test_a_way_outside_that_is_stopped_too_is_named_beside_the_ports() -> None:
    frame = with_a_run_outside(make_lane_frame((4.0, 8.0)), is_too_tight=True)
    plan = plan_job(job=make_job(frame), workshop=make_workshop(make_spoke()))
    assert plan.no_route is not None
    assert (plan.no_route.ports, plan.no_route.runs) == (("in-0",), ("outside",))
    named = plan_job(job=make_job(frame, old=old_line_through("in-0", "out-0")), workshop=make_workshop(make_spoke()))
    assert named.no_route is not None
    assert (named.no_route.ports, named.no_route.runs) == (("in-0",), ("outside",))


def test_a_way_outside_is_taken_where_no_hole_lets_the_line_through() -> None:
    frame = with_a_run_outside(make_lane_frame((4.0, 8.0)), is_too_tight=False)
    plan = plan_job(job=make_job(frame), workshop=make_workshop(make_spoke()))
    assert plan.no_route is None
    assert plan.runs == ("outside",)
