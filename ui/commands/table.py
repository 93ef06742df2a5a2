"""`lineplan table`: every frame against every brake, a row each."""

import os
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path
from time import monotonic

from catalog import write_pieces
from planner import Tally
from planner.parts import FrameEnd
from ui.reports.refusals import refusals_as_sentences
from ui.shared.command_refused import CommandRefused
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
from ui.shared.target_files import Target, refuse_bad_targets
from ui.table.asked import TableAsked, read_asked
from ui.table.make import Row, brakes_by_look, decide_table
from ui.table.plain_text import Refused
from ui.table.progress import Progress
from ui.table.rows_file import CSV, PARQUET, pieces_of
from ui.table.workers import Workers, cluster, processes, this_process

FEW = 8
"""So few frames are done before another process has begun."""

CLUSTER_N = 8
"""Workers that chunks are made for where nobody knows how many a cluster has."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TableQuestion:
    """What was asked.

    frames, brakes, catalogs : files and folders
    ends : which end of frames that come without a job
    to : the file of the table
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
    replaces: bool
    is_bare: bool
    processes_n: int | None
    scheduler: str


@dataclass(slots=True, kw_only=True)
class _Told:
    """What is told at the end.

    refused : cases that could not be decided
    """

    tally: Tally = field(default_factory=Tally)
    refused: list[Refused] = field(default_factory=list)


def run_table(question: TableQuestion) -> int:
    """Read, decide, write, tell what it comes to; returns the exit status."""
    told = _Told()
    with refusals_as_sentences():
        refuse_bad_targets(Target(path=question.to, endings=(CSV, PARQUET), replaces=question.replaces))
        if question.to.suffix.lower() == PARQUET:
            refuse_without("table")
        if question.scheduler:
            refuse_without("cluster")
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
        write_pieces(question.to, pieces_of(question.to, _rows(asked, question, told)), replaces=question.replaces)
    from ui.reports.table_report import print_tally

    print_tally(told.tally, to=question.to)
    for refused in told.refused:
        print(f"{refused.case_id}: {refused.why}", file=sys.stderr)
    return ExitStatus.NO_PLAN if told.refused else ExitStatus.DONE


def parts_folder_of(to: Path) -> Path:
    """Where the answers of a table are kept, beside its file."""
    return to.with_name(f"{to.name}.parts")


def _rows(asked: TableAsked, question: TableQuestion, told: _Told) -> Iterator[Row]:
    brakes = brakes_by_look(asked.brakes)
    progress = Progress(whole_n=len(asked.cases), stream=sys.stderr, clock=monotonic)
    workers, workers_n = _workers(question, len(asked.cases))
    decided = decide_table(
        cases=asked.cases,
        brakes=brakes,
        workshop=asked.catalog.workshop,
        folder=parts_folder_of(question.to),
        workers=workers,
        workers_n=workers_n,
        tell=progress.tell,
    )
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
    several = question.processes_n or (1 if cases_n <= FEW else os.cpu_count() or 1)
    return (this_process, 1) if several == 1 else (processes(several), several)
