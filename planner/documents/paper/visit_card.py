"""The card of a visit: the order and all lines on one page, one work order, then what is each line's own."""

from collections.abc import Iterator
from typing import Any

from planner.documents.drawings.svg import Picture
from planner.documents.drawings.visit_drawing import draw_visit
from planner.documents.drawings.visit_lines import visit_letters
from planner.documents.drawings.visit_strips import draw_visit_strips
from planner.documents.paper.pages import pages_as_pdf
from planner.documents.paper.parts import gap, heading, picture
from planner.documents.paper.style import TICK_BOX, Cell, PageSize, table, text_width_mm, words
from planner.documents.paper.visit_lines_table import line_section, lines_table, to_settle
from planner.documents.words.outcome_words import marked_outcome
from planner.documents.words.part_words import PART_TITLES
from planner.documents.words.rescue_words import rescue_of_lines
from planner.documents.words.visit_measures import visit_measures_told
from planner.documents.words.visit_steps import told_steps
from planner.documents.words.visit_words import (
    forced_sentences,
    left_undone,
    needs_of_visit,
    order_told,
    time_words,
    unproven_sentence,
    visit_verdict,
    visit_ways_out_told,
)
from planner.parts import Visit
from planner.whole_bike.visit_plan import VisitPlan

PICTURE_HEIGHT_MM = 182.0
"""So that verdict, order and reasons stand on the page of the picture."""

STRIP_HEIGHT_MM = 62.0
STRIP_SCALE = 1.5


def visit_card_pdf(
    *, plan: VisitPlan, visit: Visit, page_size: PageSize = "a4", date_text: str = "", shop_name: str = ""
) -> bytes:
    """A visit's plan on paper: first page verdict, order and picture; then lines, bench, steps to tick, holes, figures.

    Returns PDF; the same for the same input.

    plan : a plan, or a "no" with its proof
    visit : that was planned
    date_text : the day to print, as the reader writes days; "" for none
    shop_name : printed at the foot; "" for none
    """
    width_mm = text_width_mm(page_size)
    parts = [
        *_head(plan, date_text, width_mm),
        *_order(plan, width_mm),
        *picture(_drawn(plan, visit), width_mm=width_mm, height_mm=PICTURE_HEIGHT_MM),
        *_lines(plan, width_mm),
        *_bench(plan, width_mm),
        *_steps(plan, width_mm),
        *_rescue(plan, width_mm),
        *_strips(plan, width_mm),
        *_figures(plan, width_mm),
    ]
    foot = " · ".join(text for text in (shop_name, plan.visit_id, date_text) if text)
    title = f"Job card: {plan.visit_title or plan.visit_id}"
    return pages_as_pdf(parts, page_size=page_size, title=title, foot=foot or "job card")


def _head(plan: VisitPlan, date_text: str, width_mm: float) -> Iterator[Any]:
    yield words(plan.visit_title or plan.visit_id, "title")
    yield words(" · ".join(text for text in (plan.frame_name, date_text) if text))
    yield gap(2)
    verdict: list[Cell] = [(marked_outcome(plan.outcome), "strong"), visit_verdict(plan)]
    yield table([verdict], widths_mm=(26, width_mm - 26), has_head=False, shaded=(0,))
    yield gap(2)
    if (unproven := unproven_sentence(plan)) is not None:
        yield words(unproven)
    if ways_out := visit_ways_out_told(plan):
        yield from heading("What would change it")
        yield from (words(f"– {sentence}") for sentence in ways_out)
    if measures := visit_measures_told(plan):
        yield from heading("Measure first")
        yield from (words(f"{TICK_BOX} {reason}") for reason in measures)


def _order(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    if not plan.order:
        return
    letters = visit_letters(plan)
    yield from heading("Order")
    rows: list[list[Cell]] = [
        [TICK_BOX, f"{n}.", (" ".join(letters[line_id] for line_id in step.line_ids), "strong"), told]
        for n, (step, told) in enumerate(zip(plan.order, order_told(plan), strict=True), start=1)
    ]
    yield table(rows, widths_mm=(7, 8, 8, width_mm - 23), has_head=False)
    yield from (words(f"⚠ {sentence}", "strong") for sentence in left_undone(plan))
    if reasons := forced_sentences(plan):
        yield gap(1.5)
        yield from (words(f"Why: {sentence}") for sentence in reasons)


def _drawn(plan: VisitPlan, visit: Visit) -> Picture:
    """As wide as the sheet, or less where it would be too tall for the page of the order."""
    width_mm = 180.0
    while True:
        drawn = draw_visit(plan, visit, width_mm=width_mm)
        if drawn.height_mm <= PICTURE_HEIGHT_MM or width_mm <= 130:
            return drawn
        width_mm -= 10


def _lines(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    from reportlab.platypus import PageBreak

    if not plan.lines:
        return
    yield PageBreak()
    yield from heading("The lines")
    yield lines_table(plan, visit_letters(plan, (line.line_id for line in plan.lines)), width_mm=width_mm)
    yield from to_settle(plan)


def _bench(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    if plan.totals is None or not plan.steps:
        return
    told = [f"{TICK_BOX} {part.quantity} × {part.name}" for part in plan.totals.parts]
    told += [f"{TICK_BOX} {need}" for need in needs_of_visit(plan)]
    if told:
        half = -(-len(told) // 2)
        left, right = told[:half], [*told[half:], ""]
        yield from heading("On the bench")
        rows: list[list[Cell]] = [list(pair) for pair in zip(left, right, strict=False)]
        yield table(rows, widths_mm=(width_mm / 2, width_mm / 2), has_head=False)


def _steps(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    if plan.cautions:
        yield from heading("What can hurt")
        yield from (words(f"⚠ {caution}") for caution in plan.cautions)
    if plan.steps and plan.totals is not None:
        yield from heading(f"Steps, all lines together ({time_words(plan.totals)})")
        yield _step_table(plan, width_mm)
        yield gap(4)
        yield words(f"{TICK_BOX} Tried before riding off · done by ______________________ · on ________________")


def _step_table(plan: VisitPlan, width_mm: float) -> Any:
    """The work in its stretches; each caution in full at the first step that names it."""
    rows: list[list[Cell]] = [["", "", "Line", "Step", "min"]]
    shaded: list[int] = []
    part: object = ""
    for row in told_steps(plan):
        if row.step.part != part:
            part = row.step.part
            shaded.append(len(rows))
            rows.append(["", "", "", (PART_TITLES[row.step.part], "strong"), ""])
        said = "\n".join([row.step.text, *(f"⚠ {caution}" for caution in row.cautions)])
        rows.append([TICK_BOX, row.numbers, (row.whose, "small"), said, (row.minutes, "small")])
    return table(rows, widths_mm=(6, 13, 20, width_mm - 54, 15), shaded=shaded)


def _rescue(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    """The sheet for what sticks or parts, once for all lines."""
    letters = visit_letters(plan, (line.line_id for line in plan.lines))
    begun = {letters[line.line_id]: line.plan for line in plan.lines if line.plan is not None and plan.steps}
    for title, told in rescue_of_lines(begun):
        yield from heading(title, followed_by_mm=90)
        rows: list[list[Cell]] = [[(kind, "strong"), "\n".join(texts)] for kind, texts in told]
        yield table(rows, widths_mm=(32, width_mm - 32), has_head=False)


def _strips(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    strips = draw_visit_strips(plan, has_key=False, most_scale_ratio=STRIP_SCALE)
    if strips:
        yield from heading("Who lies in the shared holes, step by step", followed_by_mm=60)
        yield words("Old lines are hollow, new ones filled, those that stay have a thick edge.", "small")
    for strip in strips.values():
        yield from picture(strip, width_mm=width_mm, height_mm=STRIP_HEIGHT_MM)


def _figures(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    letters = visit_letters(plan, (line.line_id for line in plan.lines))
    planned = [line for line in plan.lines if line.plan is not None]
    if planned:
        yield from heading("Each line: its marks, holes and lengths", followed_by_mm=40)
        yield words("To spare: millimetres on the diameter. The tape marks are told at rest.", "small")
    for line in planned:
        yield from line_section(line, letters, width_mm=width_mm)
