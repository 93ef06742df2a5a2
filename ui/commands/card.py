"""`lineplan card`: the job card as PDF, and a label for the cut line."""

import sys
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from catalog import write_file
from planner import CutLabel, label_of_plan, printable_line, verdict_sentence, visit_verdict
from ui.reports.refusals import refusals_as_sentences
from ui.shared.catalog_choice import CatalogChoice
from ui.shared.days import day_named, today_in
from ui.shared.exit_status import status_of
from ui.shared.extras import refuse_without
from ui.shared.planned_job import PlannedJob
from ui.shared.planned_visit import PlannedVisit, find_planned_either
from ui.shared.target_files import Target, refuse_bad_targets


@dataclass(frozen=True, slots=True, kw_only=True)
class CardQuestion:
    """What to print.

    asked : a job file, or the name of a saved job
    choice : the catalog, and the store
    pdf : the card
    label : a file for the label of the cut line; None where none is wanted
    label_size_mm : width and height of that label
    replaces : whether files that are there may be lost
    page_size : of the card's paper
    day_text : the day to print; None for today
    shop_name : printed at the foot; "" for none
    """

    asked: str
    choice: CatalogChoice
    pdf: Path
    label: Path | None
    label_size_mm: tuple[float, float]
    replaces: bool
    page_size: Any
    day_text: str | None
    shop_name: str


def run_card(question: CardQuestion) -> int:
    """Print the card of a job; a job without a plan gets one that says why. Returns the exit status."""
    with refusals_as_sentences():
        refuse_bad_targets(
            Target(path=question.pdf, endings=(".pdf",), replaces=question.replaces),
            Target(path=question.label, endings=(".pdf",), replaces=question.replaces),
        )
        refuse_without("paper")
        day = day_named(question.day_text, command="card")  # a slip is told before anything is planned
        planned = find_planned_either(question.asked, choice=question.choice)
        if isinstance(planned, PlannedVisit):
            return _print_visit(planned, question, day)
        for remark in planned.remarks:
            print(remark, file=sys.stderr)
        day = day or today_in(planned.workshop.limits.time_zone)
        written = list(_write(planned, question, date_text=day.isoformat()))
    print(verdict_sentence(planned.plan))
    print("\n".join(written))
    return status_of(planned.plan.outcome)


def _print_visit(planned: PlannedVisit, question: CardQuestion, day: date | None) -> int:
    """The card of several lines, and one label for each line that is cut."""
    from ui.shared.visit_papers import has_labels, visit_card, visit_labels

    for remark in planned.remarks:
        print(remark, file=sys.stderr)
    day = day or today_in(planned.workshop.limits.time_zone)
    card = visit_card(planned, day=day.isoformat(), page_size=question.page_size, shop_name=question.shop_name.strip())
    wants_labels = question.label is not None and has_labels(planned.plan)
    strips = visit_labels(planned.plan, size_mm=question.label_size_mm) if wants_labels else None
    write_file(question.pdf, card, replaces=question.replaces)
    print(visit_verdict(planned.plan))
    print(f"Job card: {printable_line(str(question.pdf))}")
    if question.label is not None and strips is not None:
        write_file(question.label, strips, replaces=question.replaces)
        print(f"Labels: {printable_line(str(question.label))}")
    elif question.label is not None:
        print("No label: there is nothing to cut.")
    return status_of(planned.plan.outcome)


def _write(planned: PlannedJob, question: CardQuestion, *, date_text: str) -> list[str]:
    """Write card and label; returns a line for each."""
    from planner import job_card_pdf

    card = job_card_pdf(
        plan=planned.plan,
        frame=planned.job.frame,
        page_size=question.page_size,
        date_text=date_text,
        shop_name=question.shop_name.strip(),
    )
    label = label_of_plan(planned.plan) if question.label is not None else None
    strip = None if label is None else _strips([label], question.label_size_mm)
    write_file(question.pdf, card, replaces=question.replaces)
    said = [f"Job card: {printable_line(str(question.pdf))}"]
    if question.label is not None and strip is not None:
        write_file(question.label, strip, replaces=question.replaces)
        said.append(f"Label: {printable_line(str(question.label))}")
    elif question.label is not None:
        said.append("No label: there is nothing to cut.")
    return said


def _strips(labels: list[CutLabel], size_mm: tuple[float, float]) -> bytes:
    from planner import cut_label_pdf

    width_mm, height_mm = size_mm
    return cut_label_pdf(labels=labels, width_mm=width_mm, height_mm=height_mm)
