"""What a verdict and a joint say: the sentences of the whole plan."""

from planner.documents.words.check_words import sentence_for
from planner.documents.words.no_way_wording import no_way_words
from planner.parts import JobEnd, PullWord
from planner.plan.cut_length import length_words
from planner.plan.deciding import decider_of
from planner.plan.names import Names
from planner.plan.routing_plan import Joint, Rejection, Remark, RoutingPlan
from planner.plan.stops import nearest_miss
from planner.rules import JointRule
from planner.verdicts import Check, Outcome

ADVICE_SENTENCES = {
    PullWord.PUSH_ONLY: "Push the new line in and only ease the old one out: this joint may not be pulled.",
    PullWord.EASE_GENTLY: "Push the new line in and ease the old one out with no more than {ease} (estimate).",
    PullWord.MAY_PULL: "May be pulled, with no more than {ease} (estimate); pushing is gentler.",
    None: "What the joint holds against the drag is not known: push the new line in and only ease the old one out.",
}

_DRAGS_MORE = "It may drag more than was reckoned, for not every turn of the way was told."

_REMARKS = {Remark.NONE: "", Remark.HOLDS_NOTHING: "holds nothing: push only", Remark.NO_JOINT: "no joint to part"}


def deciding_check(plan: RoutingPlan) -> Check | None:
    """The check that decides the verdict: the worst outcome, and of these the least worst-case clearance in a hole.

    None where nothing was checked.
    """
    return decider_of(plan.checks)


def verdict_sentence(plan: RoutingPlan) -> str:
    """The answer to the job in one sentence.

    Returns verdict first, then what decides it.
    """
    names = plan.names
    if plan.no_route is not None:
        nearest = nearest_miss(plan.no_route)
        told = dict.fromkeys(sentence_for(check, names=names) for check in plan.no_route.parts_against)
        parts = "; ".join(told)
        beside = f" Beside that: {parts}." if parts else ""
        return f"No plan: {no_way_words(plan.no_route, names)}.{_miss_words(nearest, names)}{beside}"
    decider = deciding_check(plan)
    leading = "Tightest on the way" if plan.outcome is Outcome.FITS else "Decided by"
    tells_more = bool(plan.route) or plan.outcome is not Outcome.FITS
    because = f" {leading}: {sentence_for(decider, names=names)}." if decider is not None and tells_more else ""
    fed = fed_words(plan, method_name=plan.method_name, feed_from=plan.feed_from, route=plan.route)
    way = f"{plan.new_line_name} by {fed}" if plan.route else f"{plan.new_line_name}, laid {way_words(plan)}"
    if plan.outcome is Outcome.NO_FIT:
        return f"No plan: {way} finds its way, but the parts do not serve. Decided by: {_all_against(plan)}."
    if plan.outcome is Outcome.UNKNOWN:
        return f"Not proven: {way} may fit, but something must be measured first.{because}"
    ease = "It fits" if plan.outcome is Outcome.FITS else "It fits, but it is tight"
    return f"{ease}: {way}.{because}"


def _all_against(plan: RoutingPlan) -> str:
    """Everything that speaks against parts and length, each once."""
    against = (check for check in plan.checks if check.outcome is Outcome.NO_FIT)
    return "; ".join(dict.fromkeys(sentence_for(check, names=plan.names) for check in against))


def _miss_words(miss: Rejection | None, names: Names) -> str:
    if miss is None:
        return ""
    return f" Nearest: {names.thing(miss.method_id)}, {sentence_for(miss.check, names=names)}."


def end_name(plan: RoutingPlan, end: JobEnd | None) -> str:
    """An end of the job by its anchor's label.

    Returns such as "Right lever"; "either end" for None.
    """
    if end is None:
        return "either end"
    return plan.names.place(plan.from_anchor_id if end is JobEnd.FROM else plan.to_anchor_id)


def fed_words(plan: RoutingPlan, *, method_name: str, feed_from: JobEnd | None, route: tuple[str, ...]) -> str:
    """A way of doing the job by its method, and by the end it is fed from where it is fed through anything.

    route : ids of the ports
    """
    return f"{method_name}, fed from {end_name(plan, feed_from)}" if route else method_name


def way_words(plan: RoutingPlan) -> str:
    """The way from end to end by the labels of its places."""
    if not plan.route:
        return "outside, through no hole"
    return plan.names.way((plan.from_anchor_id, *plan.route, plan.to_anchor_id))


def may_part_inside(plan: RoutingPlan) -> bool:
    """Whether there is a joint that can come apart on the way, so that the hands must know how hard to pull."""
    return plan.options[0].method.kind.can_part_inside if plan.options else bool(plan.route)


def asked_length_words(plan: RoutingPlan) -> str:
    """What length the hands give the new line; where no work may begin, only what it would take. "" for no plan."""
    lengths = plan.lengths
    if lengths is None or plan.outcome.lets_work_begin:
        return "" if lengths is None else length_words(lengths)
    return "not known" if lengths.cut_mm is None else f"it would take {lengths.cut_mm:.0f} mm"


def joint_at_least(plan: RoutingPlan) -> str:
    """ "at least " before the size of a joint that nobody could work out, for want of a measure; else ""."""
    asked = (JointRule.JOINT_BORE, JointRule.LEADING_JOINT)
    is_least = any(check.rule in asked and check.outcome is Outcome.UNKNOWN for check in plan.checks)
    return "at least " if is_least else ""


def joint_title(plan: RoutingPlan) -> str:
    """Over what the method of a plan stands: a joint, or how the line goes in where nothing is joined."""
    return "Joint" if may_part_inside(plan) or not plan.options else "How"


def pull_sentence(joint: Joint) -> str:
    """How hard the hands may pull at this joint.

    Returns marked as an estimate wherever a force is named.

    joint : the moving joint of a plan
    """
    ease = "0 N" if joint.ease_up_to_n is None else f"{joint.ease_up_to_n:.0f} N"
    said = ADVICE_SENTENCES[joint.advice].format(ease=ease)
    return f"{said} {_DRAGS_MORE}" if joint.is_drag_least and joint.ease_up_to_n is not None else said


def remark_words(remark: Remark) -> str:
    """What is said beside a way of doing the job, wherever ways are listed; "" for nothing."""
    return _REMARKS[remark]
