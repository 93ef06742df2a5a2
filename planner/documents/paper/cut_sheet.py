"""The cut list on paper, as PDF: every cut to tick, a picture, and what is not cut."""

from collections.abc import Iterator
from typing import Any

from planner.documents.drawings.cut_drawing import draw_cut_pages
from planner.documents.paper.pages import pages_as_pdf
from planner.documents.paper.parts import gap, heading, picture
from planner.documents.paper.style import TICK_BOX, Cell, PageSize, table, text_width_mm, words
from planner.documents.words.cut_wording import cut_size, cuts_sentence, uncut_sentence, why_not_cut_sentence
from planner.plan.cut_stock import OpenedLength
from planner.plan.job_cuts import JobCuts

PICTURE_HEIGHT_MM = 230.0
FIGURE_COLUMN_MM = 24.0


def cut_sheet_pdf(
    *, cuts: JobCuts, line_names: dict[str, str] | None = None, page_size: PageSize = "a4", foot: str = "Cut list"
) -> bytes:
    """A cut list to work from at the bench.

    Returns PDF; the same for the same input.

    cuts : the jobs and their cut list
    line_names : names of lines for people, by id
    foot : printed at the foot of every page
    """
    width_mm = text_width_mm(page_size)
    parts = [
        words("Cut list", "title"),
        words(cuts_sentence(cuts.cut_list)),
        *_cuts(cuts, line_names or {}, width_mm),
        *_not_cut(cuts, line_names or {}),
        *_picture(cuts, width_mm),
    ]
    return pages_as_pdf(parts, page_size=page_size, title="Cut list", foot=foot)


def _cuts(cuts: JobCuts, line_names: dict[str, str], width_mm: float) -> Iterator[Any]:
    if not cuts.cut_list.opened:
        return
    rows: list[list[Cell]] = [["", "Cut from / for", "From", "To", "Length"]]
    shaded: list[int] = []
    for number, opened in enumerate(cuts.cut_list.opened, start=1):
        shaded.append(len(rows))
        name = line_names.get(opened.line_id, opened.line_id)
        rows.append(["", (f"{number}. {opened.stock_id} · {name}", "strong"), "", "", cut_size(opened.length_mm)])
        rows.extend(_rows(opened))
    yield from heading("Cuts in their order", followed_by_mm=30)
    figures = [FIGURE_COLUMN_MM] * 3
    widths = [8.0, width_mm - 8.0 - sum(figures), *figures]
    yield table(rows, widths_mm=widths, shaded=shaded, right=(2, 3, 4))


def _rows(opened: OpenedLength) -> Iterator[list[Cell]]:
    for cut in opened.cuts:
        end_mm = cut.start_mm + cut.length_mm
        yield [TICK_BOX, cut.piece_id, cut_size(cut.start_mm), cut_size(end_mm), cut_size(cut.length_mm)]
    left_mm = opened.offcut_mm or opened.scrap_mm
    if left_mm:
        what = "keep as offcut" if opened.offcut_mm else "scrap"
        places = (cut_size(opened.length_mm - left_mm), cut_size(opened.length_mm), cut_size(left_mm))
        yield ["", (what, "small"), *((place, "small") for place in places)]


def _not_cut(cuts: JobCuts, line_names: dict[str, str]) -> Iterator[Any]:
    rows = [f"{asked.label}: {reason}" for asked in cuts.jobs if (reason := why_not_cut_sentence(asked))]
    for uncut in cuts.cut_list.uncut:
        line_id = cuts.line_ids[uncut.piece_id]
        what = f"{cut_size(uncut.length_mm)} of {line_names.get(line_id, line_id)}"
        rows.append(f"{uncut.piece_id}: {what} cannot be cut: {uncut_sentence(uncut)}.")
    if rows:
        yield from heading("Not cut")
        yield from (words(row) for row in rows)


def _picture(cuts: JobCuts, width_mm: float) -> Iterator[Any]:
    if cuts.cut_list.opened:
        yield gap(4)
        for page in draw_cut_pages(cuts.cut_list, width_mm=width_mm, height_mm=PICTURE_HEIGHT_MM):
            yield from picture(page, width_mm=width_mm, height_mm=PICTURE_HEIGHT_MM)
