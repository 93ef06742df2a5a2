"""A plan in short: the few facts that terminal and page tell first, each with its name."""

from planner import (
    RoutingPlan,
    end_name,
    joint_at_least,
    joint_title,
    length_words,
    may_part_inside,
    millimetres,
    pull_sentence,
    tape_millimetres,
    way_words,
    words_beside_cut,
)
from planner.verdicts import Outcome

_NEARLY_ALWAYS = 0.999


def plan_in_short(plan: RoutingPlan) -> list[tuple[str, str]]:
    """Name and words of each fact of a plan that has a route; what is not known is left out."""
    rows = [("Way", way_words(plan))]
    if plan.route:
        rows += [
            (joint_title(plan), f"{plan.method_name}{_joint_size(plan)}"),
            ("Feed from", end_name(plan, plan.feed_from)),
        ]
    if plan.outcome.lets_work_begin:
        rows += _hand_rows(plan)
    return rows


def _hand_rows(plan: RoutingPlan) -> list[tuple[str, str]]:
    """What to cut and how to pull."""
    rows = [("Cut the old line", f"near {end_name(plan, plan.cut_old_at)}" if plan.cut_old_at else "nothing to cut")]
    if plan.lengths is not None:
        rows.append(("The new line", _length_words(plan)))
        rows += words_beside_cut(plan.lengths)
    if plan.joint is not None and may_part_inside(plan):
        rows.append(("Pulling", pull_sentence(plan.joint)))
    return rows


def chance_row(plan: RoutingPlan) -> list[tuple[str, str]]:
    """Name and words of the chance that all passes; none where it is not known."""
    if plan.fit_chance is None or plan.outcome is Outcome.NO_FIT:
        return []
    told = f"{chance_words(plan.fit_chance)}, sizes varying within their tolerances"
    return [("Chance that all passes", told)]


def _joint_size(plan: RoutingPlan) -> str:
    if plan.joint is None or not may_part_inside(plan):
        return ""
    thing = plan.joint.thing
    stiff = f"{thing.rigid_length_mm:.0f} mm of it stiff" if thing.rigid_length_mm else "soft"
    return f", {joint_at_least(plan)}{millimetres(thing.diameter_mm)} across, {stiff}"


def chance_words(chance: float) -> str:
    """A chance in percent; a certainty is never made out of rounding."""
    if chance > _NEARLY_ALWAYS:
        return "more than 99.9 %"
    return "less than 0.1 %" if chance < 1 - _NEARLY_ALWAYS else f"{100 * chance:.1f} %"


def _length_words(plan: RoutingPlan) -> str:
    lengths = plan.lengths
    assert lengths is not None
    told = length_words(lengths)
    if lengths.supplied_mm is not None and not lengths.known:
        return f"{told}; {lengths.supplied_mm:.0f} mm supplied"
    if lengths.supplied_mm is None or lengths.spare_mm is None:
        return f"{told}; the supplied length was not told"
    spare = f"{tape_millimetres(abs(lengths.spare_mm))} {'too short' if lengths.spare_mm < 0 else 'to spare'}"
    return f"{told}; {lengths.supplied_mm:.0f} mm supplied, {spare}"
