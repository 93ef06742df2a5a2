"""`lineplan quote`: what a job costs, shown, printed, kept, or printed again."""

import json
import sys
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from typing import Any

from catalog import CatalogError, QuoteState, questions_of_shop, write_file
from planner import find_total_range
from ui.reports.refusals import refusals_as_sentences
from ui.shared.command_refused import CommandRefused
from ui.shared.days import day_named, time_zone_of, today_in
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
from ui.shared.job_keeping import SaveQuestion, keep_job_and
from ui.shared.planned_job import is_job_file
from ui.shared.planned_visit import Planned, find_planned_either, kept_either
from ui.shared.quote_paper import (
    QuotePaper,
    keep_paper,
    paper_as_record,
    paper_of_kept,
    quote_paper,
    quote_paper_pdf,
    verdict_of,
)
from ui.shared.state_words import state_of, told
from ui.shared.store_place import opened_store, who_saves
from ui.shared.target_files import Target, refuse_bad_targets


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteOutput:
    """What to make of a quote.

    pdf, csv : files to write; None for each that is not wanted
    replaces : whether files that are there may be lost
    page_size : of the paper; None for A4, or the size a kept quote was made for
    as_json : whether to print one object instead of text
    """

    pdf: Path | None = None
    csv: Path | None = None
    replaces: bool = False
    page_size: str | None = None
    as_json: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteQuestion:
    """What to quote.

    save : the job ("" for none), where its catalog and the store are, who asks, for whom
    number : a kept quote instead; None for a job
    move : the state to take the kept quote to; None to leave it
    though_old : whether a draft whose days are past may be handed over
    day_text : the day it is made; None for today
    shop_name : who quotes; "" for none
    owner_brings : whether the owner brings the new brake or line
    keeps : whether to keep it, with the job and its plan
    replaces : number of the kept quote it stands in for; None for none
    output : what to make of it
    """

    save: SaveQuestion
    number: int | None
    move: str | None
    though_old: bool
    day_text: str | None
    shop_name: str
    owner_brings: bool
    keeps: bool
    replaces: int | None
    output: QuoteOutput


def run_quote(question: QuoteQuestion) -> int:
    """Quote a job, or tell a kept quote again; returns the exit status."""
    with refusals_as_sentences():
        _refuse_mixed(question)
        _refuse_early(question.output)
        if question.number is not None:
            _hand_out(_kept_quote(question, question.number), question.output)
            return ExitStatus.DONE
        day_named(question.day_text, command="quote")  # a slip is told before anything is read
        planned, paper = _made_and_kept(question) if question.keeps else _made(question)
        for remark in (*planned.remarks, *questions_of_shop(planned.workshop.limits)):
            print(remark, file=sys.stderr)
        if paper is None:
            print(f"Nothing to quote. {verdict_of(planned.plan)}")
            return ExitStatus.NO_PLAN
        _hand_out(paper, question.output)
    return ExitStatus.DONE


def _refuse_mixed(question: QuoteQuestion) -> None:
    """A kept quote is told as it was made; what would make it another one does not go with its number."""
    save = question.save
    if question.number is None and not save.asked:
        given, allowed = "nothing was named", "a job file, the name of a saved job, or --number of a kept quote"
        raise CommandRefused(command="quote", option="job", given=given, allowed=allowed)
    anew: dict[str, object] = {
        "job": save.asked,
        "catalog": save.choice.paths,
        "bare": save.choice.is_bare,
        "date": question.day_text,
        "for": save.for_whom,
        "owner-brings": question.owner_brings,
        "save": question.keeps,
        "over": save.over,
    }
    alone: dict[str, object] = {} if question.keeps else {"replaces": question.replaces}
    alone |= {} if question.move else {"though-old": question.though_old}
    wrong: dict[str, object] = {"move": question.move} if question.number is None else anew
    partners = {
        "move": "together with --number",
        "replaces": "together with --save",
        "though-old": "together with --move",
    }
    for option, value in {**wrong, **alone}.items():
        if value:
            allowed = partners.get(option, "not together with --number")
            raise CommandRefused(command="quote", option=option, given="it was given", allowed=allowed)


def _kept_quote(question: QuoteQuestion, number: int) -> QuotePaper:
    """A kept quote, taken to its next state first where that was asked."""
    with opened_store(question.save.choice.place, creates=False) as store:
        kept, today = store.quotes.get(number), today_in(time_zone_of(store))
        if question.move is not None:
            to = state_of(question.move, QuoteState, command="quote")
            by = who_saves(question.save.by, command="quote")
            was, kept = (
                kept,
                store.quotes.move(
                    number,
                    to,
                    today=today,
                    based_on=kept.version,
                    by=by,
                    note=question.save.note,
                    though_old=question.though_old,
                ),
            )
            print(f"Quote {number}: {told(was.state)} → {told(kept.state)}.", file=sys.stderr)
    return paper_of_kept(kept, today=today)


def _refuse_early(output: QuoteOutput) -> None:
    refuse_bad_targets(
        Target(path=output.pdf, endings=(".pdf",), replaces=output.replaces),
        Target(path=output.csv, endings=(".csv",), replaces=output.replaces),
    )
    if output.pdf is not None:
        refuse_without("paper")


def _made(question: QuoteQuestion) -> tuple[Planned, QuotePaper | None]:
    planned = find_planned_either(question.save.asked, choice=question.save.choice)
    return planned, _paper(question, planned, day_named(question.day_text, command="quote"))


def _made_and_kept(question: QuoteQuestion) -> tuple[Planned, QuotePaper | None]:
    """The quote with its number; the job and its plan are kept with it, for it points at both: all or nothing."""
    save, by = question.save, who_saves(question.save.by, command="quote")
    day = day_named(question.day_text, command="quote")
    with opened_store(save.choice.place, creates=is_job_file(save.asked)) as store:

        def keep_quote(planned: Planned) -> QuotePaper | None:
            paper = _paper(question, planned, day)
            if paper is None:
                return None
            return keep_paper(store, paper, planned, replaces_id=question.replaces, by=by, note=save.note)

        if not is_job_file(save.asked) and not save.choice.paths:
            planned = kept_either(store, save.asked)  # as it was planned last, just as it is quoted without being kept
            if planned.plan_id is not None:
                return planned, keep_quote(planned)
        kept, paper = keep_job_and(store, save, by=by, also=keep_quote)
        return kept.planned, paper


def _paper(question: QuoteQuestion, planned: Planned, day: date | None) -> QuotePaper | None:
    return quote_paper(
        planned,
        for_whom=planned.for_whom if question.save.for_whom is None else question.save.for_whom.strip(),
        shop_name=question.shop_name.strip(),
        day=day or today_in(planned.workshop.limits.time_zone),
        page_size=question.output.page_size or "a4",
        charges_new_line=not question.owner_brings,
    )


def _hand_out(paper: QuotePaper, output: QuoteOutput) -> None:
    """Write the files asked for, then print; a kept quote whose file cannot be written says its number."""
    try:
        if output.pdf is not None:
            write_file(output.pdf, quote_paper_pdf(paper, page_size=output.page_size), replaces=output.replaces)
        if output.csv is not None:
            from planner import parts_csv

            write_file(output.csv, parts_csv(paper.quote), replaces=output.replaces)
    except CatalogError:
        if paper.number:
            print(f"The quote is kept as number {paper.number}.", file=sys.stderr)
        raise
    if output.as_json:
        print(json.dumps(_record(paper), indent=2, ensure_ascii=False))
        return
    from ui.reports.quote_report import print_quote

    print_quote(paper)


def _record(paper: QuotePaper) -> dict[str, Any]:
    from catalog import as_record

    about = {"number": paper.number or None, "state": paper.state or None}
    spread, told = find_total_range(quote=paper.quote), as_record(paper.quote)
    told["time"]["mean_min"] = float(paper.quote.time.mean_min)  # a measure like the others, no money
    return {**about, **told, "total_range": as_record(spread), "paper": paper_as_record(paper)}
