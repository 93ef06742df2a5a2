"""`lineplan cuts`: several jobs planned, their lines cut from as few rolls as possible, the stock that is left."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from catalog import Catalog, CatalogProblems, EntryNotAccepted, Problem, Stock, read_catalog, read_job, read_stock
from planner import JobCuts, cuts_as_record, find_job_cuts
from planner.parts import Job
from ui.reports.refusals import refusals_as_sentences
from ui.shared.cut_files import CutFiles, refuse_bad_cut_files, write_cut_files
from ui.shared.exit_status import ExitStatus


@dataclass(frozen=True, slots=True, kw_only=True)
class CutsQuestion:
    """What was asked.

    job_files : one or several; the same twice is cut twice
    stock_file : what there is to cut from
    uses_supplied : whether a line supplied with its job is used where it is long enough
    files : what to write
    """

    job_files: tuple[Path, ...]
    stock_file: Path
    uses_supplied: bool
    files: CutFiles


def run_cuts(question: CutsQuestion, catalog_paths: list[Path] | None, *, as_json: bool) -> int:
    """Plan the jobs, find the cuts, write the files asked for, and print; returns the exit status."""
    with refusals_as_sentences():
        refuse_bad_cut_files(question.files, stock_file=question.stock_file)
        catalog = read_catalog(catalog_paths or None)
        jobs, stock = _read_all(question, catalog)
        cuts = find_job_cuts(
            jobs=jobs,
            workshop=catalog.workshop,
            stock=stock.lengths,
            kerf_mm=stock.kerf_mm,
            keep_offcut_from_mm=stock.keep_offcut_from_mm,
            uses_supplied=question.uses_supplied,
        )
        write_cut_files(question.files, cuts=cuts, stock=stock, stock_file=question.stock_file, catalog=catalog)
    if as_json:
        print(json.dumps(_record(cuts, question, catalog), indent=2, ensure_ascii=False))
    else:
        from ui.reports.cuts_report import print_cuts

        print_cuts(cuts, files=question.job_files, catalog=catalog)
    return ExitStatus.DONE if cuts.is_complete else ExitStatus.NO_PLAN


def _read_all(question: CutsQuestion, catalog: Catalog) -> tuple[list[Job], Stock]:
    """Every job and the stock; what is wrong in any of the files is told at once."""
    problems: list[Problem] = []
    jobs: list[Job] = []
    stock: Stock | None = None
    for file in question.job_files:
        try:
            jobs.append(read_job(file, catalog))
        except EntryNotAccepted as refusal:
            problems.extend(refusal.problems)
    try:
        stock = read_stock(question.stock_file, catalog)
    except EntryNotAccepted as refusal:
        problems.extend(refusal.problems)
    if stock is None or problems:
        raise CatalogProblems(tuple(dict.fromkeys(problems)))
    return jobs, stock


def _record(cuts: JobCuts, question: CutsQuestion, catalog: Catalog) -> dict[str, Any]:
    record = cuts_as_record(cuts)
    record["currency"] = catalog.workshop.limits.currency
    for job, file in zip(record["jobs"], question.job_files, strict=True):
        job["file"] = str(file)
    return record
