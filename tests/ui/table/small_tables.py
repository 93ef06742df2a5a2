"""Tables small enough to be made many times, in a file or in the store."""

from pathlib import Path

from planner.parts import Case, LineEnd, OldLine, Workshop
from tests.builders import make_lane_frame, make_workshop
from tests.planner.table.realistic import brakes_of
from ui.table.asked import TableAsked
from ui.table.make import Brakes, Question, Row, brakes_by_look, decide_table, question_of
from ui.table.parts_folder import PartsFolder
from ui.table.plain_text import Refused
from ui.table.rows_file import pieces_of
from ui.table.workers import Workers, this_process

WORKSHOP: Workshop = make_workshop()
BRAKES: Brakes = brakes_by_look(brakes_of(4))


def small_cases(several: int) -> list[Case]:
    """So many frames of two lanes, the holes of each a little wider than of the one before."""
    return [
        Case(
            id=f"case-{number}",
            frame=make_lane_frame((5.0 + number / 10, 9.0), (9.0, 4.0 + number / 10)),
            from_anchor_id="start",
            to_anchor_id="end",
            old=OldLine(line=brakes_of(1)[0].line, from_end=LineEnd(), to_end=LineEnd()),
        )
        for number in range(several)
    ]


def asked_of(cases: list[Case]) -> Question:
    """Cases against the small tables' brakes."""
    return question_of(cases=cases, brakes=BRAKES, workshop=WORKSHOP)


def asked_table(cases: list[Case]) -> TableAsked:
    """The same, as it is read from files."""
    return TableAsked(workshop=WORKSHOP, cases=tuple(cases), brakes=BRAKES.all)


def table_bytes(
    cases: list[Case],
    folder: Path,
    *,
    workers: Workers = this_process,
    workers_n: int = 1,
    done: list[int] | None = None,
) -> bytes:
    """The rows of a table as they stand in its file.

    done : gets how many cases were done each time that was told
    """
    told = [] if done is None else done
    rows: list[Row] = []
    question = asked_of(cases)
    parts = PartsFolder(folder, question.run)
    for case, answers in decide_table(question, parts=parts, workers=workers, workers_n=workers_n, tell=told.append):
        assert not isinstance(answers, Refused)
        rows += BRAKES.rows(case, answers)
    return b"".join(pieces_of(Path("table.csv"), rows))
