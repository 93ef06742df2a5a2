"""Every sentence the mechanic reads about a check, one for each rule and outcome."""

from planner.documents.words.compatibility_wording import PART_SENTENCES, part_sentence
from planner.documents.words.no_way_wording import no_way_words
from planner.documents.words.sizes_in_words import millimetres
from planner.plan.routing_plan import JobEnd, Joint, Rejection, RoutingPlan
from planner.verdicts import Check, NoWay, Outcome, State

FITS, TIGHT, UNKNOWN, NO_FIT = Outcome.FITS, Outcome.TIGHT, Outcome.UNKNOWN, Outcome.NO_FIT

OUTCOME_WORDS = {FITS: "fits", TIGHT: "tight", UNKNOWN: "not proven", NO_FIT: "does not fit"}

_PASSES = "{size} passes {place}{beside}: {clearance} to spare, {worst} in the worst case"
_PASSES_TIGHT = "{size} passes {place}{beside} at nominal size, {clearance} to spare, but in the worst case {worst}"
_NOT_MEASURED = "{place} was not measured, or nothing is proven there"
_STOPPED = "{size} does not pass {place}{beside}: {available} at best, {missing} missing"
_LENGTH_PASSES = "a stiff piece {size} long passes {place}: up to {available}"
_LENGTH_TIGHT = "a stiff piece {size} long passes {place} at nominal size: up to {available}; in the worst case {worst}"
_LENGTH_STOPPED = "a stiff piece {size} long does not pass {place}: {available} at best"
_GOES_STRAIGHT = "a stiff piece {size} long goes straight through {place}, which looks along its tube"

IN_LINE = "in line with the tube"
"""The note of a wall check at a hole that looks along its tube."""

SENTENCES: dict[str, dict[Outcome, str]] = {
    "port_clearance": {FITS: _PASSES, TIGHT: _PASSES_TIGHT, UNKNOWN: _NOT_MEASURED, NO_FIT: _STOPPED},
    "leading_fitting": {
        FITS: "the fitting on the leading end, " + _PASSES,
        TIGHT: "the fitting on the leading end, " + _PASSES_TIGHT,
        UNKNOWN: _NOT_MEASURED,
        NO_FIT: "the fitting on the leading end, " + _STOPPED,
    },
    "guide_bore": {FITS: _PASSES, TIGHT: _PASSES_TIGHT, UNKNOWN: _NOT_MEASURED, NO_FIT: _STOPPED},
    "zone_bore": {FITS: _PASSES, TIGHT: _PASSES_TIGHT, UNKNOWN: _NOT_MEASURED, NO_FIT: _STOPPED},
    "guide_bend": {
        FITS: _LENGTH_PASSES,
        TIGHT: _LENGTH_TIGHT,
        UNKNOWN: "the bend of {place} was not measured: {note}",
        NO_FIT: _LENGTH_STOPPED,
    },
    "wall_entry": {
        FITS: _LENGTH_PASSES,
        TIGHT: _LENGTH_TIGHT,
        UNKNOWN: "whether a stiff piece {size} long dips in through {place} is not proven: {note}",
        NO_FIT: _LENGTH_STOPPED,
    },
    "wall_exit": {
        FITS: _LENGTH_PASSES,
        TIGHT: _LENGTH_TIGHT,
        UNKNOWN: "whether a stiff piece {size} long comes out through {place} is not proven: {note}",
        NO_FIT: _LENGTH_STOPPED,
    },
    "line_kind": {FITS: "{place} takes this kind of line", NO_FIT: "{place} takes only: {note}"},
    "stud_squeeze": {
        FITS: "the stud is {size} thicker than the bore of {available}: it grips",
        NO_FIT: "the stud is {size} thicker than the bore of {available}: outside the squeeze it needs",
    },
    "sleeve_grip": {
        FITS: "a sleeve of {size} bore is stretched over a line of {available}",
        NO_FIT: "a sleeve of {size} bore grips nothing on a line of {available}",
    },
    "sleeve_stretch": {
        NO_FIT: "a sleeve of {size} bore cannot be stretched over a line of {available}",
    },
    "spoke_bore": {
        FITS: "a spoke of {size} lies in a bore of {available}",
        NO_FIT: "a spoke of {size} does not go into a bore of {available}",
    },
    "joint_bore": {
        UNKNOWN: "the bore of a line was not measured",
        NO_FIT: "a line without a bore cannot take this joint",
    },
    "joint_needs_line": {NO_FIT: "there is no old line in the frame to join to"},
    "leader_use": {
        FITS: "a leader draws the new line through",
        NO_FIT: "a leader is for an empty frame or in place of a bare cable; here the old line does the drawing",
    },
    "leading_end": {
        FITS: "the end that leads through the frame can have its fitting set afterwards",
        NO_FIT: "the end that would lead through the frame needs a factory-crimped fitting, which no workshop can set",
    },
    "cut_end": {
        FITS: "the old line may be cut at this end",
        NO_FIT: "the old brake is to be kept and its fitting at this end is factory-crimped: it may not be cut there",
    },
    "old_route": {
        FITS: "the new line follows the old one through {note}",
        NO_FIT: "the ports the old line is said to run through ({note}) make no way between the two ends",
    },
    "supplied_length": {
        FITS: "the supplied line reaches: {size} needed, {available} supplied, {clearance} to spare",
        NO_FIT: "the supplied line is {missing} too short: {size} needed, {available} supplied",
    },
    "leading_joint": {
        UNKNOWN: "the leading end carries a fitting ({note}): whether the joint goes onto it is not in the catalog,"
        " try it on the bench"
    },
    "motion": {
        TIGHT: "the rear's links lock at {note}, before the swing stated; nothing beyond was looked at ({place})",
        UNKNOWN: "{note} is not described, so {place} is measured at rest only",
    },
    "relaxed_shape": {
        UNKNOWN: "how a real hose lies in {place} was not found: its length there is only the least that reaches"
    },
    "free_span": {
        TIGHT: "{place} hangs free over {size}; the shop's limit is {available}: clip it to the frame",
    },
    "slack_variation": {
        TIGHT: "the slack of {place} changes by {size} ({note}); from {available} on see that it cannot snag or rub",
    },
    "measured_length": {
        FITS: "the old line as measured, {available}, agrees with the planned {size}",
        UNKNOWN: "the old line was measured at {available}, the plan says {size} ({note}): measure again, or see which"
        " way it really took",
    },
    "pressure": {
        FITS: "under pressure a hose may shorten by {size}; the slack in the open legs covers it",
        TIGHT: "under pressure a hose may shorten by {size}, more than the {available} of slack: leave the open legs"
        " loose",
    },
    "hand_force": {
        FITS: "the bends of the housing take {note} of the hand's force (estimate)",
        TIGHT: "the bends of the housing take {note} of the hand's force (estimate): lead it with fewer or wider bends",
        UNKNOWN: "the friction of this housing is not in the catalog, so the loss of hand force is not told",
    },
    "spoke_reach": {
        TIGHT: "with a reach of {size} in each bore in place of {available} this spoke link would pass ({with});"
        " {place} decides"
    },
    "bend_radius": {
        FITS: "{place} bends the line to {available}, where it allows {size}",
        TIGHT: "{place} bends the line to {available} where it allows {size}: only along the outer wall is there room",
        UNKNOWN: "the bend of {place} was not measured; the line allows {size}",
        NO_FIT: "{place} bends the line to {available} where it needs {size}",
    },
}

ADVICE_SENTENCES = {
    "push_only": "Push the new line in and only ease the old one out: this joint may not be pulled.",
    "ease_gently": "Push the new line in and ease the old one out with no more than {ease} (estimate).",
    "may_pull": "The joint may be pulled, but with no more than {ease} (estimate); pushing is still gentler.",
    None: "What the joint holds against the drag is not known: push the new line in and only ease the old one out.",
}

REMARKS = {"": "", "holds_nothing": "holds nothing: push only"}


def sentence_for(check: Check | Rejection, *, labels: dict[str, str] | None = None) -> str:
    """What a check or a rejection says, in one sentence without its full stop.

    Returns with units beside every number.

    check : what was asked and answered
    labels : names of ports and runs for people; ids stand where a name is missing
    """
    if check.rule in PART_SENTENCES and isinstance(check, Check):
        return part_sentence(check, labels=labels)
    names = labels or {}
    place_id = check.port_id if check.port_id is not None else check.run_id
    worst_mm = check.worst_clearance_mm if isinstance(check, Check) else None
    beside = ", ".join(check.with_ids) if isinstance(check, Check) else ""
    template = SENTENCES[check.rule][check.outcome]
    if check.note == IN_LINE:
        template = _GOES_STRAIGHT
    return template.format(
        place="this place" if place_id is None else names.get(place_id, place_id),
        size=millimetres(check.size_mm),
        available=millimetres(check.available_mm),
        clearance=millimetres(check.clearance_mm),
        missing=millimetres(None if check.clearance_mm is None else -check.clearance_mm),
        worst=millimetres(worst_mm),
        beside=f" beside {beside}" if beside else "",
        note=check.note or "it touches, or nearly",
        **{"with": beside},
    )


def deciding_check(plan: RoutingPlan) -> Check | None:
    """The check that decides the verdict: the worst outcome, and of these the least worst-case clearance in a hole.

    None where nothing was checked.
    """
    worst = [check for check in plan.checks if check.outcome is max(c.outcome for c in plan.checks)]
    holes = [check for check in worst if check.rule in ("port_clearance", "leading_fitting", "guide_bore")]
    while_drawing = [check for check in holes if check.state is State.DRAWING]

    def room(check: Check) -> float:
        return float("-inf") if check.worst_clearance_mm is None else check.worst_clearance_mm

    for group in (while_drawing, holes, worst):
        if group:
            return min(group, key=room)
    return None


def verdict_sentence(plan: RoutingPlan, *, labels: dict[str, str] | None = None) -> str:
    """The answer to the job in one sentence.

    Returns verdict first, then what decides it.

    labels : names of ports and runs for people
    """
    names = labels or {}
    if plan.no_route is not None:
        is_about_old = plan.no_route.reason is NoWay.OLD_ROUTE
        nearest = None if is_about_old else min(plan.no_route.closest_misses, key=_missing_mm, default=None)
        miss = "" if nearest is None else f" Nearest: {nearest.method_id}, {sentence_for(nearest, labels=names)}."
        return f"No plan: {no_way_words(plan.no_route, names)}.{miss}"
    decider = deciding_check(plan)
    leading = "Tightest on the way" if plan.outcome is Outcome.FITS else "Decided by"
    because = "" if decider is None else f" {leading}: {sentence_for(decider, labels=names)}."
    way = f"{plan.new_line_name} by {plan.method_name}, fed from {end_name(plan, plan.feed_from)}"
    if plan.outcome is Outcome.NO_FIT:
        return f"No plan: {way} finds its way, but the parts do not serve.{because}"
    if plan.outcome is Outcome.UNKNOWN:
        return f"Not proven: {way} may fit, but something must be measured first.{because}"
    ease = "It fits" if plan.outcome is Outcome.FITS else "It fits, but it is tight"
    return f"{ease}: {way}.{because}"


def _missing_mm(miss: Rejection) -> float:
    about_a_place = miss.port_id is not None or miss.run_id is not None
    return float("inf") if miss.clearance_mm is None or not about_a_place else -miss.clearance_mm


def end_name(plan: RoutingPlan, end: JobEnd | None) -> str:
    """An end of the job by its anchor's name.

    Returns such as "bar-right"; "either end" for None.
    """
    if end is None:
        return "either end"
    return plan.from_anchor_id if end is JobEnd.FROM else plan.to_anchor_id


def pull_sentence(joint: Joint) -> str:
    """How hard the hands may pull at this joint.

    Returns marked as an estimate wherever a force is named.

    joint : the moving joint of a plan
    """
    ease = "0 N" if joint.ease_up_to_n is None else f"{joint.ease_up_to_n:.0f} N"
    return ADVICE_SENTENCES[joint.advice].format(ease=ease)
