"""What a quote says beside its figures: its assumptions, its rounding, and the other ways."""

from planner.documents.words.wording import remark_words
from planner.plan.quote import Alternative, Quote

ASSUMPTION_SENTENCES = {
    "fit_is_tight": "The line passes at nominal sizes with less than the usual clearance; if it will not pass, the work"
    " done so far is charged.",
    "fit_is_not_proven": "Not every size on the way was measured; if the line will not pass, the work done so far is"
    " charged.",
    "parts_not_checked": "Whether the parts belong together was not checked.",
    "parts_do_not_belong": "Some parts do not belong together as they stand: see the checks.",
    "parts_not_all_known": "Not everything about the parts is known: see the checks.",
    "needs_not_priced": "Fluid and plugs are charged as used.",
    "owner_brings_line": "The owner brings the new brake or line; whether it is whole is the owner's word.",
    "supplied_line_too_short": "The line as supplied is too short for this way: a longer one is needed and not priced.",
    "length_not_known": "How long the new line must be is not known before it lies in place; that it reaches is"
    " taken for granted.",
    "failures_not_counted": "How often this joint fails is not known; making it again is not counted.",
    "measure_first": "Some sizes are to be measured before work begins; they may change the plan and the price.",
    "old_way_not_known": "Which way the old line runs is not known for certain.",
    "nothing_hidden_is_broken": "Nothing inside the frame is broken, loose or blocked.",
}

ROUNDING_SENTENCES = {
    "each_line_half_up": "Each line is rounded to {step} {currency}, halves up; tax is taken of their sum and rounded"
    " the same way.",
}

TIME_SENTENCES = {
    "independent_triangles": "Each step's time is taken as triangular between its least and its most, independent of"
    " the others; eight jobs in ten lie in the range.",
}


def alternative_words(alternative: Alternative, *, currency: str) -> str:
    """Another way of doing the job, beside the one quoted, in one line.

    Returns such as "Spoke link 2.0: 12 min less, 12.00 EUR less, holds nothing: push only".
    """
    whole_min = round(alternative.more_min)
    facts = [_more(f"{abs(whole_min)} min", whole_min)]
    if alternative.more_money is None:
        facts.append("price not known")
    elif alternative.more_money:
        facts.append(_more(f"{abs(alternative.more_money)} {currency}", float(alternative.more_money)))
    facts.append(_holding(alternative))
    return f"{alternative.method_name}: {', '.join(facts)}"


def _more(amount: str, sign: float) -> str:
    return f"{amount} {'more' if sign > 0 else 'less'}" if sign else "the same time"


def _holding(alternative: Alternative) -> str:
    if alternative.remark:
        return remark_words(alternative.remark)
    return "hold not known" if alternative.holds_n is None else f"holds {alternative.holds_n:.0f} N"


def tax_words(quote: Quote) -> str:
    """What the row of the tax is called."""
    return f"Tax, {format((quote.tax_ratio * 100).normalize(), 'f')} %"
