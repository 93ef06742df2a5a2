"""What a visit's plan says: the verdict, the order and its reasons, what forbids one, what would make one."""

from collections.abc import Sequence

from planner.documents.words.need_words import need_words
from planner.documents.words.sizes_in_words import millimetres
from planner.documents.words.way_out_words import NEVER_DRILL
from planner.documents.words.wording import end_name
from planner.plan.job_time import whole_minutes
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Outcome
from planner.whole_bike.changes import StepKind
from planner.whole_bike.drawn_together import NeverTogether
from planner.whole_bike.reasons import Conflict, Forced, Obstacle
from planner.whole_bike.visit_plan import OrderStep, Totals, VisitPlan
from planner.whole_bike.visit_ways_out import VisitWayOut, VisitWayOutKind

_DONE = {
    StepKind.SWAP: "new line in for the old one",
    StepKind.IN: "new line in",
    StepKind.OUT: "old line out",
}
_IN_SHORT = {StepKind.SWAP: "{line} changed", StepKind.IN: "{line} in", StepKind.OUT: "{line} out"}
_CHANGED = {StepKind.SWAP: "{line}", StepKind.IN: "{line} in", StepKind.OUT: "{line} out"}

_VERDICTS = {
    Outcome.FITS: "It fits: all lines go in, in this order",
    Outcome.TIGHT: "It fits, but it is tight: all lines go in, in this order",
    Outcome.UNKNOWN: "Not proven: in this order all lines may go in, but something must be measured first",
    Outcome.NO_FIT: "No plan: there is an order, but a line's own plan says no",
}

_NEVER = {
    NeverTogether.NO_METHOD: "no method of the catalog says how so many lines are tied on behind one joint (ties)",
    NeverTogether.NO_SHARED_WAY: "there is no way through the same holes for all of them",
}

_WAYS_OUT = {
    VisitWayOutKind.OTHER_ORDER: "Without the order that was wished for (first, before) there is one.",
    VisitWayOutKind.ONE_BY_ONE: "With {lines} drawn in one by one instead of together there is an order.",
    VisitWayOutKind.TAKE_OUT_FIRST: "With {split} taken out before the new line goes in there is an order: let the job"
    " allow it (in its file: take_out_first).",
    VisitWayOutKind.INSERTS_OUT: "With the inserts taken out for drawing there is an order: let the job allow it.",
    VisitWayOutKind.OUTSIDE: "With {line} led outside the frame there is an order.",
    VisitWayOutKind.LARGER_PLACE: "{place} would have to be {size} larger.",
    VisitWayOutKind.THINNER_LINE: "With a line {size} thinner for {line} there is an order.",
}


def visit_verdict(plan: VisitPlan) -> str:
    """The answer to a visit in one sentence."""
    if plan.order:
        return f"{_VERDICTS[plan.outcome]}."
    if plan.outcome is Outcome.UNKNOWN:
        return "Not decided: the allowance for the search ran out before an order was found or ruled out."
    if any(way.kind is VisitWayOutKind.OTHER_ORDER for way in plan.ways_out):
        return "No plan: no order that keeps to what was wished for brings all lines in."
    if plan.conflict is None:
        return "No plan: no order brings all lines in."
    return f"No plan: {conflict_words(plan.conflict, plan)}."


def order_told(plan: VisitPlan) -> tuple[str, ...]:
    """What is done to which line, step by step, and how it is led in."""
    plans = {line.line_id: line.plan for line in plan.lines}
    return tuple(_step_words(step, plans.get(step.line_id)) for step in plan.order)


def _step_words(step: OrderStep, plan: RoutingPlan | None) -> str:
    if step.together and plan is not None:
        first, *behind = step.together
        old = ", the old line leading" if step.kind is StepKind.SWAP else ""
        led = f"{plan.method_name}, fed from {end_name(plan, plan.feed_from)}"
        return f"{_listed(step.together)}: in with one draw{old}: {first} by {led}, {_listed(behind)} tied on behind"
    said = f"{step.line_id}: {_DONE[step.kind]}"
    if plan is None or step.kind is StepKind.OUT or not plan.runs:
        return said
    if not plan.route:
        return f"{said}, laid along the outside"
    return f"{said}, by {plan.method_name}, fed from {end_name(plan, plan.feed_from)}"


def steps_in_short(plan: VisitPlan) -> tuple[str, ...]:
    """What is done to which line, step by step, in a few words."""
    return tuple(
        f"{_listed(step.together)} in" if step.together else _IN_SHORT[step.kind].format(line=step.line_id)
        for step in plan.order
    )


def left_undone(plan: VisitPlan) -> tuple[str, ...]:
    """What is not as it should be when the visit is over."""
    return tuple(
        f"{line.line_id} is only taken out: this brake does not work, and nobody rides, until a line is in again."
        for line in plan.lines
        if line.leaves_no_brake
    )


def conflict_words(conflict: Conflict, plan: VisitPlan) -> str:
    """The lines that no order brings in together, where, and by how much; without a full stop."""
    lines = _listed(conflict.line_ids)
    if conflict.never is not None:
        return f"{lines} cannot be drawn in together: {_NEVER[conflict.never]}"
    if conflict.is_one_draw and not conflict.at_the_end:
        missing = f"{_place_words(conflict.obstacle, plan)}{_missing_words(conflict.obstacle)}"
        return f"{lines} cannot be drawn in together even with all other lines away{missing}"
    if len(conflict.line_ids) == 1:
        how = "drawn in by its old line" if plan.order else "led in"
        return f"{lines} cannot be {how} even with all other lines away"
    at = _place_words(conflict.obstacle, plan)
    if conflict.at_the_end:
        said = f"{lines} do not ride together{at}"
    else:
        said = f"{lines} would ride together, but cannot be drawn in past each other{at}, whichever goes first"
    return f"{said}{_missing_words(conflict.obstacle)}"


def forced_sentences(plan: VisitPlan) -> tuple[str, ...]:
    """Why the order is as it is: each pair that must stand so, without those that follow from others."""
    told = [_forced_sentence(forced, plan) for forced in plan.forced if not forced.follows]
    if plan.conflict is not None and plan.order:
        out = _listed(
            [step.line_id for step in plan.order if step.kind is StepKind.OUT and _comes_back(plan, step.line_id)]
        )
        told.insert(0, f"Old line of {out} out first: {conflict_words(plan.conflict, plan)}.")
    return tuple(told)


def _comes_back(plan: VisitPlan, line_id: str) -> bool:
    return any(step.line_id == line_id and step.kind is StepKind.IN for step in plan.order)


def _forced_sentence(forced: Forced, plan: VisitPlan) -> str:
    with_it = {line_id: _listed(step.line_ids) for step in plan.order for line_id in step.line_ids}
    before, after = (
        _CHANGED[kind].format(line=with_it.get(line_id, line_id)) for line_id, kind in (forced.before, forced.after)
    )
    beside = f", with {_listed(forced.with_ids)} in place" if forced.with_ids else ""
    at = _place_words(forced.obstacle, plan)
    if forced.obstacle.missing_mm is None:
        return f"{before} before {after}: the other way round there is no way{at}{beside}."
    lacks = millimetres(forced.obstacle.missing_mm)
    return f"{before} before {after}: afterwards each diameter lacks {lacks}{at}{beside}."


def visit_ways_out_told(plan: VisitPlan) -> tuple[str, ...]:
    """What would make an order, nearest at hand first; with the word that nobody drills where a place is the matter."""
    told = tuple(_way_out_sentence(way, plan) for way in plan.ways_out)
    if not plan.has_all_reasons:
        told = (*told, "The allowance for the search ran out before everything was tried.")
    is_about_place = any(way.kind is VisitWayOutKind.LARGER_PLACE for way in plan.ways_out)
    return (*told, NEVER_DRILL) if is_about_place else told


def _way_out_sentence(way: VisitWayOut, plan: VisitPlan) -> str:
    said = _WAYS_OUT[way.kind].format(
        line=way.line_id,
        lines=_listed(way.line_ids),
        place=_listed([place_name(place_id, plan) for place_id in way.place_ids]),
        size=millimetres(way.by_mm),
        split=_listed(way.split),
    )
    if way.split and way.kind is not VisitWayOutKind.TAKE_OUT_FIRST:
        return f"{said.removesuffix('.')}, with the old line of {_listed(way.split)} out first."
    return said


def unproven_sentence(plan: VisitPlan) -> str | None:
    """What is said where not everything was looked at; None where it was."""
    if plan.is_proven:
        return None
    least = "" if plan.least_min is None else f" no order takes under {plan.least_min:.0f} min;"
    return f"Not every order was looked at:{least} a better one than this may be there."


def time_words(totals: Totals) -> str:
    """The minutes of the whole visit."""
    time = totals.time
    return f"about {whole_minutes(time.mean_min)} min, {time.low_min:.0f} to {time.high_min:.0f} in eight of ten"


def price_words(totals: Totals) -> str:
    """What the whole visit is charged, tax included, with what is missing from it."""
    missing = f"; not priced: {', '.join(dict.fromkeys(totals.unpriced))}" if totals.unpriced else ""
    return f"{totals.total} {totals.currency} with tax{missing}"


def needs_of_visit(plan: VisitPlan) -> tuple[str, ...]:
    """What must lie on the bench beside parts, for all lines together, each once."""
    plans = [line.plan for line in plan.lines if line.plan is not None]
    needs = [need_words(need, names=plan.names) for each in plans for need in each.needs]
    tools = [tool for each in plans for tool in each.at_hand]
    return tuple(dict.fromkeys((*needs, *tools)))


def place_name(place_id: str, plan: VisitPlan) -> str:
    """What a port or run of the visit is called."""
    return plan.names.place(place_id) if place_id in plan.names.places else plan.names.run(place_id)


def _place_words(obstacle: Obstacle, plan: VisitPlan) -> str:
    places = [place_name(place_id, plan) for place_id in obstacle.places]
    return f" at {_listed(places)}" if places else ""


def _missing_words(obstacle: Obstacle) -> str:
    return "" if obstacle.missing_mm is None else f"; each diameter lacks {millimetres(obstacle.missing_mm)}"


def _listed(words: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(words[:-1]), *words[-1:])))
