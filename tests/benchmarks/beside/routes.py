"""The route search beside networkx's list of simple paths and beside a constraint solver, under the same rules.

The rules: the best worst outcome first, then the least length, and no port twice.
"""

from collections.abc import Callable, Iterator, Mapping
from functools import partial
from itertools import pairwise
from random import Random

import networkx as nx

from planner.outcomes import Outcome
from planner.routing.route_search import find_best_route
from planner.routing.run_graph import LEAVE, RunGraph, RunState, graph_of_runs, starts_of
from tests.benchmarks.beside.measured import Measured, Stopwatch
from tests.planner.routing.random_frames import random_frame

Way = tuple[RunState, ...]
Outcomes = Mapping[RunState, Outcome]
Searcher = Callable[[RunGraph, Outcomes], Way | None]

START = RunState("", "start")
PATHS_AT_MOST = 20_000
TENTHS = 10
"""The solver takes whole numbers; no length here is finer than a tenth of a mm, or of whatever a network tells."""
OUTCOMES = (Outcome.FITS, Outcome.FITS, Outcome.FITS, Outcome.TIGHT, Outcome.NO_FIT)


class TooManyPaths(Exception):  # noqa: N818
    """The other search was stopped: it had listed that many paths and none that may be taken."""


def random_question(seed: int, *, ports_n: int) -> tuple[RunGraph, Outcomes]:
    """A frame of any shape with lengths and outcomes drawn."""
    draw = Random(seed)
    frame = random_frame(draw, ports_n=ports_n, zones_n=max(3, ports_n // 8), share=0.3)
    lengths = {run_id: float(draw.randint(20, 900)) for run_id in sorted(frame.runs)}
    graph = graph_of_runs(frame=frame, from_anchor_id="start", to_anchor_id="end", leg_length_mm=lengths)
    return graph, {state: draw.choice(OUTCOMES) for state in sorted(graph) if state != LEAVE}


def ours(graph: RunGraph, outcomes: Outcomes) -> Way | None:
    """By the planner's search."""
    best = find_best_route(graph=graph, from_anchor_id="start", outcomes=dict(outcomes), worst_allowed=Outcome.TIGHT)
    return None if best is None else best.states


def by_simple_paths(graph: RunGraph, outcomes: Outcomes) -> Way | None:
    """By networkx's simple paths, shortest first, until one uses no port twice."""
    for allowed in (Outcome.FITS, Outcome.TIGHT):
        steps = _open_steps(graph, outcomes, allowed)
        plain = nx.DiGraph()
        plain.add_weighted_edges_from(steps)
        if START not in plain or LEAVE not in plain or not nx.has_path(plain, START, LEAVE):
            continue
        for n, path in enumerate(nx.shortest_simple_paths(plain, START, LEAVE, weight="weight")):
            places = [state.place for state in path[1:-1]]
            if len(set(places)) == len(places):
                return tuple(path[1:-1])
            if n == PATHS_AT_MOST:
                raise TooManyPaths
    return None


def by_constraints(graph: RunGraph, outcomes: Outcomes) -> Way | None:
    """By OR-tools' CP-SAT: one circuit through start and end, each place at most once, least length."""
    from ortools.sat.python import cp_model

    for allowed in (Outcome.FITS, Outcome.TIGHT):
        steps = _open_steps(graph, outcomes, allowed)
        index = {state: n for n, state in enumerate(dict.fromkeys(s for tail, head, _ in steps for s in (tail, head)))}
        if START not in index or LEAVE not in index:
            continue
        model = cp_model.CpModel()
        arcs = [(index[tail], index[head], model.new_bool_var("")) for tail, head, _ in steps]
        stays = {state: model.new_bool_var("") for state in index if state not in (START, LEAVE)}
        loops = [(index[state], index[state], stay) for state, stay in stays.items()]
        model.add_circuit([*arcs, *loops, (index[LEAVE], index[START], model.new_constant(1))])
        for place in {state.place for state in stays}:
            model.add_at_most_one(stay.negated() for state, stay in stays.items() if state.place == place)
        model.minimize(sum(round(TENTHS * length) * arc for (_, _, length), (*_, arc) in zip(steps, arcs, strict=True)))
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        if solver.solve(model) == cp_model.OPTIMAL:
            onward = {tail: head for (tail, head, _), (*_, arc) in zip(steps, arcs, strict=True) if solver.value(arc)}
            return tuple(_walk(onward))
    return None


def _walk(onward: Mapping[RunState, RunState]) -> Iterator[RunState]:
    state = onward[START]
    while state != LEAVE:
        yield state
        state = onward[state]


def _open_steps(graph: RunGraph, outcomes: Outcomes, allowed: Outcome) -> list[tuple[RunState, RunState, float]]:
    is_open = {state for state, outcome in outcomes.items() if outcome <= allowed}
    steps = [(START, state, 0.0) for state in starts_of(graph=graph, from_anchor_id="start") if state in is_open]
    return steps + [
        (tail, head, length)
        for tail, head, length in graph.steps()
        if tail in is_open and (head == LEAVE or head in is_open)
    ]


def merit_of(graph: RunGraph, outcomes: Outcomes, way: Way | None) -> tuple[Outcome, float] | None:
    """What a way is worth. Raises KeyError where one of its steps is none of the graph."""
    if way is None:
        return None
    assert len({state.place for state in way}) == len(way)
    steps = list(pairwise((*way, LEAVE)))
    return max(outcomes[state] for state in way), sum(graph.length_mm(*step) for step in steps)


def compare(beside: str, search: Searcher, questions: list[tuple[RunGraph, Outcomes]], what: str) -> Measured:
    """Both searches on every question by turns, their answers worth the same."""
    mine, theirs = Stopwatch(), Stopwatch()
    found = 0
    for graph, outcomes in questions:
        way = mine.time(partial(ours, graph, outcomes))
        other = theirs.time(partial(search, graph, outcomes))
        assert merit_of(graph, outcomes, way) == merit_of(graph, outcomes, other)
        found += way is not None
    work = f"{len(questions)} {what}, {found} with a route"
    return Measured(name="", work=work, ours_s=mine.seconds, beside=beside, beside_s=theirs.seconds)
