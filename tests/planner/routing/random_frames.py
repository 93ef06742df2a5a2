"""Small frames of any shape for the searches to be tried on: zones, ports and runs drawn from a seeded generator."""

from itertools import combinations, pairwise
from random import Random

from planner.parts import OUTSIDE, Frame, Port, Run, Zone
from planner.routing.run_graph import LEAVE, RunGraph, RunState
from tests.builders import make_frame, make_port, make_run

Failures = dict[RunState, frozenset[tuple[str, str]]]


def random_frame(draw: Random, *, ports_n: int, zones_n: int, share: float) -> Frame:
    """A frame whose ports join any two zones, with a run between any two places of a zone at the given chance."""
    zones = [OUTSIDE, *(f"z{n}" for n in range(zones_n))]
    ports: list[Port] = [make_port(f"p{n}", joins=tuple(draw.sample(zones, 2))) for n in range(ports_n)]
    runs: list[Run] = []
    for zone in zones:
        places = [port.id for port in ports if zone in port.joins] + (["start", "end"] if zone == OUTSIDE else [])
        pairs = [(a, b) for n, a in enumerate(places) for b in places[n + 1 :] if (a, b) != ("start", "end")]
        runs += [make_run(f"{a}-{b}-{zone}", a, b, zone_id=zone) for a, b in pairs if draw.random() < share]
    return make_frame(*ports, runs=tuple(runs))


def rungs_frame(*, rails: int, columns: int) -> Frame:
    """Cavities one behind the other; each wall has a hole on every rail, each cavity runs between any two holes."""
    zones = [OUTSIDE, *(f"z{n}" for n in range(1, columns)), OUTSIDE]
    names = [[f"p{rail}-{column}" for rail in range(rails)] for column in range(columns)]
    ports = [
        make_port(hole, joins=tuple(zones[n : n + 2]), position_mm=(-60.0 * n, 30.0 * rail, 0.0))
        for n, column in enumerate(names)
        for rail, hole in enumerate(column)
    ]
    pairs = [("start", hole, OUTSIDE) for hole in names[0]] + [(hole, "end", OUTSIDE) for hole in names[-1]]
    for n, (before, behind) in enumerate(pairwise(names), start=1):
        pairs += [(a, b, zones[n]) for a, b in combinations([*before, *behind], 2)]
    runs = (make_run(f"{a}-{b}-{zone}", a, b, zone_id=zone) for a, b, zone in pairs)
    return make_frame(*ports, runs=tuple(runs), zones=tuple(make_zone(zone) for zone in zones[1:-1]))


def make_zone(zone_id: str) -> Zone:
    """A straight cavity."""
    return Zone(id=zone_id, path_mm=((0.0, 0.0, 0.0), (-500.0, 0.0, 0.0)), bore_diameter_mm=40.0)


def random_failures(draw: Random, graph: RunGraph, *, share: float) -> Failures:
    """Some ports fail at every step from them, some at one step only, as runs do."""
    bad_ports = {state.place for state in sorted(graph) if draw.random() < share / 2}
    failures: Failures = {}
    for state in sorted(graph):
        if state == LEAVE:
            continue
        is_port = state.place != "start"
        found = set()
        if is_port and (state.place in bad_ports or draw.random() < share / 3):
            found.add(("port", state.place))
        if draw.random() < share / 2:
            found.add(("run", state.run_id))
        if found:
            failures[state] = frozenset(found)
    return failures


def ways_of(graph: RunGraph, *, at_most: int) -> list[tuple[RunState, ...]] | None:
    """Every way that uses no port twice, by walking on until there is nowhere new to go; None where there are more."""
    found: list[tuple[RunState, ...]] = []
    begun = [(state,) for state in sorted(graph) if state != LEAVE and state.place == "start"]
    while begun:
        way = begun.pop()
        for onward in graph.successors(way[-1]):
            if onward == LEAVE:
                found.append(way)
            elif onward.place not in {state.place for state in way}:
                begun.append((*way, onward))
        if len(found) > at_most or len(begun) > 20 * at_most:
            return None
    return found
