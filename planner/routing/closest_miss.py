"""How near did an attempt that failed come to passing: the deciding place of its least bad way.

Diameters are compared with diameters; lengths of stiff pieces and radii count only where no diameter fails. A stiff
piece wider than a hole is told by its diameter alone, or a missing tenth would be told again as tens of millimetres
of length.
"""

from bisect import bisect_left

from planner.quick_dataclass import dataclass
from planner.routing.attempts import Attempt, ports_to_use
from planner.routing.run_graph import RunGraph
from planner.routing.ways import Way, find_shortest_way
from planner.verdicts import Check, Outcome


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

    None where the frame has no way between the anchors, or a route passes everything.

    attempt : an attempt with a joint and without a plannable route
    from_anchor_id : where routes start
    """
    found = find_nearest_way(attempt=attempt, graph=graph, from_anchor_id=from_anchor_id)
    return None if found is None else found.miss


@dataclass(frozen=True, slots=True, kw_only=True)
class NearestWay:
    """The least bad way of an attempt.

    way : its states in order
    miss : the deciding check on it; None where all passes
    """

    way: Way
    miss: Check | None


def find_nearest_way(*, attempt: Attempt, graph: RunGraph, from_anchor_id: str) -> NearestWay | None:
    """The way on which the worst place is least bad, with that place.

    None where the frame has no way between the anchors.

    attempt : an attempt with a joint
    from_anchor_id : where routes start
    """
    worst = {state: worst_failing(checks) for state, checks in attempt.step_checks.items()}
    badness = {state: (0, 0.0) if check is None else _badness(check) for state, check in worst.items()}

    def way_within(allowed: tuple[int, float]) -> Way | None:
        costs = {state: 1.0 for state in badness if badness[state] <= allowed}
        must_use = ports_to_use(attempt.job)
        return find_shortest_way(graph=graph, from_anchor_id=from_anchor_id, costs=costs, must_use=must_use)

    grades = sorted(set(badness.values()))
    least = bisect_left(grades, True, key=lambda allowed: way_within(allowed) is not None)
    way = None if least == len(grades) else way_within(grades[least])
    if way is None:
        return None
    return NearestWay(way=way, miss=next(worst[state] for state in way if badness[state] == grades[least]))


def worst_failing(checks: tuple[Check, ...]) -> Check | None:
    """Of a step's failures the worst; a missing millimetre of diameter is not compared with one of length.

    None where all passes.
    """
    failing = failing_checks(checks)
    by_diameter = tuple(check for check in failing if not check.rule.row.measures.is_spare_length)
    return max(by_diameter or failing, key=_badness, default=None)


def _badness(check: Check) -> tuple[int, float]:
    return (int(check.outcome), 0.0 if check.clearance_mm is None else -check.clearance_mm)
