"""What a job costs: parts, labour and tax, and what the other ways would cost instead."""

from collections import Counter
from decimal import Decimal

from planner.fit.compatibility import CompatibilityResult
from planner.parts import Job, JobEnd, Method, Workshop
from planner.plan.advisories import known_checks
from planner.plan.job_time import JobTime, whole_minutes
from planner.plan.quote_lines import Bill, QuoteLine, WayToCharge, make_bill
from planner.plan.routing_plan import PlanOption, Remark, RoutingPlan
from planner.plan.work_order import count_parts
from planner.quick_dataclass import dataclass
from planner.verdicts import Outcome

ROUNDING_RULE = "each_line_half_up"
"""Every line is rounded to the shop's coin, halves up; tax is taken of their sum and rounded the same way."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Alternative:
    """Another way of doing the same job, beside the one quoted.

    method_id, method_name, feed_from : how
    outcome : of the plan that had only this way
    more_min : whole minutes charged more than for the way quoted; negative for fewer [min]
    more_money : what its own quote comes to more, with tax; negative for less; None where something of which the two
        take different amounts is not priced
    holds_n : pull its joint holds; None when not known [N]
    """

    method_id: str
    method_name: str
    feed_from: JobEnd
    outcome: Outcome
    more_min: float
    more_money: Decimal | None
    holds_n: float | None
    remark: Remark


@dataclass(frozen=True, slots=True, kw_only=True)
class Quote:
    """What a job costs.

    job_id, job_title : which
    lines : parts, then labour
    subtotal : sum of the priced lines
    tax_ratio, tax : on the subtotal
    total : subtotal and tax
    currency : of every amount
    money_step, rounding_rule : how it is rounded
    unpriced : names of what stands in the quote without a price and so is missing from the total
    time : what the labour rests on
    valid_days : how long it stands from the day it is handed over
    assumptions : keys of what must hold for it to hold
    alternatives : the other ways, in the plan's order
    """

    job_id: str
    job_title: str
    lines: tuple[QuoteLine, ...]
    subtotal: Decimal
    tax_ratio: Decimal
    tax: Decimal
    total: Decimal
    currency: str
    money_step: Decimal
    rounding_rule: str
    unpriced: tuple[str, ...]
    time: JobTime
    valid_days: int
    assumptions: tuple[str, ...]
    alternatives: tuple[Alternative, ...]


def make_quote(
    *,
    job: Job,
    plan: RoutingPlan,
    workshop: Workshop,
    compatibility: CompatibilityResult | None = None,
    charges_new_line: bool = True,
    tells_other_ways: bool = True,
) -> Quote | None:
    """The quote for a plan.

    Labour is the mean of the job's time in whole minutes at the shop's hourly rate. A bare line is charged by the metre
    it is cut to, with the fittings that must be set on it; a brake is charged as supplied, fittings and line with it.

    None where there is no plan to quote.

    workshop : prices, rate, tax and coin
    compatibility : brings the adapter; None where the parts were not checked
    charges_new_line : false where the owner brings the new brake or line
    tells_other_ways : whether what each other way of doing the job comes to is told too, which takes most of the time

    Raises ImpossibleDimensionError when a price is no amount of money.
    """
    if plan.outcome is Outcome.NO_FIT or not plan.options:
        return None
    method, limits = plan.options[0].method, workshop.limits
    way = WayToCharge(
        method=method,
        step_ids=plan.options[0].step_ids,
        cut_mm=None if plan.lengths is None else plan.lengths.cut_mm,
        parts=plan.parts,
    )

    def bill_of(way: WayToCharge) -> Bill:
        return make_bill(
            job=job, way=way, workshop=workshop, compatibility=compatibility, charges_new_line=charges_new_line
        )

    bill = bill_of(way)
    others = tuple(
        _alternative(option, option.method, bill, bill_of(other), _whole_outcome(option, plan, compatibility))
        for option, other in (_other_ways(plan, way, workshop) if tells_other_ways else ())
    )
    return Quote(
        job_id=job.id,
        job_title=job.title,
        lines=bill.lines,
        subtotal=bill.subtotal,
        tax_ratio=limits.tax_ratio,
        tax=bill.tax,
        total=bill.total,
        currency=limits.currency,
        money_step=limits.money_step,
        rounding_rule=ROUNDING_RULE,
        unpriced=tuple(line.name for line in bill.unpriced),
        time=bill.time,
        valid_days=limits.quote_valid_days,
        assumptions=_assumptions(job, plan, method, compatibility, charges_new_line=charges_new_line),
        alternatives=others,
    )


def _assumptions(
    job: Job,
    plan: RoutingPlan,
    method: Method,
    compatibility: CompatibilityResult | None,
    *,
    charges_new_line: bool,
) -> tuple[str, ...]:
    """Keys of what the quote takes for granted, in the order a reader asks."""
    is_short = plan.lengths is not None and plan.lengths.spare_mm is not None and plan.lengths.spare_mm < 0
    held = {
        "fit_is_tight": plan.outcome is Outcome.TIGHT,
        "fit_is_not_proven": plan.outcome is Outcome.UNKNOWN,
        "parts_not_checked": compatibility is None,
        "parts_do_not_belong": compatibility is not None and compatibility.outcome is Outcome.NO_FIT,
        "parts_not_all_known": compatibility is not None and compatibility.outcome is Outcome.UNKNOWN,
        "needs_not_priced": compatibility is not None and bool(compatibility.needs),
        "owner_brings_line": not charges_new_line,
        "supplied_line_too_short": is_short,
        "length_not_known": plan.lengths is not None and not plan.lengths.known,
        "failures_not_counted": method.fail_chance is None,
        "measure_first": bool(plan.measure_first),
        "old_way_not_known": job.old is not None and not job.old.through,
        "nothing_hidden_is_broken": True,
    }
    return tuple(key for key, holds in held.items() if holds)


def _other_ways(plan: RoutingPlan, quoted: WayToCharge, workshop: Workshop) -> list[tuple[PlanOption, WayToCharge]]:
    """Every way beside the one quoted, with what it takes: its own small parts in place of the quoted way's."""
    first, *others = plan.options
    shared = Counter({need.id: need.quantity for need in quoted.parts}) - Counter(first.part_ids)
    return [
        (
            option,
            WayToCharge(
                method=option.method,
                step_ids=option.step_ids,
                cut_mm=option.cut_mm,
                parts=count_parts(part_ids=(Counter(option.part_ids) + shared).elements(), workshop=workshop),
            ),
        )
        for option in others
    ]


def _alternative(option: PlanOption, method: Method, quoted: Bill, other: Bill, outcome: Outcome) -> Alternative:
    """What is not priced in both alike falls out; what only one of them takes, or more of, cannot be compared."""
    missing, quoted_missing = (
        Counter((line.kind, line.id, line.quantity) for line in bill.unpriced) for bill in (other, quoted)
    )
    return Alternative(
        method_id=option.method_id,
        method_name=method.name,
        feed_from=option.feed_from,
        outcome=outcome,
        more_min=float(whole_minutes(other.time.mean_min) - whole_minutes(quoted.time.mean_min)),
        more_money=other.total - quoted.total if missing == quoted_missing else None,
        holds_n=option.joint.holds_n,
        remark=option.remark,
    )


def _whole_outcome(option: PlanOption, plan: RoutingPlan, compatibility: CompatibilityResult | None) -> Outcome:
    """As bad as its way, the line supplied and the parts: what the plan with only this way would say."""
    supplied_mm = None if plan.lengths is None else plan.lengths.supplied_mm
    is_short = supplied_mm is not None and option.cut_mm is not None and option.cut_mm > supplied_mm
    parts = () if compatibility is None else tuple(check.outcome for check in known_checks(compatibility))
    return max(option.outcome, Outcome.NO_FIT if is_short else Outcome.FITS, *parts)
