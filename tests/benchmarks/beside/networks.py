"""The route search on ten telephone networks of a public library (SNDlib, as the package topohub brings them)."""

from random import Random
from typing import Any

from planner.outcomes import Outcome
from planner.routing.run_graph import LEAVE
from tests.benchmarks.beside.routes import Outcomes
from tests.planner.routing.networks import RunGraph, graph_of

SMALLER = ("abilene", "polska", "nobel-us", "nobel-germany", "atlanta", "pdh", "di-yuan", "dfn-bwin")
NETWORKS = (*SMALLER, "france", "geant")


def network_questions(topohub: Any, *, pairs_n: int) -> list[tuple[RunGraph, Outcomes]]:
    """Ways between places of each network, drawn; every port fits.

    topohub : the library
    pairs_n : how many of each network
    """
    questions = []
    for name in NETWORKS:
        network = topohub.get(f"sndlib/{name}")
        places = sorted(str(node["id"]) for node in network["nodes"])
        links = [(str(edge["source"]), str(edge["target"]), round(float(edge["dist"]), 1)) for edge in network["edges"]]
        draw = Random(name)
        for _ in range(pairs_n):
            start, end = draw.sample(places, 2)
            named = [("start" if a == start else a, "start" if b == start else b, length) for a, b, length in links]
            graph = graph_of(named, end=end, are_one_way=False)
            questions.append((graph, {state: Outcome.FITS for state in graph if state != LEAVE}))
    return questions
