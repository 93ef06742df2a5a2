"""Kept tables in the terminal: a row for each, or some pairs of one."""

from collections.abc import Iterable, Sequence

from rich.markup import escape

from catalog import TableBrief
from planner import COLUMNS, decider_words
from planner.verdicts import Outcome
from ui.reports.plain_table import outcome_text, plain_table
from ui.reports.report import print_report
from ui.reports.table_report import pairs_in_words
from ui.shared.days import in_zone
from ui.table.kept import KeptTable
from ui.table.make import Row

OUTCOMES = {outcome.word: outcome for outcome in Outcome}


def print_tables(briefs: Sequence[TableBrief], *, time_zone: str) -> None:
    """Print a row for every table, newest first."""
    if not briefs:
        print("No table is kept here. `lineplan table --frames FRAMES --to store` makes one.")
        return
    headings = ("Table", "Made", "Frames", "Brakes", *(outcome.word.replace("_", " ") for outcome in Outcome))
    shown = plain_table((*headings, "By"), right=("Table", *headings[2:]), whole=headings)
    for brief in briefs:
        counts = (f"{brief.counts.get(outcome.word, 0)}" for outcome in Outcome)
        made = f"{in_zone(brief.made_at, time_zone):%Y-%m-%d}"
        note = f": {brief.note}" if brief.note else ""
        by = escape(f"{brief.made_by}{note}")
        shown.add_row(f"{brief.id}", made, f"{brief.cases_n}", f"{brief.brakes_n}", *counts, by)
    print_report(shown)


def print_pairs(table: KeptTable, rows: Iterable[Row], *, found_n: int, shown_n: int) -> None:
    """Print some pairs, with what decides each.

    found_n, shown_n : how many there are, and how many are shown
    """
    if not found_n:
        print(f"No pair of table {table.brief.id} is like that.")
        return
    shown = plain_table(("Frame", "Brake", "Outcome", "What decides", "Cut, mm"), right=("Cut, mm",))
    brake_names = {brake.id: brake.name for brake in table.brakes}
    for row in rows:
        told = dict(zip(COLUMNS, row, strict=True))
        frame_id, place_id = str(told["frame"]), str(told["place"] or "")
        named = "" if told["case"] == frame_id else f" ({told['case']})"
        clearance = told["clearance_mm"]
        decides = decider_words(
            rule=str(told["rule"] or ""),
            place=table.place(frame_id, place_id),
            clearance_mm=clearance if isinstance(clearance, float) else None,
        )
        shown.add_row(
            escape(f"{table.frame(frame_id)}{named}"),
            escape(brake_names[str(told["brake"])]),
            outcome_text(OUTCOMES[str(told["outcome"])]),
            escape(decides),
            "" if told["cut_mm"] is None else f"{told['cut_mm']:g}",
        )
    print_report(shown)
    more = "" if shown_n == found_n else f"; the first {shown_n} are shown, --to FILE.csv writes all"
    print(f"{pairs_in_words(found_n)}{more}")
