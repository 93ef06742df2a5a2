"""What the legs of a route ask the mechanic to see to: free spans, changing slack, an old line that disagrees."""

from collections.abc import Iterator

from planner.parts import OUTSIDE, Job, ShopLimits
from planner.plan.leg_views import NOT_MEASURED, longest_free_span_mm
from planner.plan.lengths import Lengths
from planner.rules import LengthRule, Rule
from planner.verdicts import Check, Outcome, State


def leg_questions(*, job: Job, lengths: Lengths, limits: ShopLimits) -> Iterator[Check]:
    """Things to see to along the route, each with its number.

    lengths : of the new line on its route
    limits : the shop's limits for free spans, slack and measured lengths

    Yields what each leg's length asks; rules "free_span", "slack_variation" and "measured_length"; "pressure" for a
    line that is known to shorten.

    Common practice, no source.
    """
    for leg in lengths.legs:
        yield from leg.length_checks
        run = job.frame.runs[leg.run_id]
        span_mm = longest_free_span_mm(leg=leg, run=run)
        is_open = run.zone_id == OUTSIDE and run.guide is None and leg.high_mm is not None
        if is_open and span_mm is not None and span_mm > limits.free_span_mm:
            yield _told(LengthRule.FREE_SPAN, leg.run_id, span_mm, limits.free_span_mm)
        varies_mm = leg.slack_variation_mm or 0.0
        if leg.high_mm is not None and varies_mm > limits.slack_variation_mm:
            note = f"from {leg.slackest_posture} to {leg.worst_posture}"
            yield _told(LengthRule.SLACK_VARIATION, leg.run_id, varies_mm, limits.slack_variation_mm, note=note)
    untold = [leg for leg in lengths.legs if leg.basis.startswith(NOT_MEASURED)]
    if untold and not lengths.known:
        note = f"{len(untold)} of its legs" if len(untold) < len(lengths.legs) else "any of its legs"
        yield Check(rule=LengthRule.LENGTH_NOT_TOLD, outcome=Outcome.UNKNOWN, state=State.RIDING, note=note)
    yield from lengths.old_line_checks
    if lengths.pressure_mm is not None:
        yield _pressure(lengths, lengths.pressure_mm)
    if lengths.old_makes_mm is not None and lengths.measured_difference_ratio is not None:
        yield _measured(lengths, lengths.old_makes_mm, lengths.measured_difference_ratio, limits)


def _told(rule: Rule, run_id: str, size_mm: float, limit_mm: float, *, note: str = "") -> Check:
    return Check(
        rule=rule,
        outcome=Outcome.TIGHT,
        state=State.RIDING,
        run_id=run_id,
        size_mm=size_mm,
        available_mm=limit_mm,
        note=note,
    )


def _pressure(lengths: Lengths, pressure_mm: float) -> Check:
    """The slack is what the upper estimates have over the shortest curves in the worst posture.

    A leg told by its length says nothing of how much of it is slack.
    """
    if lengths.is_from_old_line or any(leg.told_by is not None for leg in lengths.legs):
        return Check(rule=LengthRule.PRESSURE, outcome=Outcome.UNKNOWN, state=State.RIDING, size_mm=pressure_mm)
    slack_mm = sum((leg.high_mm or 0.0) - (leg.least_mm or 0.0) for leg in lengths.legs)
    return Check(
        rule=LengthRule.PRESSURE,
        outcome=Outcome.FITS if slack_mm >= pressure_mm else Outcome.TIGHT,
        state=State.RIDING,
        size_mm=pressure_mm,
        available_mm=slack_mm,
    )


def _measured(lengths: Lengths, measured_mm: float, difference_ratio: float, limits: ShopLimits) -> Check:
    agrees = abs(difference_ratio) <= limits.measured_length_ratio
    return Check(
        rule=LengthRule.MEASURED_LENGTH,
        outcome=Outcome.FITS if agrees else Outcome.UNKNOWN,
        size_mm=lengths.cut_mm,
        available_mm=measured_mm,
        note=f"{100 * difference_ratio:+.0f} %",
    )
