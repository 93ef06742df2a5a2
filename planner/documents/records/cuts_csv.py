"""A cut list for a spreadsheet: a row for each cut, in the order of the hands."""

from collections.abc import Iterator, Mapping

from planner.documents.records.parts_csv import csv_text
from planner.plan.job_cuts import JobCuts

HEAD = ["from", "line", "line_name", "for", "start_mm", "end_mm", "length_mm"]


def cuts_csv(cuts: JobCuts, *, line_names: Mapping[str, str]) -> str:
    """Every cut with where it is taken from and what is left; lengths in mm, with a decimal point.

    Returns text in the form of `parts_csv`.

    line_names : names of lines for people, by id
    """
    return csv_text([HEAD, *_rows(cuts, line_names)])


def _rows(cuts: JobCuts, line_names: Mapping[str, str]) -> Iterator[list[str]]:
    for number, opened in enumerate(cuts.cut_list.opened, start=1):
        head = [f"{number}. {opened.stock_id}", opened.line_id, line_names.get(opened.line_id, opened.line_id)]
        for cut in opened.cuts:
            ends_mm = (cut.start_mm, cut.start_mm + cut.length_mm, cut.length_mm)
            yield [*head, cut.piece_id, *(f"{mm:.10g}" for mm in ends_mm)]
        left_mm = opened.offcut_mm or opened.scrap_mm
        if left_mm:
            what = "offcut" if opened.offcut_mm else "scrap"
            yield [*head, what, *(f"{mm:.10g}" for mm in (opened.length_mm - left_mm, opened.length_mm, left_mm))]
