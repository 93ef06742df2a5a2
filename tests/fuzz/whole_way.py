"""The whole way through the program, as the commands take it: read, check, plan, draw, print."""

import json
from collections.abc import Sequence
from contextlib import redirect_stdout
from functools import lru_cache
from io import StringIO
from pathlib import Path
from xml.etree import ElementTree

from catalog import Catalog, EntryNotAccepted, check_files, read_catalog, read_job, read_stock, told_in_lines
from catalog.open_catalog import contents_of
from catalog.open_job import known_things, opened_job
from catalog.open_stock import opened_stock
from catalog.read_files import read_document
from planner import (
    RoutingPlan,
    cut_label_pdf,
    cuts_as_record,
    draw_cut_list,
    find_job_cuts,
    job_card_pdf,
    label_of_plan,
    make_quote,
    parts_csv,
    plan_as_record,
    plan_job,
    quote_pdf,
    verdict_sentence,
)
from planner.parts import Job, Workshop
from ui.reports.plan_report import print_plan
from ui.shared.plan_pictures import pictures_of


def follow(
    catalog_files: Sequence[Path], job_file: Path | None, stock_file: Path | None, *, plans: bool, prints: bool
) -> str:
    """How far some files come, in a word: refused, read, cut, or the outcome of their plan.

    Whatever is wrong with them must be told by the check; what the check finds sound must be read.

    plans, prints : how far a sound job is followed
    """
    job_files = [] if job_file is None else [job_file]
    stock_files = [] if stock_file is None else [stock_file]
    problems = check_files([*catalog_files, *job_files, *stock_files])
    lines = told_in_lines(problems)
    assert all("\n" not in line for line in lines)
    try:
        catalog = read_catalog(list(catalog_files))
        if job_file is None:
            assert not problems
            return "read"
        job = read_job(job_file, catalog)
        stock = None if stock_file is None else read_stock(stock_file, catalog)
    except EntryNotAccepted as refusal:
        is_seen_as_meant = (job_file is None or read_document(job_file).is_job) and (
            stock_file is None or read_document(stock_file).is_stock
        )
        if not problems and is_seen_as_meant:  # else the check took it for an empty catalog file
            raise AssertionError("the check found nothing wrong, but reading did") from refusal
        return "refused"
    if not plans:
        return "read"
    if stock is None:
        plan = plan_job(job=job, workshop=catalog.workshop)
        tell(plan, job)
        if prints:
            print_paper(plan, job, catalog.workshop)
        return plan.outcome.word
    cuts = find_job_cuts(
        jobs=[job],
        workshop=catalog.workshop,
        stock=stock.lengths,
        kerf_mm=stock.kerf_mm,
        keep_offcut_from_mm=stock.keep_offcut_from_mm,
    )
    json.dumps(cuts_as_record(cuts), allow_nan=False)
    ElementTree.fromstring(draw_cut_list(cuts.cut_list).svg)
    return "cut"


@lru_cache(maxsize=1)
def _starter() -> Catalog:
    return read_catalog()


def check_alone(path: Path) -> str:
    """What is wrong with one file by itself, in a word; jobs and stock are held against the starter catalog."""
    document = read_document(path)
    if document.is_job:
        problems = opened_job(document, known=known_things(_starter()))[1]
    elif document.is_stock:
        problems = opened_stock(document, line_ids=_starter().lines)[1]
    else:
        problems = list(contents_of([document]).problems)
    assert all("\n" not in line for line in told_in_lines(problems))
    return "wrong" if problems else "sound"


def tell(plan: RoutingPlan, job: Job) -> None:
    """Everything that is shown of a plan: record, sentence, report, pictures."""
    json.dumps(plan_as_record(plan), allow_nan=False)
    assert verdict_sentence(plan).strip()
    with redirect_stdout(StringIO()):
        print_plan(plan)
    for picture in pictures_of(plan, job).values():
        ElementTree.fromstring(picture.svg)


def print_paper(plan: RoutingPlan, job: Job, workshop: Workshop) -> None:
    """Everything that is printed: the card, the label, the parts, the quote."""
    assert job_card_pdf(plan=plan, frame=job.frame, date_text="2026-01-01").startswith(b"%PDF")
    label = label_of_plan(plan)
    if label is not None:
        assert cut_label_pdf(labels=[label]).startswith(b"%PDF")
    parts_csv(plan)
    quote = make_quote(job=job, plan=plan, workshop=workshop)
    if quote is not None:
        assert quote_pdf(quote=quote).startswith(b"%PDF")
        parts_csv(quote)
