"""Which of the checks on a way decides the answer."""

from collections.abc import Sequence

from planner.rules import AT_BOTH_MOMENTS
from planner.verdicts import Check, State


def decider_of(checks: Sequence[Check]) -> Check | None:
    """The worst outcome, and of these the least worst-case clearance in a hole.

    None where nothing was checked.

    checks : in reading order; of equals the first decides
    """
    worst_outcome = max((check.outcome for check in checks), default=None)
    worst = [check for check in checks if check.outcome is worst_outcome]
    holes = [check for check in worst if check.rule.row.is_gap_round_a_line]
    while_drawing = [check for check in holes if check.state is State.DRAWING]

    def room(check: Check) -> float:
        return float("-inf") if check.worst_clearance_mm is None else check.worst_clearance_mm

    for group in (while_drawing, holes, worst):
        if group:
            return min(group, key=room)
    return None


def in_reading_order(route_checks: Sequence[Check], general_checks: Sequence[Check]) -> tuple[Check, ...]:
    """Holes while drawing first, in route order, then holes while riding, then all the rest as asked."""

    def place_in_sheet(check: Check) -> int:
        if check.rule.is_about_hole and check.rule.row.asked == AT_BOTH_MOMENTS:
            return 0 if check.state is State.DRAWING else 1
        return 2

    return tuple(sorted((*route_checks, *general_checks), key=place_in_sheet))


def miss_rank_mm(check: Check) -> float:
    """How much is missing at a place, for putting misses in order; infinite where that is not told, or no place is."""
    about_a_place = check.port_id is not None or check.run_id is not None
    return float("inf") if check.clearance_mm is None or not about_a_place else -check.clearance_mm
