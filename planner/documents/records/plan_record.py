"""A plan as plain values for a file: the words of the file format; sizes to four decimals, lengths of lines to one."""

from math import isfinite
from typing import Any

from planner.documents.words.check_words import sentence_for
from planner.documents.words.measure_words import measures_told
from planner.documents.words.need_words import need_words
from planner.plan.lengths import LegLength, Lengths
from planner.plan.routing_plan import Joint, NoRoute, PlanOption, Rejection, RoutingPlan, Step
from planner.plan.way_out import WayOut
from planner.verdicts import Check

Record = dict[str, Any]


def plan_as_record(plan: RoutingPlan) -> Record:
    """The plan as the one object that `lineplan plan --json` prints.

    Returns plain values only, in a fixed order.

    plan : a plan, or a "no" with its proof
    """
    return {
        "format": 1,
        "job": plan.job_id,
        "title": plan.job_title,
        "frame": plan.frame_id,
        "outcome": plan.outcome.word,
        "route": list(plan.route),
        "runs": list(plan.runs),
        "method": plan.method_id,
        "feed_from": plan.feed_from,
        "cut_old_at": plan.cut_old_at,
        "joint": None if plan.joint is None else _joint(plan.joint),
        "checks": [_check(check) for check in plan.checks],
        "lengths": None if plan.lengths is None else _lengths(plan.lengths),
        "rejected": [_rejection(rejection) for rejection in plan.rejected],
        "alternatives": [_option(option) for option in plan.options[1:]],
        "no_route": None if plan.no_route is None else _no_route(plan.no_route),
        "ways_out": [_way_out(way) for way in (plan.no_route or plan).ways_out],
        "parts": [{"id": part.id, "name": part.name, "quantity": part.quantity} for part in plan.parts],
        "steps": [_step(step) for step in plan.steps],
        "cautions": list(plan.cautions),
        "at_hand": list(plan.at_hand),
        "rescue": [{"case": line.case, "kind": line.kind, "text": line.text} for line in plan.rescue],
        "measure_first": [
            {"place": item.place_id, "what": item.what, "reason": item.reason, "chance": _rounded(item.chance_ratio)}
            for item in measures_told(plan)
        ],
        "fit_chance": _rounded(plan.fit_chance),
        "notes": [sentence_for(check) for check in plan.advisories],
        "needs": [need_words(need) for need in plan.needs],
    }


def _rounded(value: float | None, *, digits: int = 4) -> float | None:
    """Four decimals: a tenth of a micrometre, far below what anyone measures; infinity is told as None."""
    return None if value is None or not isfinite(value) else round(value, digits) + 0.0


def _joint(joint: Joint) -> Record:
    return {
        "diameter_mm": _rounded(joint.thing.diameter_mm),
        "rigid_length_mm": _rounded(joint.thing.rigid_length_mm),
        "holds_n": _rounded(joint.holds_n),
        "drag_n": _rounded(joint.drag_n, digits=2),
        "advice": joint.advice,
        "ease_up_to_n": _rounded(joint.ease_up_to_n, digits=1),
        "drag_is_least": joint.is_drag_least,
    }


def _check(check: Check) -> Record:
    return {
        "rule": check.rule,
        "state": check.state,
        "port": check.port_id,
        "run": check.run_id,
        "with": list(check.with_ids),
        "size_mm": _rounded(check.size_mm),
        "available_mm": _rounded(check.available_mm),
        "clearance_mm": _rounded(check.clearance_mm),
        "worst_clearance_mm": _rounded(check.worst_clearance_mm),
        "fit_class": check.fit_class,
        "outcome": check.outcome.word,
        "placement": None
        if check.placement is None
        else [
            {"x_mm": _rounded(x), "y_mm": _rounded(y), "diameter_mm": _rounded(diameter)}
            for (x, y), diameter in zip(check.placement.centres_mm, check.placement.diameters_mm, strict=True)
        ],
        "motion": None
        if check.motion is None
        else [
            {"x_mm": _rounded(pose.x_mm), "y_mm": _rounded(pose.y_mm), "tilt_deg": _rounded(pose.tilt_deg)}
            for pose in check.motion
        ],
        "note": check.note,
    }


def _lengths(lengths: Lengths) -> Record:
    return {
        "legs": [_leg(leg) for leg in lengths.legs],
        "known": lengths.known,
        "need_mm": _rounded(lengths.need_mm, digits=1),
        "cut_mm": _rounded(lengths.cut_mm, digits=1),
        "supplied_mm": _rounded(lengths.supplied_mm, digits=1),
        "spare_mm": _rounded(lengths.spare_mm, digits=1),
        "insertion_mm": _rounded(lengths.insertion_mm, digits=1),
        "trim_mm": _rounded(lengths.trim_mm, digits=1),
        "pressure_mm": _rounded(lengths.pressure_mm, digits=1),
        "cut_over_mm": _rounded(lengths.cut_over_mm, digits=1),
        "is_cut": lengths.is_cut,
        "cutting_tolerance_mm": _rounded(lengths.cutting_tolerance_mm, digits=1),
        "measured_old_mm": _rounded(lengths.measured_old_mm, digits=1),
        "measured_difference_ratio": _rounded(lengths.measured_difference_ratio),
        "posture": lengths.posture,
        "allow_mm": _rounded(lengths.allow_mm, digits=1),
        "geometry_error": lengths.geometry_error,
        "is_from_old_line": lengths.is_from_old_line,
    }


def _leg(leg: LegLength) -> Record:
    return {
        "run": leg.run_id,
        "from": leg.from_place,
        "to": leg.to_place,
        "nominal_mm": _rounded(leg.nominal_mm, digits=1),
        "low_mm": _rounded(leg.low_mm, digits=1),
        "high_mm": _rounded(leg.high_mm, digits=1),
        "least_mm": _rounded(leg.least_mm, digits=1),
        "basis": leg.basis,
        "tolerance_mm": _rounded(leg.tolerance_mm, digits=1),
        "told_by": leg.told_by,
        "worst_posture": leg.worst_posture,
        "slackest_posture": leg.slackest_posture,
        "slack_variation_mm": _rounded(leg.slack_variation_mm, digits=1),
        "tightest_radius_mm": _rounded(leg.tightest_radius_mm, digits=1),
    }


def _rejection(rejection: Rejection) -> Record:
    check = rejection.check
    return {
        "method": rejection.method_id,
        "feed_from": rejection.feed_from,
        "port": check.port_id,
        "run": check.run_id,
        "rule": check.rule,
        "outcome": check.outcome.word,
        "size_mm": _rounded(check.size_mm),
        "available_mm": _rounded(check.available_mm),
        "clearance_mm": _rounded(check.clearance_mm),
        "note": check.note,
    }


def _option(option: PlanOption) -> Record:
    return {
        "method": option.method_id,
        "feed_from": option.feed_from,
        "cut_old_at": option.cut_old_at,
        "route": list(option.route),
        "outcome": option.outcome.word,
        "joint": _joint(option.joint),
        "holds_drag": option.holds_drag,
        "work_min": _rounded(option.work_min, digits=1),
        "length_mm": _rounded(option.length_mm, digits=1),
        "remark": option.remark,
    }


def _way_out(way: WayOut) -> Record:
    return {
        "kind": way.kind,
        "port": way.port_id,
        "size_mm": _rounded(way.size_mm),
        "opening": None if way.opening is None else way.opening.words,
        "end": way.end,
        "with": way.with_id or None,
        "name": way.name or None,
        "missing_mm": _rounded(way.missing_mm),
        "outcome": way.outcome.word,
        "leaves": [check.rule for check in way.leaves],
    }


def _no_route(no_route: NoRoute) -> Record:
    return {
        "ports": list(no_route.ports),
        "runs": list(no_route.runs),
        "closest_misses": [_rejection(miss) for miss in no_route.closest_misses],
        "ways_out": [_way_out(way) for way in no_route.ways_out],
        "is_connected": no_route.is_connected,
        "reason": no_route.reason.value,
        "is_fewest": no_route.is_fewest,
        "ports_twice": list(no_route.ports_twice),
        "old_too_thick_at": list(no_route.old_too_thick_at),
        "parts_against": [_check(check) for check in no_route.parts_against],
    }


def _step(step: Step) -> Record:
    return {
        "n": step.n,
        "id": step.id,
        "text": step.text,
        "why": step.why,
        "short": step.short,
        "part": step.part,
        "cautions": list(step.cautions),
        "least_min": step.least_min,
        "likely_min": step.likely_min,
        "most_min": step.most_min,
    }
