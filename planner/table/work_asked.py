"""Whose plans may run out of work: a plan counts what its questions about holes cost, a table asks each once for all.

Every question that a plan asks before it has chosen its way is counted here, and a few more: what stays below the
shop's allowance is answered alike by both; what may go beyond it is left to the plan, for there the order decides.
"""

from collections.abc import Iterable

import numpy as np

from planner.parts import Job
from planner.routing.run_graph import LEAVE, RunState
from planner.table.manner_table import MannerTable
from planner.table.pieces import Array, PlaceAnswers
from planner.table.places import PlaceBook
from planner.table.steps import rooms_of_port, rooms_of_run


def classes_beyond_work(
    *, job: Job, graph: Iterable[RunState], table: MannerTable, ride: Array, book: PlaceBook, whole_rows: int | None
) -> frozenset[int]:
    """Way classes whose plans may cost more than a shop allows.

    job : any job of the case
    graph : every step that a plan asks about, also those on no way
    ride : numbers of the table's lines as pieces
    whole_rows : the shop's allowance; None for any number
    """
    if whole_rows is None:
        return frozenset()
    drawn, ridden = _places_met(job, graph, book)
    by_piece, by_line = _rows(drawn, table.pieces), _rows(ridden, ride)
    if by_piece.sum() + by_line.sum() <= whole_rows:
        return frozenset()
    with_nothing = np.append(by_piece, 0)
    return frozenset(
        look
        for look, (first, last) in enumerate(zip(table.first_row, table.first_row[1:], strict=False))
        if _rows_of_class(table, with_nothing, by_line, slice(first, last)) > whole_rows
    )


def _places_met(
    job: Job, graph: Iterable[RunState], book: PlaceBook
) -> tuple[Iterable[PlaceAnswers], Iterable[PlaceAnswers]]:
    """Each different hole, guide and cavity once: while drawing, and while riding."""
    states = [state for state in graph if state != LEAVE]
    ports = [job.frame.ports.get(place) for place in dict.fromkeys(state.place for state in states)]
    runs = [job.frame.runs[run_id] for run_id in dict.fromkeys(state.run_id for state in states)]
    rooms = [rooms_of_port(job, port) for port in ports if port is not None]
    rooms += [found for run in runs if (found := rooms_of_run(job, run)) is not None]
    drawn, ridden = (
        {id(answers): answers for answers in (book.hole(room[moment], beside) for room, beside in rooms)}
        for moment in (0, 1)
    )
    return drawn.values(), ridden.values()


def _rows(places: Iterable[PlaceAnswers], numbers: Array) -> Array:
    found: Array = sum((place.rows_of(numbers) for place in places), np.zeros(len(numbers), np.int64))
    return found


def _rows_of_class(table: MannerTable, by_piece: Array, by_line: Array, rows: slice) -> int:
    pieces = np.unique(np.concatenate([table.joint[rows], table.fitting[rows]]))
    return int(by_piece[pieces].sum() + by_line[np.unique(table.line[rows])].sum())
