"""`lineplan table`: every frame against every brake, a row each, in a file or in the store."""

import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from time import monotonic

from catalog import write_pieces
from planner import Tally, printable_line
from planner.parts import FrameEnd
from ui.reports.refusals import refusals_as_sentences
from ui.shared.command_refused import CommandRefused
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
from ui.shared.store_place import opened_store, who_saves
from ui.shared.target_files import Target, refuse_bad_targets
from ui.table.asked import TableAsked, read_asked
from ui.table.make import Row, brakes_by_look, decide_table, question_of
from ui.table.parts_folder import PartsFolder
from ui.table.plain_text import Refused
from ui.table.progress import Progress
from ui.table.rows_file import CSV, PARQUET, pieces_of
from ui.table.workers import Workers, cluster, workers_here

CLUSTER_N = 8
"""Workers that chunks are made for where nobody knows how many a cluster has."""

STORE = Path("store")
"""Stands for the store where a file could be named."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TableQuestion:
    """What was asked.

    frames, brakes, catalogs : files and folders
    ends : which end of frames that come without a job
    to : the file of the table, or STORE
    place : the store
    by, note : who makes it, and why, for the store
    replaces : whether a file that is there may be lost
    is_bare : whether the starter catalog is left out
    processes_n : how many work on it; None for as many as there are cores
    scheduler : address of a cluster's; "" for this machine
    """

    frames: tuple[Path, ...]
    brakes: tuple[Path, ...]
    catalogs: tuple[Path, ...]
    ends: str
    to: Path
    place: str
    by: str | None
    note: str
    replaces: bool
    is_bare: bool
    processes_n: int | None
    scheduler: str


@dataclass(slots=True, kw_only=True)
class _Told:
    """What is told at the end.

    where : where the rows are, to stand after a comma
    refused : cases that could not be decided
    """

    where: str = ""
    tally: Tally = field(default_factory=Tally)
    refused: list[Refused] = field(default_factory=list)


def run_table(question: TableQuestion) -> int:
    """Read, decide, write or keep, tell what it comes to; returns the exit status."""
    with refusals_as_sentences():
        _refuse_what_cannot_be(question)
        asked = read_asked(
            frames=question.frames,
            brakes=question.brakes,
            catalogs=question.catalogs,
            ends=FrameEnd(question.ends),
            is_bare=question.is_bare,
        )
        if not asked.brakes:
            given, allowed = "the catalog has no brakes", "--brakes FILE, or a catalog that has some"
            raise CommandRefused(command="table", option="brakes", given=given, allowed=allowed)
        told = _kept(asked, question) if question.to == STORE else _written(asked, question)
    from ui.reports.table_report import print_tally

    print_tally(told.tally, where=told.where, names=asked)
    for refused in told.refused:
        print(f"{refused.case_id}: {refused.why}", file=sys.stderr)
    return ExitStatus.NO_PLAN if told.refused else ExitStatus.DONE


def _refuse_what_cannot_be(question: TableQuestion) -> None:
    if question.to == STORE:
        refuse_without("store")
    else:
        refuse_bad_targets(Target(path=question.to, endings=(CSV, PARQUET), replaces=question.replaces))
        if question.to.suffix.lower() == PARQUET:
            refuse_without("table")
    if question.scheduler:
        refuse_without("cluster")


def _kept(asked: TableAsked, question: TableQuestion) -> _Told:
    from ui.table.keep import keep_table

    by = who_saves(question.by, command="table")
    workers, workers_n = _workers(question, len(asked.cases))
    progress = Progress(whole_n=len(asked.cases), stream=sys.stderr, clock=monotonic)
    with opened_store(question.place, creates=True) as store:
        made = keep_table(
            asked, store, by=by, note=question.note, workers=workers, workers_n=workers_n, tell=progress.tell
        )
        shown = printable_line(str(store.place))
    progress.end()
    kept = "kept" if made.is_new else "kept before"
    where = f"{kept} as table {made.brief.id} in {shown}"
    return _Told(where=where, tally=made.tally, refused=list(made.refused))


def _written(asked: TableAsked, question: TableQuestion) -> _Told:
    told = _Told(where=f"a row each in {question.to}")
    write_pieces(question.to, pieces_of(question.to, _rows(asked, question, told)), replaces=question.replaces)
    return told


def parts_folder_of(to: Path) -> Path:
    """Where the answers of a table are kept, beside its file."""
    return to.with_name(f"{to.name}.parts")


def _rows(asked: TableAsked, question: TableQuestion, told: _Told) -> Iterator[Row]:
    brakes = brakes_by_look(asked.brakes)
    progress = Progress(whole_n=len(asked.cases), stream=sys.stderr, clock=monotonic)
    workers, workers_n = _workers(question, len(asked.cases))
    whole = question_of(cases=asked.cases, brakes=brakes, workshop=asked.workshop)
    parts = PartsFolder(parts_folder_of(question.to), whole.run)
    decided = decide_table(whole, parts=parts, workers=workers, workers_n=workers_n, tell=progress.tell)
    for case, answers in decided:
        if isinstance(answers, Refused):
            told.refused.append(answers)
        else:
            brakes.count_into(told.tally, case, answers)
            yield from brakes.rows(case, answers)
    progress.end()


def _workers(question: TableQuestion, cases_n: int) -> tuple[Workers, int]:
    if question.scheduler:
        return cluster(question.scheduler), CLUSTER_N
    return workers_here(cases_n, processes_n=question.processes_n)
