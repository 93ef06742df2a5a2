"""The quote as PDF: what the work costs, how long it takes, how long the price stands, what it takes for granted."""

from collections.abc import Iterator, Sequence
from typing import Any

from planner.documents.drawings.svg import SOFT_INK
from planner.documents.paper.pages import pages_as_pdf
from planner.documents.paper.parts import gap, heading
from planner.documents.paper.style import Cell, PageSize, table, text_width_mm, words
from planner.documents.words.quote_sentences import (
    assumption_sentences,
    quote_line_words,
    rounding_sentence,
    time_sentences,
)
from planner.documents.words.quote_wording import (
    alternative_words,
    tax_words,
)
from planner.plan.quote import Quote


def quote_pdf(
    *,
    quote: Quote,
    shop_name: str = "",
    shop_address: str = "",
    for_whom: str = "",
    number: str = "",
    page_size: PageSize = "a4",
    date_text: str = "",
    valid_until_text: str = "",
    remarks: Sequence[str] = (),
) -> bytes:
    """A quote on paper.

    Returns PDF; the same for the same input.

    quote : what the job costs
    shop_name, shop_address : who quotes, and where to find them; "" for none
    for_whom : who asked; "" for none
    number : the quote's number; "" for none
    date_text : the day it is handed over, as the reader writes days; "" for none
    valid_until_text : the last day it stands; "" tells the number of days instead
    remarks : where it stands, such as which quote it replaces; read before everything else
    """
    width_mm = text_width_mm(page_size)
    title = f"Quote {number}".strip()
    stands = (
        f"stands until {valid_until_text}"
        if valid_until_text
        else f"stands for {quote.valid_days} days from the day it is handed over"
    )
    parts = [
        words(title, "title"),
        words(" · ".join(text for text in (shop_name, for_whom and f"for {for_whom}", date_text) if text)),
        *([words(shop_address, "small", colour=SOFT_INK)] if shop_address else []),
        words(f"{quote.job_title or quote.job_id} · {stands}", colour=SOFT_INK),
        *(words(remark, "strong") for remark in remarks),
        gap(4),
        *_items(quote, width_mm),
        *_unpriced(quote),
        *_time(quote),
        *_assumed(quote),
        *_others(quote),
        gap(8),
        words("Agreed ______________________________    Day ________________"),
    ]
    foot = " · ".join(text for text in (shop_name, title, date_text) if text)
    return pages_as_pdf(parts, page_size=page_size, title=f"{title}: {quote.job_title or quote.job_id}", foot=foot)


def _items(quote: Quote, width_mm: float) -> Iterator[Any]:
    rows: list[list[Cell]] = [["Item", "Quantity", f"Each, {quote.currency}", f"Together, {quote.currency}"]]
    rows += [list(quote_line_words(line)) for line in quote.lines]
    first_sum = len(rows)
    to_pay = "To pay, without what is not priced" if quote.unpriced else "To pay"
    rows += [
        ["Sum", "", "", str(quote.subtotal)],
        [tax_words(quote), "", "", str(quote.tax)],
        [(to_pay, "strong"), "", "", (f"{quote.total} {quote.currency}", "strong")],
    ]
    widths = [width_mm - 104, 24, 44, 36]
    yield table(rows, widths_mm=widths, shaded=tuple(range(first_sum, len(rows))), right=(1, 2, 3))
    yield gap(1)
    yield words(rounding_sentence(quote), "small", colour=SOFT_INK)


def _unpriced(quote: Quote) -> Iterator[Any]:
    if quote.unpriced:
        yield from heading("Not in the price")
        yield words(
            "Without a price in the catalog, and so missing above: " + ", ".join(quote.unpriced) + ".", "strong"
        )


def _time(quote: Quote) -> Iterator[Any]:
    mean, rests_on = time_sentences(quote)
    yield from heading("Time")
    yield words(mean)
    yield words(rests_on, "small", colour=SOFT_INK)


def _assumed(quote: Quote) -> Iterator[Any]:
    if quote.assumptions:
        yield from heading("What this takes for granted")
        yield from (words(f"• {sentence}") for sentence in assumption_sentences(quote))


def _others(quote: Quote) -> Iterator[Any]:
    if quote.alternatives:
        yield from heading("Other ways of doing it")
        yield from (words(f"• {alternative_words(other, currency=quote.currency)}") for other in quote.alternatives)
