"""Whether a way uses exactly the named ports, decided exactly as an integer program."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Any

from planner.routing.run_graph import LEAVE, RunGraph, RunState

Step = tuple[RunState, RunState]

START = RunState("", "start")
"""Where the program's flow comes from; no run is called so, for its place is empty."""


def find_way_through(
    *,
    graph: RunGraph,
    starts: Iterable[RunState],
    costs: Mapping[RunState, float],
    must_use: frozenset[str],
) -> tuple[RunState, ...] | None:
    """The cheapest way over the states that have a cost, through every named port once and no port twice.

    A unit of flow goes from the starts to `LEAVE`; rings of ports apart from it are cut off one by one until the
    flow is one way.

    None where there is no such way.

    starts : the states a way may begin with
    costs : of travelling each state's run, as `find_shortest_way` takes them [mm or no unit]
    must_use : ids of the ports the way uses; empty for any

    Source: G. Dantzig, R. Fulkerson, S. Johnson, "Solution of a large-scale traveling-salesman problem", J. Oper.
    Res. Soc. Am. 2 (1954) 393-410; from memory of the paper. Solved by scipy.optimize.milp (HiGHS).
    """
    steps: list[Step] = [(START, start) for start in starts]
    steps += [(tail, head) for tail, head, _ in graph.steps() if tail in costs and (head in costs or head == LEAVE)]
    if not {head.place for _, head in steps} >= must_use:
        return None
    rows = _rows(steps, must_use)
    while True:
        chosen = _solve(steps, costs, rows)
        if chosen is None:
            return None
        onward = dict(chosen)
        way = tuple(_walk(onward, START))[1:]
        apart = {state.place for step in chosen for state in step} - {state.place for state in (START, *way, LEAVE)}
        if not apart & must_use:
            return way
        for ring in _rings(onward, {START, *way}):
            ports = {state.place for state in ring}
            into = [n for n, (tail, head) in enumerate(steps) if head.place in ports and tail.place not in ports]
            rows.append((dict.fromkeys(into, 1.0), 1.0, float("inf")))


Row = tuple[dict[int, float], float, float]
"""Coefficients by column, least and greatest sum."""


def _rows(steps: Sequence[Step], must_use: frozenset[str]) -> list[Row]:
    balance: dict[RunState, dict[int, float]] = {}
    uses: dict[str, dict[int, float]] = {}
    for column, (tail, head) in enumerate(steps):
        if tail != START:
            balance.setdefault(tail, {})[column] = -1.0
        if head != LEAVE:
            balance.setdefault(head, {})[column] = 1.0
            uses.setdefault(head.place, {})[column] = 1.0
    begins = {column: 1.0 for column, (tail, _) in enumerate(steps) if tail == START}
    rows: list[Row] = [(begins, 1.0, 1.0)]
    rows += [(row, 0.0, 0.0) for row in balance.values()]
    rows += [(row, 1.0 if place in must_use else 0.0, 1.0) for place, row in uses.items()]
    return rows


def _solve(steps: Sequence[Step], costs: Mapping[RunState, float], rows: Sequence[Row]) -> list[Step] | None:
    # loaded when asked: few jobs need it, and it takes longer to load than most plans
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import csr_array

    entries = [(row, column, value) for row, (terms, _, _) in enumerate(rows) for column, value in terms.items()]
    at_rows, at_columns, values = zip(*entries, strict=True)
    matrix: Any = csr_array((values, (at_rows, at_columns)), shape=(len(rows), len(steps)))
    solved = milp(
        [0.0 if tail == START else costs[tail] for tail, _ in steps],
        integrality=[1] * len(steps),
        bounds=Bounds(0, 1),
        constraints=LinearConstraint(matrix, [low for _, low, _ in rows], [high for _, _, high in rows]),
        options={"mip_rel_gap": 0.0},
    )
    if solved.x is None:
        return None
    return [step for step, share in zip(steps, solved.x, strict=True) if share > 0.5]


def _walk(onward: Mapping[RunState, RunState], start: RunState) -> Iterator[RunState]:
    """The states from one on, as each leads to the next, until it leaves or is back where it started."""
    state = start
    while state != LEAVE:
        yield state
        state = onward[state]
        if state == start:
            return


def _rings(onward: Mapping[RunState, RunState], on_way: Collection[RunState]) -> Iterator[tuple[RunState, ...]]:
    """What goes round apart from the way."""
    left = [state for state in onward if state not in on_way]
    while left:
        ring = tuple(_walk(onward, left[0]))
        yield ring
        left = [state for state in left if state not in ring]
