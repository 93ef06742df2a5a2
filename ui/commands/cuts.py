"""`lineplan cuts`: several jobs planned, their lines cut from as few rolls as possible, the stock that is left."""

import json
import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from catalog import (
    Catalog,
    CatalogProblems,
    EntryNotAccepted,
    Problem,
    Stock,
    jobs_taken_before,
    read_stock,
    taken_before,
)
from planner import JobCuts, PlannedLine, cuts_as_record, find_job_cuts, lines_to_cut
from planner.parts import Job, Visit
from ui.reports.refusals import refusals_as_sentences
from ui.shared.catalog_choice import CatalogChoice, chosen_catalog, tell_stand_ins
from ui.shared.command_refused import CommandRefused
from ui.shared.cut_files import CutFiles, refuse_bad_cut_files, write_cut_files
from ui.shared.days import today_in
from ui.shared.exit_status import ExitStatus
from ui.shared.planned_visit import find_job_or_visit


@dataclass(frozen=True, slots=True, kw_only=True)
class CutsQuestion:
    """What was asked.

    asked : job files and names of saved jobs, one or several, each of one line or of several; the same twice is cut
        twice
    choice : the catalog, and the store
    stock_file : what there is to cut from
    uses_supplied : whether a line supplied with its job is used where it is long enough
    again : whether what was cut before is cut once more
    files : what to write
    """

    asked: tuple[str, ...]
    choice: CatalogChoice
    stock_file: Path
    uses_supplied: bool
    again: bool
    files: CutFiles


def run_cuts(question: CutsQuestion, *, as_json: bool) -> int:
    """Plan the jobs, find the cuts, write the files asked for, and print; returns the exit status."""
    with refusals_as_sentences():
        refuse_bad_cut_files(question.files, stock_file=question.stock_file)
        catalog = chosen_catalog(question.choice)
        tell_stand_ins(catalog)
        read, stock = _read_all(question, catalog)
        jobs = [line for asked in read for line in asked]
        files = [name for name, asked in zip(question.asked, read, strict=True) for _ in asked]
        cuts = find_job_cuts(
            jobs=jobs,
            workshop=catalog.workshop,
            stock=stock.lengths,
            kerf_mm=stock.kerf_mm,
            keep_offcut_from_mm=stock.keep_offcut_from_mm,
            uses_supplied=question.uses_supplied,
        )
        today = today_in(catalog.workshop.limits.time_zone)
        before = None if question.again else taken_before(stock, cuts)
        if before is not None:
            taken_on, cuts = before
            print(_taken_words(taken_on), file=sys.stderr)
        elif not question.again:
            _mind_what_was_cut(question, jobs_taken_before(stock, cuts))
        write_cut_files(
            question.files,
            cuts=cuts,
            stock=stock,
            stock_file=question.stock_file,
            catalog=catalog,
            taken_on=None if before is not None else today,
        )
    if as_json:
        taken_text = None if before is None else before[0].isoformat()
        print(json.dumps({**_record(cuts, files, catalog), "taken_on": taken_text}, indent=2, ensure_ascii=False))
    else:
        from ui.reports.cuts_report import print_cuts

        print_cuts(cuts, files=files, catalog=catalog)
    return ExitStatus.DONE if cuts.is_complete else ExitStatus.NO_PLAN


def _taken_words(day: date) -> str:
    return (
        f"This list was cut on {day}, and is told as it was cut; the stock stays as it is. "
        "--again cuts it once more, from the stock as it is now."
    )


def _mind_what_was_cut(question: CutsQuestion, days: Mapping[str, date]) -> None:
    """Jobs that another list has cut: a remark where one only looks, a refusal where stock would be taken twice."""
    if not days:
        return
    told = ", ".join(f"{job} on {day}" for job, day in days.items())
    if question.files.stock is not None:
        allowed = "the other jobs, or --again to cut these once more"
        raise CommandRefused(command="cuts", option="job", given=f"already cut: {told}", allowed=allowed)
    print(f"Already cut, and here once more: {told}.", file=sys.stderr)


def _read_all(question: CutsQuestion, catalog: Catalog) -> tuple[list[Sequence[Job | PlannedLine]], Stock]:
    """What each job asks to be cut, and the stock; what is wrong in any of the files is told at once."""
    problems: list[Problem] = []
    jobs: list[Job | Visit] = []
    stock: Stock | None = None
    for asked in question.asked:
        try:
            jobs.append(find_job_or_visit(asked, catalog=catalog, place=question.choice.place))
        except EntryNotAccepted as refusal:
            problems.extend(refusal.problems)
    try:
        stock = read_stock(question.stock_file, catalog)
    except EntryNotAccepted as refusal:
        problems.extend(refusal.problems)
    if stock is None or problems:
        raise CatalogProblems(tuple(dict.fromkeys(problems)))
    workshop = catalog.workshop
    lines = (lines_to_cut(visit=job, workshop=workshop) if isinstance(job, Visit) else (job,) for job in jobs)
    return list(lines), stock


def _record(cuts: JobCuts, files: Sequence[str], catalog: Catalog) -> dict[str, Any]:
    record = cuts_as_record(cuts)
    record["currency"] = catalog.workshop.limits.currency
    for job, asked in zip(record["jobs"], files, strict=True):
        job["file"] = asked
    return record
