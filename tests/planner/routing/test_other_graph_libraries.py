"""Routes and the proof of a no, against scipy's graphs, which share no code with those the planner searches."""

import csv
from pathlib import Path
from random import Random

import numpy as np
import pytest
from scipy.sparse import csr_matrix
from scipy.sparse.csgraph import dijkstra, maximum_flow

from planner.routing.blocking import Tried, find_blockage
from planner.routing.route_search import find_best_route
from planner.routing.run_graph import LEAVE, RunGraph
from planner.verdicts import Outcome
from tests.planner.routing.networks import Way, graph_of

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/shortest_routes.csv").open(encoding="utf-8")))
NETWORKS, PLACES, LINKS = 60, 40, 75


def length_of_best(graph: RunGraph, start: str, *must_use: str) -> float | None:
    fitting = dict.fromkeys((state for state in graph if state != LEAVE), Outcome.FITS)
    best = find_best_route(
        graph=graph, from_anchor_id=start, outcomes=fitting, worst_allowed=Outcome.TIGHT, must_use=must_use
    )
    return None if best is None else best.length_mm


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["case"])
def test_shortest_route_of_a_published_network(row: dict[str, str]) -> None:
    ways = [(word[0], word[2], float(word[4:])) for word in row["runs"].split(";")]
    start, *between, end = row["expected_route"].split()
    graph = graph_of(ways, end=end, are_one_way=True)
    assert length_of_best(graph, start) == float(row["expected_length"])
    assert length_of_best(graph, start, *between) == float(row["expected_length"])
    assert length_of_best(graph, start, "D", "F") == 8  # the third of the paths printed there


def random_network(seed: int) -> list[Way]:
    draw = Random(seed)
    linked = {tuple(sorted(draw.sample(range(PLACES), 2))) for _ in range(LINKS)}
    return [(f"{a:02d}", f"{b:02d}", float(draw.randint(1, 400))) for a, b in sorted(linked)]


def as_matrix(ways: list[Way]) -> csr_matrix:
    table = np.zeros((PLACES, PLACES))
    for a, b, length in ways:
        table[int(a), int(b)] = table[int(b), int(a)] = length
    return csr_matrix(table)


def fewest_places_by_flow(ways: list[Way]) -> int:
    """Each place is split in two with room for one way between; the first and the last have room for any number."""
    table = np.zeros((2 * PLACES, 2 * PLACES), dtype=np.int32)
    for place in range(PLACES):
        table[place, PLACES + place] = PLACES if place in (0, PLACES - 1) else 1
    for a, b, _ in ways:
        table[PLACES + int(a), int(b)] = table[PLACES + int(b), int(a)] = PLACES
    return int(maximum_flow(csr_matrix(table), 0, 2 * PLACES - 1).flow_value)


def test_shortest_routes_are_as_long_as_another_library_says() -> None:
    linked = 0
    for seed in range(NETWORKS):
        ways = random_network(seed)
        found_mm = length_of_best(graph_of(ways, end=f"{PLACES - 1}", are_one_way=False), "00")
        wanted_mm = dijkstra(as_matrix(ways), indices=0)[PLACES - 1]
        assert (float("inf") if found_mm is None else found_mm) == wanted_mm, seed
        linked += found_mm is not None
    assert linked > NETWORKS / 2


def test_the_fewest_places_that_stop_everything_are_as_many_as_a_flow_says() -> None:
    stopped = 0
    for seed in range(NETWORKS):
        ways = random_network(seed)
        graph = graph_of(ways, end=f"{PLACES - 1}", are_one_way=False)
        if length_of_best(graph, "00") is None or any({a, b} == {"00", f"{PLACES - 1}"} for a, b, _ in ways):
            continue
        failing = {
            state: frozenset({("port", state.place)}) for state in graph if state != LEAVE and state.place != "00"
        }
        found = find_blockage(graph=graph, from_anchor_id="00", tried=[Tried(failing=failing)])
        assert (found.is_fewest, found.runs) == (True, ())
        assert len(found.ports) == fewest_places_by_flow(ways), seed
        stopped += 1
    assert stopped > NETWORKS / 2
