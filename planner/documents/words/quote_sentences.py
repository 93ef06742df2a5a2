"""The sentences of a quote, filled in: how long, how rounded, what it takes for granted."""

from planner.documents.words.quote_wording import ASSUMPTION_SENTENCES, ROUNDING_SENTENCES, TIME_SENTENCES
from planner.plan.quote import Quote
from planner.plan.quote_spread import find_total_range


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

    Returns the mean with the range eight jobs in ten lie in; then what that rests on.

    quote : what the job costs
    """
    time = quote.time
    mean = f"About {time.mean_min:.0f} minutes of work, from {time.low_min:.0f} to {time.high_min:.0f} minutes."
    return mean, TIME_SENTENCES[time.method]


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
