"""`lineplan sheet`: a blank measuring sheet to take to the bicycle, as PDF."""

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from catalog import write_file
from planner import printable_line
from ui.reports.refusals import refusals_as_sentences
from ui.shared.catalog_choice import CatalogChoice, chosen_catalog
from ui.shared.command_refused import CommandRefused
from ui.shared.days import day_named, today_in
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
from ui.shared.target_files import Target, refuse_bad_targets


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetQuestion:
    """What to print.

    frame_id : a frame of the catalog; None for a blank sheet
    choice : the catalog, and the store
    pdf : the sheet
    hole_count : holes on a blank sheet
    replaces : whether a file that is there may be lost
    page_size : of the paper
    day_text : the day to print; None for today
    shop_name : printed at the foot; "" for none
    """

    frame_id: str | None
    choice: CatalogChoice
    pdf: Path
    hole_count: int
    replaces: bool
    page_size: Any
    day_text: str | None
    shop_name: str


def run_sheet(question: SheetQuestion) -> int:
    """Print the sheet; returns the exit status."""
    with refusals_as_sentences():
        refuse_bad_targets(Target(path=question.pdf, endings=(".pdf",), replaces=question.replaces))
        refuse_without("paper")
        day = day_named(question.day_text, command="sheet")
        catalog = chosen_catalog(question.choice)
        if question.frame_id is not None and question.frame_id not in catalog.frames:
            raise CommandRefused(
                command="sheet",
                option=printable_line(question.frame_id),
                given="no frame of this id",
                allowed=", ".join(catalog.frames) or "no argument, for this catalog has no frames",
            )
        day = day or today_in(catalog.workshop.limits.time_zone)
        from planner import measuring_sheet_pdf

        printed = measuring_sheet_pdf(
            frame=catalog.frames[question.frame_id] if question.frame_id else None,
            hole_count=question.hole_count,
            measures=catalog.workshop.measures,
            page_size=question.page_size,
            date_text=day.isoformat(),
            shop_name=question.shop_name.strip(),
        )
        write_file(question.pdf, printed, replaces=question.replaces)
    print(f"Measuring sheet: {printable_line(str(question.pdf))}")
    return ExitStatus.DONE
