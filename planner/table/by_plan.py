"""A way answer read off the whole plan: what answers found together are held against."""

from collections.abc import Sequence

from planner.parts import Job, Workshop
from planner.plan.deciding import decider_of, miss_rank_mm
from planner.plan.lengths import Lengths
from planner.plan.plan_builder import plan_again
from planner.plan.routing_plan import NoRoute
from planner.rules import BrakeRule, LengthRule, PartRule
from planner.table.answers import Decider, WayAnswer, decider_told
from planner.verdicts import Check, NoWay, Outcome, worst_of

LENGTH = "length"
"""Stands for a rule where the length of a leg is not known."""


def way_by_plan(*, job: Job, workshop: Workshop) -> WayAnswer:
    """The way answer of one job, planned by itself."""
    plan = plan_again(job, workshop)
    if plan.no_route is not None:
        return WayAnswer(outcome=Outcome.NO_FIT, decider=_nearest_miss(plan.no_route))
    checks = [check for check in plan.checks if is_about_way(check)]
    return WayAnswer(
        outcome=worst_of(checks, of_nothing=Outcome.UNKNOWN),
        method_id=plan.method_id,
        feed_from=plan.feed_from,
        cut_old_at=plan.cut_old_at,
        route=plan.route,
        decider=decider_told(decider_of(checks)),
        cut_mm=None if plan.lengths is None else plan.lengths.cut_mm,
        missing=(*places_missing(checks), *(() if plan.lengths is None else legs_missing(plan.lengths))),
    )


def is_about_way(check: Check) -> bool:
    """Whether a check of a plan is about its way, and not about the parts or the supplied length."""
    return not isinstance(check.rule, BrakeRule | PartRule) and check.rule is not LengthRule.SUPPLIED_LENGTH


def places_missing(checks: Sequence[Check]) -> tuple[tuple[str, str], ...]:
    """Place and rule of everything that was not measured or not proven, each once."""
    told = (decider_told(check) for check in checks if check.outcome is Outcome.UNKNOWN)
    return tuple(dict.fromkeys((each.place_id, each.rule) for each in told))


def legs_missing(lengths: Lengths) -> tuple[tuple[str, str], ...]:
    """The runs whose length is not known, where that leaves the line's not known either."""
    return () if lengths.known else tuple((leg.run_id, LENGTH) for leg in lengths.legs if leg.high_mm is None)


def _nearest_miss(no_route: NoRoute) -> Decider:
    if no_route.reason not in (NoWay.STOPPED, NoWay.NO_METHOD):
        return Decider(rule=no_route.reason.value)
    misses = (miss.check for miss in no_route.closest_misses)
    return decider_told(min(misses, key=miss_rank_mm, default=None))
