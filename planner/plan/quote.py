"""What a job costs: parts, labour and tax, and what the other ways would cost instead."""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from planner.fit.compatibility import CompatibilityResult
from planner.parts import Fitting, Job, LineEnd, Method, ShopLimits, Workshop
from planner.plan.job_time import JobTime, find_job_time
from planner.plan.line_ends import must_be_set
from planner.plan.money import read_money, round_money
from planner.plan.routing_plan import PartNeeded, PlanOption, RoutingPlan
from planner.verdicts import Outcome

ROUNDING_RULE = "each_line_half_up"
"""Every line is rounded to the shop's coin, halves up; tax is taken of their sum and rounded the same way."""

MINUTES_PER_HOUR = Decimal(60)
MILLIMETRES_PER_METRE = Decimal(1000)


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteLine:
    """One line of a quote.

    kind : "brake", "line", "fitting", "part", "adapter" or "labour"
    id, name : as in the catalog
    quantity : pieces, metres or hours
    unit : "piece", "m" or "h"
    unit_price : None where nothing is priced
    total : rounded to the shop's coin; None where nothing is priced
    """

    kind: str
    id: str
    name: str
    quantity: Decimal
    unit: str
    unit_price: Decimal | None
    total: Decimal | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Alternative:
    """Another way of doing the same job, beside the one quoted.

    method_id, method_name, feed_from : how
    outcome : the worst of its checks
    more_min : likely minutes more than the way quoted; negative for fewer [min]
    more_money : labour and small parts more, with tax; negative for less; None where a part of either is not priced
    holds_n : pull its joint holds; None when not known [N]
    remark : key, such as "holds_nothing"; "" for none
    """

    method_id: str
    method_name: str
    feed_from: str
    outcome: Outcome
    more_min: float
    more_money: Decimal | None
    holds_n: float | None
    remark: str


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
) -> Quote | None:
    """The quote for a plan.

    Labour is the mean of the job's time in whole minutes at the shop's hourly rate. A bare line is charged by the metre
    it is cut to, with the fittings that must be set on it; a brake is charged as supplied, fittings and line with it.

    None where there is no plan to quote.

    workshop : prices, rate, tax and coin
    compatibility : brings the adapter; None where the parts were not checked
    charges_new_line : false where the owner brings the new brake or line

    Raises ImpossibleDimensionError when a price is no amount of money.
    """
    methods = {method.id: method for method in workshop.methods}
    if plan.outcome is Outcome.NO_FIT or plan.method_id not in methods:
        return None
    method, limits = methods[plan.method_id], workshop.limits
    time = find_job_time(plan=plan, method=method, workshop=workshop)
    lines = (
        *(_new_things(job, plan, limits) if charges_new_line else ()),
        *(
            _part(need.id, need.name, quantity, workshop)
            for need, quantity in _parts_beside_adapter(plan, compatibility)
        ),
        *_adapter(compatibility, workshop),
        _labour(time, limits),
    )
    subtotal = sum((line.total for line in lines if line.total is not None), Decimal(0))
    tax = round_money(subtotal * limits.tax_ratio, step=limits.money_step)
    return Quote(
        job_id=job.id,
        job_title=job.title,
        lines=lines,
        subtotal=subtotal,
        tax_ratio=limits.tax_ratio,
        tax=tax,
        total=subtotal + tax,
        currency=limits.currency,
        money_step=limits.money_step,
        rounding_rule=ROUNDING_RULE,
        unpriced=tuple(line.name for line in lines if line.total is None),
        time=time,
        valid_days=limits.quote_valid_days,
        assumptions=_assumptions(job, plan, method, compatibility, charges_new_line=charges_new_line),
        alternatives=_alternatives(plan, methods, workshop),
    )


def _line(
    kind: str, id: str, name: str, quantity: Decimal, unit: str, price: Decimal | None, limits: ShopLimits
) -> QuoteLine:
    total = None if price is None else round_money(price * quantity, step=limits.money_step)
    return QuoteLine(kind=kind, id=id, name=name, quantity=quantity, unit=unit, unit_price=price, total=total)


def _new_things(job: Job, plan: RoutingPlan, limits: ShopLimits) -> Iterable[QuoteLine]:
    brake, line = job.new.brake, job.new.line
    if brake is not None:
        yield _line("brake", brake.id, brake.name, Decimal(1), "piece", read_money(brake.price), limits)
        return
    if plan.lengths is not None:
        metres = Decimal(str(round(plan.lengths.cut_mm, 1))) / MILLIMETRES_PER_METRE
        yield _line("line", line.id, line.name, metres, "m", read_money(line.price_per_m), limits)
    for fitting in _fittings_to_set((job.new.from_end, job.new.to_end)):
        yield _line("fitting", fitting.id, fitting.name, Decimal(1), "piece", read_money(fitting.price), limits)


def _fittings_to_set(ends: Sequence[LineEnd]) -> list[Fitting]:
    return [end.fitting for end in ends if end.fitting is not None and must_be_set(end)]


def _part(part_id: str, name: str, quantity: int, workshop: Workshop) -> QuoteLine:
    known = workshop.small_parts.get(part_id)
    price = None if known is None else known.price
    return _line("part", part_id, name, Decimal(quantity), "piece", price, workshop.limits)


def _parts_beside_adapter(
    plan: RoutingPlan, compatibility: CompatibilityResult | None
) -> Iterable[tuple[PartNeeded, int]]:
    """The plan lists the adapter and its bolts among the parts; they are quoted in a place of their own."""
    brought = Counter(() if compatibility is None else compatibility.part_ids)
    counted = ((need, need.quantity - brought[need.id]) for need in plan.parts)
    return ((need, quantity) for need, quantity in counted if quantity > 0)


def _adapter(compatibility: CompatibilityResult | None, workshop: Workshop) -> Iterable[QuoteLine]:
    if compatibility is None or compatibility.adapter is None:
        return
    adapter = compatibility.adapter
    yield _line("adapter", adapter.id, adapter.name, Decimal(1), "piece", adapter.price, workshop.limits)
    for part_id in adapter.uses:
        known = workshop.small_parts.get(part_id)
        yield _part(part_id, part_id if known is None else known.name, 1, workshop)


def _labour(time: JobTime, limits: ShopLimits) -> QuoteLine:
    minutes = Decimal(str(time.mean_min)).quantize(Decimal(1), rounding=ROUND_HALF_UP)
    total = round_money(limits.labour_per_hour * minutes / MINUTES_PER_HOUR, step=limits.money_step)
    return QuoteLine(
        kind="labour",
        id="labour",
        name=f"Labour, {minutes} min",
        quantity=minutes / MINUTES_PER_HOUR,
        unit="h",
        unit_price=limits.labour_per_hour,
        total=total,
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
        "failures_not_counted": method.fail_chance is None,
        "measure_first": bool(plan.measure_first),
        "old_way_not_known": job.old is not None and not job.old.through,
        "nothing_hidden_is_broken": True,
    }
    return tuple(key for key, holds in held.items() if holds)


def _alternatives(plan: RoutingPlan, methods: dict[str, Method], workshop: Workshop) -> tuple[Alternative, ...]:
    if not plan.options:
        return ()
    quoted, *others = plan.options
    return tuple(
        Alternative(
            method_id=option.method_id,
            method_name=methods[option.method_id].name,
            feed_from=option.feed_from.value,
            outcome=option.outcome,
            more_min=option.work_min - quoted.work_min,
            more_money=_more_money(option, quoted, methods, workshop),
            holds_n=option.joint.holds_n,
            remark=option.remark,
        )
        for option in others
        if option.method_id in methods
    )


def _more_money(
    option: PlanOption, quoted: PlanOption, methods: dict[str, Method], workshop: Workshop
) -> Decimal | None:
    """By the likely minutes and the small parts of the joint; what both ways share falls out."""
    limits = workshop.limits
    parts: list[Decimal] = []
    for sign, method_id in ((1, option.method_id), (-1, quoted.method_id)):
        for part_id in methods[method_id].uses:
            known = workshop.small_parts.get(part_id)
            if known is None or known.price is None:
                return None
            parts.append(sign * known.price)
    minutes = Decimal(str(round(option.work_min - quoted.work_min, 6)))
    labour = limits.labour_per_hour * minutes / MINUTES_PER_HOUR
    return round_money((sum(parts, Decimal(0)) + labour) * (1 + limits.tax_ratio), step=limits.money_step)
