"""`lineplan gauge`: a paper gauge of a job's holes and joint at true size, as PDF."""

import sys
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from catalog import write_file
from planner import printable_line, verdict_sentence
from ui.reports.refusals import refusals_as_sentences
from ui.shared.catalog_choice import CatalogChoice
from ui.shared.days import day_named, today_in
from ui.shared.exit_status import status_of
from ui.shared.extras import refuse_without
from ui.shared.planned_job import find_planned
from ui.shared.target_files import Target, refuse_bad_targets


@dataclass(frozen=True, slots=True, kw_only=True)
class GaugeQuestion:
    """What to print.

    asked : a job file, or the name of a saved job
    choice : the catalog, and the store
    pdf : the gauge
    replaces : whether a file that is there may be lost
    page_size : of the paper
    day_text : the day to print; None for today
    shop_name : printed at the foot; "" for none
    """

    asked: str
    choice: CatalogChoice
    pdf: Path
    replaces: bool
    page_size: Any
    day_text: str | None
    shop_name: str


def run_gauge(question: GaugeQuestion) -> int:
    """Print the gauge of a job, one without a plan too. Returns the exit status."""
    with refusals_as_sentences():
        refuse_bad_targets(Target(path=question.pdf, endings=(".pdf",), replaces=question.replaces))
        refuse_without("paper")
        day = day_named(question.day_text, command="gauge")
        planned = find_planned(question.asked, choice=question.choice)
        for remark in planned.remarks:
            print(remark, file=sys.stderr)
        day = day or today_in(planned.workshop.limits.time_zone)
        from planner import gauge_sheet_pdf

        printed = gauge_sheet_pdf(
            plan=planned.plan,
            frame=planned.job.frame,
            measures=planned.workshop.measures,
            page_size=question.page_size,
            date_text=day.isoformat(),
            shop_name=question.shop_name.strip(),
        )
        write_file(question.pdf, printed, replaces=question.replaces)
    print(verdict_sentence(planned.plan))
    print(f"Gauge: {printable_line(str(question.pdf))}")
    return status_of(planned.plan.outcome)
