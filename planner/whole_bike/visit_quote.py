"""What a visit costs: the things of every line as in a quote of its own, and the labour of the one work order."""

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from planner.fit.compatibility import check_compatibility
from planner.parts import Job, Workshop
from planner.plan.money import round_money
from planner.plan.quote import Quote, make_quote
from planner.plan.quote_lines import QuoteLine, charge_labour
from planner.plan.routing_plan import RoutingPlan
from planner.whole_bike.visit_plan import VisitPlan


def quotes_of_lines(
    planned: Iterable[tuple[Job, RoutingPlan]], *, workshop: Workshop, charges_new_line: bool = True
) -> tuple[Quote, ...]:
    """The quote of each line by itself, as if the bicycle were opened for it alone.

    planned : each line's job with its plan
    charges_new_line : false where the owner brings the new lines
    """
    quotes = (
        make_quote(
            job=job,
            plan=plan,
            workshop=workshop,
            compatibility=check_compatibility(
                job=job, adapters=workshop.adapters, route=plan.route, limits=workshop.limits
            ),
            charges_new_line=charges_new_line,
            tells_other_ways=False,
        )
        for job, plan in planned
    )
    return tuple(quote for quote in quotes if quote is not None)


def things_of(quotes: Iterable[Quote]) -> tuple[QuoteLine, ...]:
    """All lines of some quotes but their labour."""
    return tuple(line for quote in quotes for line in quote.lines if line.kind != "labour")


def make_visit_quote(*, plan: VisitPlan, workshop: Workshop, charges_new_line: bool = True) -> Quote | None:
    """The quote for a visit: things line by line, labour once, no other ways.

    None where there is no order to work in.

    charges_new_line : false where the owner brings the new lines
    """
    planned = [(line.job, line.plan) for line in plan.lines if line.job is not None and line.plan is not None]
    quotes = quotes_of_lines(planned, workshop=workshop, charges_new_line=charges_new_line)
    if plan.totals is None or not quotes:
        return None
    limits = workshop.limits
    lines = (*things_of(quotes), charge_labour(plan.totals.time, limits))
    subtotal = sum((line.total for line in lines if line.total is not None), Decimal(0))
    tax = round_money(subtotal * limits.tax_ratio, step=limits.money_step)
    return replace(
        quotes[0],
        job_id=plan.visit_id,
        job_title=plan.visit_title,
        lines=lines,
        subtotal=subtotal,
        tax=tax,
        total=subtotal + tax,
        unpriced=tuple(line.name for line in lines if line.total is None),
        time=plan.totals.time,
        assumptions=tuple(dict.fromkeys(key for quote in quotes for key in quote.assumptions)),
        alternatives=(),
    )
