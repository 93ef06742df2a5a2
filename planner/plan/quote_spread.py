"""What a quoted job would come to if its work were charged by the time it really takes."""

from decimal import Decimal

from planner.plan.job_time import whole_minutes
from planner.plan.money import round_money
from planner.plan.quote import Quote
from planner.plan.quote_lines import labour_total
from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class TotalRange:
    """The total, tax included, that eight jobs in ten would come to.

    low : one job in ten comes to less
    high : one job in ten comes to more
    """

    low: Decimal
    high: Decimal


def find_total_range(*, quote: Quote) -> TotalRange:
    """The total over the range of minutes that eight jobs in ten lie in.

    Parts are certain, labour is not: only the minutes are varied, at the quote's own rate and by its rounding. What has
    no price is missing here as it is from the total.

    Returns both ends rounded to the shop's coin.

    quote : what the job costs
    """
    low, high = (_total(quote, minutes) for minutes in (quote.time.low_min, quote.time.high_min))
    return TotalRange(low=low, high=high)


def _total(quote: Quote, minutes: float) -> Decimal:
    whole = whole_minutes(minutes)
    totals = (
        labour_total(minutes=whole, rate=line.unit_price, step=quote.money_step)
        if line.kind == "labour" and line.unit_price is not None
        else line.total
        for line in quote.lines
    )
    subtotal = sum((total for total in totals if total is not None), Decimal(0))
    return subtotal + round_money(subtotal * quote.tax_ratio, step=quote.money_step)
