"""What was ruled out and why; and, where nothing is left, the proof that there is no way."""

from collections.abc import Iterator, Sequence

from planner.parts import JobEnd
from planner.plan.routing_plan import NoRoute, Rejection
from planner.routing.attempts import Attempt
from planner.routing.blocking import find_common_blockage
from planner.routing.closest_miss import failing_checks, find_closest_miss
from planner.routing.run_graph import RunGraph, states_in_order
from planner.rules import JointRule
from planner.verdicts import Check, Outcome


def find_rejections(*, attempts: Sequence[Attempt], graph: RunGraph, from_anchor_id: str) -> tuple[Rejection, ...]:
    """Every method, direction and place that was ruled out, each with its number.

    Of a method that works, the places its route avoids are listed too.

    Returns by attempt; within one, in the order the new line would meet the places.

    attempts : everything tried
    graph : the frame's ways
    from_anchor_id : where routes start
    """
    return tuple(
        Rejection(method_id=attempt.method.id, feed_from=attempt.feed_from, check=check)
        for attempt in attempts
        for check in _failing_in_order(attempt, graph, from_anchor_id)
    )


def _failing_in_order(attempt: Attempt, graph: RunGraph, from_anchor_id: str) -> Iterator[Check]:
    general = failing_checks(attempt.general_checks)
    yield from (check for check in general if not is_told_last(check))
    yield from _failing_places(attempt, graph, from_anchor_id)
    yield from (check for check in general if is_told_last(check))


def is_told_last(check: Check) -> bool:
    """That a fitting sits in the way of the joint is told after where it does not pass: it may come off."""
    return check.rule is JointRule.LEADING_JOINT


def _failing_places(attempt: Attempt, graph: RunGraph, from_anchor_id: str) -> Iterator[Check]:
    ordered = states_in_order(graph=graph, from_anchor_id=from_anchor_id)
    if attempt.feed_from is JobEnd.TO:
        ordered = ordered[::-1]
    told: set[tuple[object, ...]] = set()
    for state in ordered:
        for check in failing_checks(attempt.step_checks.get(state, ())):
            key = (check.rule, check.state, check.port_id, check.run_id if check.port_id is None else None)
            if key not in told:
                told.add(key)
                yield check


def find_no_route(*, attempts: Sequence[Attempt], graph: RunGraph, from_anchor_id: str) -> NoRoute:
    """Why there is no way, the fewest places that stop every route, and for each method how near it came.

    Only asked when no attempt found a way.

    attempts : everything tried
    graph : the frame's ways
    from_anchor_id : where routes start
    """
    blockage = find_common_blockage(attempts=attempts, graph=graph, from_anchor_id=from_anchor_id)
    return NoRoute(
        reason=blockage.reason,
        ports=blockage.ports,
        runs=blockage.runs,
        is_fewest=blockage.is_fewest,
        ports_twice=blockage.ports_twice,
        closest_misses=_closest_misses(attempts, graph, from_anchor_id),
    )


def _closest_misses(attempts: Sequence[Attempt], graph: RunGraph, from_anchor_id: str) -> tuple[Rejection, ...]:
    """For each method the better of its two directions."""
    best: dict[str, Rejection] = {}
    for attempt in attempts:
        check = _deciding_check(attempt, graph, from_anchor_id)
        if check is None:
            continue
        miss = Rejection(method_id=attempt.method.id, feed_from=attempt.feed_from, check=check)
        if attempt.method.id not in best or _badness(check) < _badness(best[attempt.method.id].check):
            best[attempt.method.id] = miss
    return tuple(best.values())


def _deciding_check(attempt: Attempt, graph: RunGraph, from_anchor_id: str) -> Check | None:
    """What stands in the way first: the joint or ends themselves, else the deciding place of the least bad way."""
    general = failing_checks(attempt.general_checks)
    refusing = max(general, key=lambda check: check.outcome, default=None)
    if refusing is not None and refusing.outcome is Outcome.NO_FIT:
        return refusing
    return find_closest_miss(attempt=attempt, graph=graph, from_anchor_id=from_anchor_id) or refusing


def _badness(check: Check) -> tuple[Outcome, bool, bool, float]:
    """A miss about a place counts as nearer than one that says the joint cannot be made at all."""
    is_general = check.port_id is None and check.run_id is None
    return (check.outcome, is_general, is_told_last(check), 0.0 if check.clearance_mm is None else -check.clearance_mm)
