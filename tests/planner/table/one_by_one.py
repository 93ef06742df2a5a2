"""Pairs planned each by itself: what a table is held against."""

from typing import Any

from planner import CaseAnswers, deciding_check, join_answers, plan_job
from planner.parts import Brake, Case, Workshop, job_of_pair
from planner.plan.deciding import miss_rank_mm
from planner.verdicts import NoWay, Outcome


def told_by_plan(case: Case, brake: Brake, workshop: Workshop) -> dict[str, Any]:
    """What the plan of a pair says of all that a row tells."""
    plan = plan_job(job=job_of_pair(case=case, brake=brake), workshop=workshop, seeks_ways_out=False)
    decider = deciding_check(plan)
    rule = "" if decider is None else decider.rule.value
    if plan.no_route is not None:
        is_near = plan.no_route.reason in (NoWay.STOPPED, NoWay.NO_METHOD)
        misses = [miss.check for miss in plan.no_route.closest_misses] if is_near else []
        decider = min(misses, key=miss_rank_mm, default=None)
        rule = plan.no_route.reason.value if not is_near else "" if decider is None else decider.rule.value
    lengths = plan.lengths
    return {
        "outcome": plan.outcome,
        "method": plan.method_id,
        "feed_from": plan.feed_from,
        "cut_old_at": plan.cut_old_at,
        "route": plan.route,
        "rule": rule,
        "place": "" if decider is None else decider.port_id or decider.run_id or "",
        "clearance_mm": None if decider is None else decider.clearance_mm,
        "cut_mm": None if lengths is None else lengths.cut_mm,
        "spare_mm": None if lengths is None else lengths.spare_mm,
        "open": {check.port_id or check.run_id or "" for check in plan.checks if check.outcome is Outcome.UNKNOWN},
    }


def told_by_table(answers: CaseAnswers, look: int, brake: Brake) -> dict[str, Any]:
    """The same from the answers of a case."""
    way, parts = answers.ways[answers.way_of[look]], answers.parts[answers.parts_of[look]]
    row = join_answers(way=way, parts=parts, supplied_mm=brake.supplied_length_mm)
    return {
        "outcome": row.outcome,
        "method": way.method_id,
        "feed_from": way.feed_from,
        "cut_old_at": way.cut_old_at,
        "route": way.route,
        "rule": row.decider.rule,
        "place": row.decider.place_id,
        "clearance_mm": row.decider.clearance_mm,
        "cut_mm": way.cut_mm,
        "spare_mm": row.spare_mm,
        "open": {place for place, rule in way.missing if rule != "length"},
    }
