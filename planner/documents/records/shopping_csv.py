"""A shopping list for a spreadsheet: a row for each small part, adapter, length of line and roll to buy."""

from collections.abc import Iterator

from planner.documents.records.parts_csv import csv_text
from planner.plan.line_orders import LineOrder
from planner.plan.shopping import ShoppingList

HEAD = ["kind", "id", "name", "need", "have", "to_buy", "length_mm", "jobs", "unit"]


def shopping_csv(found: ShoppingList) -> str:
    """What open jobs take; empty where nobody counted, or no length is known.

    Of a line, a row "line" says what is wanted, a row "roll" which rolls to buy for it and a row "length" what in
    one piece is to be bought.

    Returns text in the form of `parts_csv`.
    """
    return csv_text([HEAD, *_rows(found)])


def _rows(found: ShoppingList) -> Iterator[list[str]]:
    for part in found.parts:
        have = "" if part.have is None else str(part.have)
        jobs = " ".join(part.job_ids)
        yield ["part", part.id, part.name, str(part.need), have, str(part.to_buy), "", jobs, "pieces"]
    for order in found.lines:
        yield from _line_rows(order)


def _line_rows(order: LineOrder) -> Iterator[list[str]]:
    for piece in order.pieces:
        length = "" if piece.length_mm is None else _mm(piece.length_mm)
        yield ["line", order.line_id, order.line_name, "1", "", "", length, piece.job_id, "pieces"]
    for rolls in order.rolls:
        yield ["roll", rolls.stock_id, order.line_name, "", "", str(rolls.count), _mm(rolls.length_mm), "", "rolls"]
    for length_mm in order.lengths_mm:
        yield ["length", order.line_id, order.line_name, "", "", "1", _mm(length_mm), "", "pieces"]


def _mm(length_mm: float) -> str:
    return f"{length_mm:.10g}"
