"""What a plan asks the owner to settle, the hands to heed, and what it only proposes."""

from dataclasses import replace

from planner.documents.words.check_words import sentence_for
from planner.documents.words.way_out_words import way_out_sentences
from planner.documents.words.wording import end_name
from planner.parts import JobEnd
from planner.plan.routing_plan import PlanOption, RoutingPlan
from planner.rules import JointRule
from planner.verdicts import Check, Outcome


def advice_to_heed(plan: RoutingPlan) -> tuple[Check, ...]:
    """What must be settled or looked after before and while the work is done; nothing that is in order anyway.

    Where no work may begin, what is to be settled only.
    """
    heeded = (Outcome.TIGHT, Outcome.UNKNOWN) if plan.outcome.lets_work_begin else (Outcome.UNKNOWN,)
    return tuple(check for check in plan.advisories if check.outcome in heeded and not _is_proposal(check))


def other_ways(plan: RoutingPlan) -> tuple[PlanOption, ...]:
    """What would do as well: where work may begin, what works; where it is not proven, what is not either."""
    most = Outcome.TIGHT if plan.outcome.lets_work_begin else plan.outcome
    is_no = plan.outcome is Outcome.NO_FIT
    return () if is_no else tuple(option for option in plan.options[1:] if option.outcome <= most)


def advice_in_order(plan: RoutingPlan) -> tuple[Check, ...]:
    """What was asked and needs no hand."""
    return tuple(check for check in plan.advisories if check.outcome is Outcome.FITS)


def proposals(plan: RoutingPlan) -> tuple[Check, ...]:
    """Changed methods that would do as well; those of one size at one place in one."""
    merged: dict[tuple[object, ...], Check] = {}
    for check in filter(_is_proposal, plan.advisories):
        key = (check.rule, check.port_id, check.run_id, check.size_mm, check.available_mm)
        before = merged.get(key)
        merged[key] = check if before is None else replace(before, with_ids=(*before.with_ids, *check.with_ids))
    return tuple(merged.values())


def ways_out_told(plan: RoutingPlan) -> tuple[str, ...]:
    """All that would change a no, proposals too; empty for a plan."""
    proposed = () if plan.no_route is None else proposals(plan)
    return (*way_out_sentences(plan), *(f"{sentence_for(check, names=plan.names)}." for check in proposed))


def _is_proposal(check: Check) -> bool:
    return check.rule is JointRule.SPOKE_REACH


def ruled_out_in_short(plan: RoutingPlan) -> dict[str, tuple[str, ...]]:
    """The first reason against every way that was tried, each reason once, with the ways it rules out.

    A method that one reason rules out from both ends is named without its end.
    """
    first: dict[tuple[str, JobEnd], str] = {}
    for rejection in plan.rejected:
        key = (rejection.method_id, rejection.feed_from)
        if key not in first:
            first[key] = sentence_for(rejection.check, names=plan.names)
    reasons: dict[str, dict[str, list[JobEnd]]] = {}
    for (method_id, end), sentence in first.items():
        reasons.setdefault(sentence, {}).setdefault(method_id, []).append(end)
    return {
        sentence: tuple(_tried(plan, method_id, ends) for method_id, ends in tried.items())
        for sentence, tried in reasons.items()
    }


def _tried(plan: RoutingPlan, method_id: str, ends: list[JobEnd]) -> str:
    name = plan.names.thing(method_id)
    return name if len(ends) == len(JobEnd) else f"{name} fed from {end_name(plan, ends[0])}"
