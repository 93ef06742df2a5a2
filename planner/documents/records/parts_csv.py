"""What to buy or lay ready as CSV, safe to open in a spreadsheet."""

import csv
from collections.abc import Iterable
from io import StringIO

from planner.documents.words.printable import in_csv
from planner.documents.words.quote_sentences import short_quantity
from planner.plan.quote import Quote
from planner.plan.routing_plan import RoutingPlan

BYTE_ORDER_MARK = "\ufeff"
"""Without it some spreadsheets read UTF-8 as the letters of their own country."""


def parts_csv(source: RoutingPlan | Quote) -> str:
    """The small parts of a plan, or the lines of a quote.

    It begins with a byte order mark, and every cell is quoted. A text that a spreadsheet would take for a formula gets
    an apostrophe before it.

    Returns lines end with CR LF, as RFC 4180 asks; amounts are decimal text, empty where nothing is priced.

    source : a plan gives id, name and quantity; a quote adds unit, price, how many units that is for, total and
        currency

    Source: RFC 4180, "Common Format and MIME Type for Comma-Separated Values (CSV) Files", 2005 (from memory).
    """
    if isinstance(source, Quote):
        head = ["kind", "id", "name", "quantity", "unit", "unit_price", "price_per", "total", "currency"]
        return csv_text([head, *_quote_rows(source)])
    return csv_text([["id", "name", "quantity"], *([part.id, part.name, str(part.quantity)] for part in source.parts)])


def _quote_rows(quote: Quote) -> Iterable[list[str]]:
    for line in quote.lines:
        price, total = ("" if amount is None else str(amount) for amount in (line.unit_price, line.total))
        much, per = short_quantity(line.quantity), short_quantity(line.price_per)
        yield [line.kind, line.id, line.name, much, line.unit, price, per, total, quote.currency]


def csv_text(rows: Iterable[list[str]]) -> str:
    """Rows of plain text as a spreadsheet reads them; what it would take for a formula gets an apostrophe before it."""
    written = StringIO()
    writer = csv.writer(written, quoting=csv.QUOTE_ALL, lineterminator="\r\n")
    writer.writerows([in_csv(cell) for cell in row] for row in rows)
    return BYTE_ORDER_MARK + written.getvalue()
