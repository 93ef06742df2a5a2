"""How near did an attempt that failed come to passing: the deciding place of its least bad way."""

import networkx as nx

from planner.routing.attempts import Attempt
from planner.routing.run_graph import LEAVE, RunGraph, RunState, starts_of
from planner.verdicts import Check, Outcome

LENGTH_RULES = ("guide_bend", "wall_entry", "wall_exit", "bend_radius")
"""Rules whose clearance is a spare length of a stiff piece or of a radius, not a gap on a diameter."""


def failing_checks(checks: tuple[Check, ...]) -> tuple[Check, ...]:
    """The checks that forbid planning on a step: no fit, or not proven.

    Returns in the order given.

    checks : of one or more steps
    """
    return tuple(check for check in checks if check.outcome >= Outcome.UNKNOWN)


def place_of(check: Check) -> tuple[str, str]:
    """The place a check is about: its port where it names one, else its run.

    Raises ValueError when the check is about neither.
    """
    if check.port_id is not None:
        return ("port", check.port_id)
    if check.run_id is not None:
        return ("run", check.run_id)
    raise ValueError(f"the check {check.rule} is about no place")


def find_closest_miss(*, attempt: Attempt, graph: RunGraph, from_anchor_id: str) -> Check | None:
    """The worst check on the way that is least bad: what would have to give for this attempt to pass.

    Outcome counts before millimetres: a way that only lacks a measurement is nearer than one known not to fit.

    None where the runs do not link the anchors, or a route passes everything.

    attempt : an attempt with a joint and without a plannable route
    from_anchor_id : where routes start
    """
    worst = {state: _worst_check(checks) for state, checks in attempt.step_checks.items()}
    badness = {state: (0, 0.0) if check is None else _badness(check) for state, check in worst.items()}
    for allowed in sorted(set(badness.values())):
        usable = [state for state in graph if state == LEAVE or badness[state] <= allowed]
        subgraph = graph.subgraph(usable)
        starts = starts_of(graph=subgraph, from_anchor_id=from_anchor_id)
        if any(nx.has_path(subgraph, start, LEAVE) for start in starts):
            deciding = sorted(state for state in usable if state != LEAVE and badness[state] == allowed)
            return next((worst[state] for state in deciding if _is_needed(subgraph, starts, state)), None)
    return None


def _is_needed(graph: RunGraph, starts: tuple[RunState, ...], state: RunState) -> bool:
    """Whether some route of this graph goes through the state."""
    return nx.has_path(graph, state, LEAVE) and any(nx.has_path(graph, start, state) for start in starts)


def _worst_check(checks: tuple[Check, ...]) -> Check | None:
    """Of a step's failures the worst; a missing millimetre of diameter is not compared with one of length."""
    failing = failing_checks(checks)
    by_diameter = tuple(check for check in failing if check.rule not in LENGTH_RULES)
    return max(by_diameter or failing, key=_badness, default=None)


def _badness(check: Check) -> tuple[int, float]:
    return (int(check.outcome), 0.0 if check.clearance_mm is None else -check.clearance_mm)
