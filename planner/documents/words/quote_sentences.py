"""The sentences of a quote, filled in: how long, how rounded, what it takes for granted."""

from decimal import Decimal

from planner.documents.words.quote_wording import ASSUMPTION_SENTENCES, ROUNDING_SENTENCES, TIME_SENTENCES
from planner.plan.job_time import JobTime, whole_minutes
from planner.plan.quote import Quote
from planner.plan.quote_lines import QuoteLine
from planner.plan.quote_spread import find_total_range

UNIT_WORDS = {"piece": "×", "m": "m", "min": "min", "h": "h"}


def assumption_sentences(quote: Quote) -> tuple[str, ...]:
    """What must hold for the quote to hold.

    Returns in the quote's order.

    quote : what the job costs
    """
    return tuple(ASSUMPTION_SENTENCES[key] for key in quote.assumptions)


def rounding_sentence(quote: Quote) -> str:
    """How the quote's amounts are rounded.

    Returns with the shop's coin.

    quote : what the job costs
    """
    return ROUNDING_SENTENCES[quote.rounding_rule].format(step=quote.money_step, currency=quote.currency)


def time_sentences(quote: Quote) -> tuple[str, str]:
    """How long the work takes, and how that was found.

    Returns the mean with the range eight jobs in ten lie in, in the same whole minutes that are charged; then what
    that rests on.

    quote : what the job costs
    """
    return time_sentence(quote.time), TIME_SENTENCES[quote.time.method]


def time_sentence(time: JobTime) -> str:
    """How long the work takes, in whole minutes."""
    mean, low, high = (whole_minutes(minutes) for minutes in (time.mean_min, time.low_min, time.high_min))
    return f"About {mean} minutes of work, from {low} to {high} minutes."


def quote_line_words(line: QuoteLine) -> tuple[str, str, str, str]:
    """A line of a quote as people read it: name, how much, the price of each, together.

    The price says what it is for, so that whoever multiplies gets what stands under "together".

    line : a thing, or the labour
    """
    unit = UNIT_WORDS.get(line.unit, line.unit)
    each, together = ("not priced" if amount is None else str(amount) for amount in (line.unit_price, line.total))
    if line.price_per != 1 and line.unit_price is not None:
        each = f"{each} per {short_quantity(line.price_per)} {unit}"
    return line.name, f"{short_quantity(line.quantity)} {unit}", each, together


def short_quantity(quantity: Decimal) -> str:
    """An amount with at most four decimals (a tenth of a millimetre, in metres), without noughts at the end.

    quantity : any amount
    """
    rounded = format(quantity.quantize(Decimal("0.0001")), "f")
    return rounded.rstrip("0").rstrip(".") if "." in rounded else rounded


def spread_sentence(quote: Quote) -> str:
    """What the job would come to if its work were charged by the time it takes.

    Returns with the range eight jobs in ten lie in.

    quote : what the job costs
    """
    spread = find_total_range(quote=quote)
    if spread.low == spread.high:
        return f"By the time it takes, the job would come to {spread.low} {quote.currency}, tax included."
    return (
        f"By the time it takes, the job would come to {spread.low} to {spread.high} {quote.currency}, tax included, "
        "in eight jobs out of ten."
    )
