"""A shopping list for a spreadsheet: a row for each small part and each line to cut."""

from collections.abc import Iterator

from planner.documents.records.parts_csv import csv_text
from planner.plan.shopping import ShoppingList

HEAD = ["kind", "id", "name", "need", "have", "to_buy", "length_mm", "jobs"]


def shopping_csv(found: ShoppingList) -> str:
    """What open jobs take; empty where nobody counted, or no length is known.

    Returns text in the form of `parts_csv`.
    """
    return csv_text([HEAD, *_rows(found)])


def _rows(found: ShoppingList) -> Iterator[list[str]]:
    for part in found.parts:
        have = "" if part.have is None else str(part.have)
        yield ["part", part.id, part.name, str(part.need), have, str(part.to_buy), "", " ".join(part.job_ids)]
    for line in found.lines:
        length = "" if line.length_mm is None else f"{line.length_mm:.10g}"
        yield ["line", "", line.line_name, "1", "", "", length, line.job_id]
