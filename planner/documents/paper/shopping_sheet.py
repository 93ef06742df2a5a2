"""The shopping list on paper: small parts, adapters and lines to buy, with a box to tick."""

from collections.abc import Iterator, Mapping
from typing import Any

from planner.documents.drawings.svg import SOFT_INK
from planner.documents.paper.pages import pages_as_pdf
from planner.documents.paper.parts import heading
from planner.documents.paper.style import TICK_BOX, Cell, PageSize, table, text_width_mm, words
from planner.documents.words.shopping_words import LINE_HEADS, PART_HEADS, line_rows, part_rows, shopping_remarks
from planner.plan.shopping import ShoppingList

BOX_MM, JOBS_MM, FIGURE_MM, LENGTHS_MM = 8.0, 50.0, 23.0, 30.0


def shopping_pdf(
    *,
    found: ShoppingList,
    job_names: Mapping[str, str],
    shop_name: str = "",
    date_text: str = "",
    page_size: PageSize = "a4",
) -> bytes:
    """What open jobs take, to go shopping with.

    Returns PDF; the same for the same input.

    job_names : what people call the jobs, by id; ids stand where a name is missing
    shop_name : whose it is; "" for none
    date_text : the day to print, as the reader writes days; "" for none
    """
    width_mm = text_width_mm(page_size)
    about = " · ".join(text for text in (shop_name, date_text) if text)
    parts = [
        words("Shopping list", "title"),
        *([words(about)] if about else []),
        *_parts(found, job_names, width_mm),
        *_lines(found, job_names, width_mm),
        *(words(remark, "small", colour=SOFT_INK) for remark in shopping_remarks(found, job_names=job_names)),
    ]
    foot = " · ".join(text for text in (shop_name, "shopping list", date_text) if text)
    return pages_as_pdf(parts, page_size=page_size, title="Shopping list", foot=foot)


def _parts(found: ShoppingList, job_names: Mapping[str, str], width_mm: float) -> Iterator[Any]:
    if not found.parts:
        yield words("No open job takes a small part.")
        return
    told = part_rows(found, job_names=job_names)
    rows: list[list[Cell]] = [["", *PART_HEADS]]
    rows += [_ticked(row, bool(part.to_buy)) for part, row in zip(found.parts, told, strict=True)]
    widths = [BOX_MM, width_mm - BOX_MM - JOBS_MM - 3 * FIGURE_MM, JOBS_MM, *[FIGURE_MM] * 3]
    yield table(rows, widths_mm=widths, right=(3, 4, 5))


def _ticked(row: tuple[str, ...], is_short: bool) -> list[Cell]:
    """A row with a box to tick where something is to be bought."""
    return [TICK_BOX if is_short else "", *row[:-1], (row[-1], "strong")]


def _lines(found: ShoppingList, job_names: Mapping[str, str], width_mm: float) -> Iterator[Any]:
    if not found.lines:
        return
    yield from heading("Lines to cut")
    told = line_rows(found, job_names=job_names)
    rows: list[list[Cell]] = [["", *LINE_HEADS]]
    rows += [_ticked(row, order.is_short) for order, row in zip(found.lines, told, strict=True)]
    widths = [BOX_MM, width_mm - BOX_MM - JOBS_MM - 3 * LENGTHS_MM, JOBS_MM, *[LENGTHS_MM] * 3]
    yield table(rows, widths_mm=widths)
