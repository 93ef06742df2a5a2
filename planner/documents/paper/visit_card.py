"""The card of a visit: the order and why, the shared holes step by step, one work order, then each line's evidence."""

from collections.abc import Iterator
from typing import Any

from planner.documents.drawings.visit_strips import draw_visit_strips
from planner.documents.paper.job_card import evidence_of_line
from planner.documents.paper.pages import pages_as_pdf
from planner.documents.paper.parts import gap, heading, picture
from planner.documents.paper.style import TICK_BOX, Cell, PageSize, table, text_width_mm, words
from planner.documents.words.need_words import need_words
from planner.documents.words.outcome_words import marked_outcome
from planner.documents.words.visit_words import (
    forced_sentences,
    left_undone,
    order_told,
    time_words,
    unproven_sentence,
    visit_verdict,
    visit_ways_out_told,
)
from planner.parts import Frame
from planner.plan.job_time import whole_minutes
from planner.whole_bike.visit_plan import VisitPlan, VisitStep

STRIP_HEIGHT_MM = 120.0


def visit_card_pdf(
    *, plan: VisitPlan, frame: Frame, page_size: PageSize = "a4", date_text: str = "", shop_name: str = ""
) -> bytes:
    """A visit's plan on paper: verdict, order with its reasons, shared holes, parts, steps to tick, then line by line.

    Returns PDF; the same for the same input.

    plan : a plan, or a "no" with its proof
    frame : the frame it was made for
    date_text : the day to print, as the reader writes days; "" for none
    shop_name : printed at the foot; "" for none
    """
    width_mm = text_width_mm(page_size)
    parts = [
        *_head(plan, date_text, width_mm),
        *_order(plan, width_mm),
        *_bench(plan, width_mm),
        *_steps(plan, width_mm),
        *_strips(plan, width_mm),
        *_lines(plan, frame, width_mm),
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


def _order(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    if not plan.order:
        return
    yield from heading("Order")
    rows: list[list[Cell]] = [[TICK_BOX, f"{n}.", told] for n, told in enumerate(order_told(plan), start=1)]
    yield table(rows, widths_mm=(7, 9, width_mm - 16), has_head=False)
    yield from (words(f"⚠ {sentence}", "strong") for sentence in left_undone(plan))
    if reasons := forced_sentences(plan):
        yield from heading("Why this order")
        yield from (words(f"– {sentence}") for sentence in reasons)


def _strips(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    strips = draw_visit_strips(plan)
    if strips:
        yield from heading("Who lies in the shared holes, step by step", followed_by_mm=60)
    for strip in strips.values():
        yield from picture(strip, width_mm=width_mm, height_mm=STRIP_HEIGHT_MM)


def _bench(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    if plan.totals is None or not plan.steps:
        return
    plans = [line.plan for line in plan.lines if line.plan is not None]
    needs = [need_words(need, names=plan.names) for each in plans for need in each.needs]
    needs += [tool for each in plans for tool in each.at_hand]
    rows: list[list[Cell]] = [["", "Quantity", "Have ready"]]
    rows += [[TICK_BOX, f"{part.quantity} ×", part.name] for part in plan.totals.parts]
    rows += [[TICK_BOX, "", need] for need in dict.fromkeys(needs)]
    if len(rows) > 1:
        yield from heading("On the bench")
        yield table(rows, widths_mm=(7, 20, width_mm - 27))


def _steps(plan: VisitPlan, width_mm: float) -> Iterator[Any]:
    if plan.cautions:
        yield from heading("What can hurt")
        yield from (words(f"⚠ {caution}") for caution in plan.cautions)
    if plan.steps and plan.totals is not None:
        yield from heading(f"Steps, all lines together ({time_words(plan.totals)})")
        yield table(list(_step_rows(plan)), widths_mm=(7, 9, 26, width_mm - 62, 20))
        yield gap(4)
        yield words(f"{TICK_BOX} Tried before riding off · done by ______________________ · on ________________")


def _step_rows(plan: VisitPlan) -> Iterator[list[Cell]]:
    """Each caution in full at the first step that names it."""
    yield ["", "", "Line", "Step", "Minutes"]
    told = set(plan.cautions)
    everybody = tuple(dict.fromkeys(line_id for step in plan.order for line_id in step.line_ids))
    for row in plan.steps:
        new = [caution for caution in dict.fromkeys(row.step.cautions) if caution not in told]
        told |= set(new)
        whose = "all" if set(row.line_ids) == set(everybody) else ", ".join(row.line_ids)
        said = "\n".join([row.step.text, *(f"⚠ {caution}" for caution in new)])
        yield [TICK_BOX, f"{row.n}.", (whose, "small"), said, _minutes(row)]


def _minutes(row: VisitStep) -> str:
    times = (row.step.least_min, row.step.likely_min, row.step.most_min)
    least, likely, most = (whole_minutes(time) for time in times)
    return f"{likely} ({least}–{most})"


def _lines(plan: VisitPlan, frame: Frame, width_mm: float) -> Iterator[Any]:
    from reportlab.platypus import PageBreak

    for line in plan.lines:
        if line.plan is not None:
            yield PageBreak()
            yield from evidence_of_line(plan=line.plan, frame=frame, width_mm=width_mm)
