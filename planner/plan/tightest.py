"""The tightest moment of each hole on the way."""

from collections.abc import Container

from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Check


def tightest_by_port(plan: RoutingPlan, ports: Container[str]) -> dict[str, Check]:
    """For each of these ports that the plan asked about, the check with the least to spare, in the order of the way."""
    found: dict[str, Check] = {}
    for check in plan.checks:
        port_id = check.port_id or ""
        if check.rule.is_about_hole and port_id in ports:
            found[port_id] = min(found.get(port_id, check), check, key=_room)
    return found


def _room(check: Check) -> tuple[int, float]:
    worst_mm = check.worst_clearance_mm
    return (-int(check.outcome), float("inf") if worst_mm is None else worst_mm)
