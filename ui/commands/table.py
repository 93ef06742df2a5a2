"""`lineplan table`: every frame against every brake, a row each."""

import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from time import monotonic

from catalog import write_file
from planner import BYTE_ORDER_MARK, COLUMNS, Tally, csv_line
from planner.parts import FrameEnd
from ui.reports.refusals import refusals_as_sentences
from ui.shared.command_refused import CommandRefused
from ui.shared.exit_status import ExitStatus
from ui.shared.target_files import Target, refuse_bad_targets
from ui.table.asked import TableAsked, read_asked
from ui.table.make import brakes_by_look, decided
from ui.table.progress import Progress

ENDINGS = (".csv",)


@dataclass(frozen=True, slots=True, kw_only=True)
class TableQuestion:
    """What was asked.

    frames, brakes, catalogs : files and folders
    ends : which end of frames that come without a job
    to : the file of the table
    replaces : whether a file that is there may be lost
    is_bare : whether the starter catalog is left out
    """

    frames: tuple[Path, ...]
    brakes: tuple[Path, ...]
    catalogs: tuple[Path, ...]
    ends: str
    to: Path
    replaces: bool
    is_bare: bool


def run_table(question: TableQuestion) -> int:
    """Read, decide, write, tell what it comes to; returns the exit status."""
    with refusals_as_sentences():
        refuse_bad_targets(Target(path=question.to, endings=ENDINGS, replaces=question.replaces))
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
        tally = Tally()
        text = BYTE_ORDER_MARK + csv_line(COLUMNS) + "".join(_lines(asked, tally))
        write_file(question.to, text, replaces=question.replaces)
    from ui.reports.table_report import print_tally

    print_tally(tally, to=question.to)
    return ExitStatus.DONE


def _lines(asked: TableAsked, tally: Tally) -> Iterator[str]:
    brakes = brakes_by_look(asked.brakes)
    progress = Progress(whole_n=len(asked.cases), stream=sys.stderr, clock=monotonic)
    workshop = asked.catalog.workshop
    for case, answers in decided(cases=asked.cases, brakes=brakes, workshop=workshop, tell=progress.tell):
        brakes.count_into(tally, case, answers)
        yield from (csv_line(row) for row in brakes.rows(case, answers))
    progress.end()
