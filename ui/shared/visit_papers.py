"""The papers of a visit, for the page and for files alike: card, labels, quote."""

from datetime import date

from planner import CutLabel, VisitPlan, label_of_plan
from ui.shared.planned_visit import PlannedVisit
from ui.shared.quote_paper import quote_paper, quote_paper_pdf

LABEL_SIZE_MM = (60.0, 30.0)


def visit_card(planned: PlannedVisit, *, day: str, page_size: str = "a4", shop_name: str = "") -> bytes:
    """The card as PDF.

    day : to be printed
    """
    from planner import visit_card_pdf

    return visit_card_pdf(
        plan=planned.plan,
        visit=planned.visit,
        page_size=page_size,  # type: ignore[arg-type]
        date_text=day,
        shop_name=shop_name,
    )


def has_labels(plan: VisitPlan) -> bool:
    """Whether there is a line to cut, and so a label to stick on it."""
    return bool(_labels(plan))


def visit_labels(plan: VisitPlan, *, size_mm: tuple[float, float] = LABEL_SIZE_MM) -> bytes:
    """One label for each line that is cut, as PDF; ask `has_labels` first.

    size_mm : width and height of a label
    """
    from planner import cut_label_pdf

    width_mm, height_mm = size_mm
    return cut_label_pdf(labels=_labels(plan), width_mm=width_mm, height_mm=height_mm)


def _labels(plan: VisitPlan) -> list[CutLabel]:
    found = [label_of_plan(line.plan) for line in plan.lines if line.plan is not None]
    return [label for label in found if label is not None]


def visit_quote(planned: PlannedVisit, *, day: str) -> bytes:
    """The quote as PDF, not kept; empty where there is nothing to quote.

    day : it is made
    """
    paper = quote_paper(
        planned, for_whom="", shop_name="", day=date.fromisoformat(day), page_size="a4", charges_new_line=True
    )
    return b"" if paper is None else quote_paper_pdf(paper)
