"""The manners of every look at once, with the numbers that one pass over a case works with."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from planner.parts import Case, Line, Workshop, job_of_pair
from planner.table.looks import Looks, each_once
from planner.table.manners import Manner, find_manners
from planner.table.pieces import Array, PieceBook


@dataclass(frozen=True, slots=True, kw_only=True)
class MannerTable:
    """Every manner of every look's way class; a row for each whose joint can be made.

    manners : by way class, all of them
    rows : (way class, manner) of each row, class by class
    first_row : for each way class its first row, and behind the last one their number
    general : outcome of each row's ends and joint
    joint, fitting, line : for each row, the places of its pieces among `pieces`, and of its line among `lines`
    pieces : numbers of the pieces; a place behind the last stands for nothing
    lines : each different line once
    """

    manners: tuple[tuple[Manner, ...], ...]
    rows: tuple[tuple[int, Manner], ...]
    first_row: tuple[int, ...]
    general: Array
    joint: Array
    fitting: Array
    line: Array
    pieces: Array
    lines: tuple[Line, ...]


def find_manner_table(*, case: Case, looks: Looks, workshop: Workshop, book: PieceBook) -> MannerTable:
    """The manners of all looks on cases in which the same lies.

    case : any of these
    """
    manners = tuple(find_manners(job_of_pair(case=case, brake=look), workshop) for look in looks.ways)
    lines, line_of = each_once(look.line for look in looks.ways)
    rows = [(number, manner) for number, some in enumerate(manners) for manner in some if manner.mover is not None]
    counts = np.bincount([number for number, _ in rows], minlength=len(manners)) if rows else np.zeros(len(manners))
    joints = [book.number(manner.joint) for _, manner in rows if manner.joint is not None]
    fittings = [-1 if manner.fitting is None else book.number(manner.fitting) for _, manner in rows]
    pieces = np.unique(np.array([number for number in (*joints, *fittings) if number >= 0], dtype=np.intp))
    return MannerTable(
        manners=manners,
        rows=tuple(rows),
        first_row=(0, *np.cumsum(counts).astype(int).tolist()),
        general=np.array([manner.outcome for _, manner in rows], np.int8),
        joint=_places(joints, pieces),
        fitting=_places(fittings, pieces),
        line=np.array([line_of[number] for number, _ in rows], dtype=np.intp),
        pieces=pieces,
        lines=lines,
    )


def _places(numbers: Sequence[int], pieces: Array) -> Array:
    """Where some numbers stand among the pieces; nothing stands behind the last."""
    found = np.array(numbers, dtype=np.intp)
    return np.where(found < 0, len(pieces), np.searchsorted(pieces, found))
