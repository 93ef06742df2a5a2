"""Everything that moves through frames, told by its size alone, and what one place answers about each."""

from collections.abc import Callable, Iterable
from typing import Any, NamedTuple, TypeAlias

import numpy as np

from planner.geometry.packing.work import ROWS_OF_A_QUESTION
from planner.verdicts import Check, Outcome, Thing, ThingKind

Array: TypeAlias = np.ndarray[Any, Any]


class Piece(NamedTuple):
    """A round thing by its sizes.

    diameter_mm, tolerance_mm, rigid_length_mm : as of a thing
    """

    diameter_mm: float
    tolerance_mm: float
    rigid_length_mm: float

    @property
    def thing(self) -> Thing:
        """As places are asked about it; what it is called changes no answer."""
        return Thing(
            id="",
            kind=ThingKind.OTHER,
            diameter_mm=self.diameter_mm,
            tolerance_mm=self.tolerance_mm,
            rigid_length_mm=self.rigid_length_mm,
        )


def piece_of(thing: Thing) -> Piece:
    """A thing by its sizes."""
    return Piece(thing.diameter_mm, thing.tolerance_mm, thing.rigid_length_mm)


class PieceBook:
    """All pieces met so far, numbered."""

    def __init__(self) -> None:
        self._numbers: dict[Piece, int] = {}
        self.pieces: list[Piece] = []
        self._sizes: Array = np.empty((0, 3))

    def number(self, piece: Piece) -> int:
        """The number of a piece; a new one for one not met before."""
        found = self._numbers.get(piece)
        if found is None:
            found = self._numbers[piece] = len(self.pieces)
            self.pieces.append(piece)
        return found

    def sizes(self) -> Array:
        """Diameter, tolerance and stiff length of every piece by its number. [mm]"""
        if len(self._sizes) != len(self.pieces):
            self._sizes = np.array(self.pieces, dtype=float).reshape(-1, 3)
        return self._sizes


NOT_ASKED = -1


class PlaceAnswers:
    """What one place answers about pieces: outcome, and what is missing; each piece is asked about once.

    What is missing is a clearance turned round, 0 where there is none, as misses are put in order by.
    """

    def __init__(
        self,
        book: PieceBook,
        ask: Callable[[Thing], tuple[Check, int]],
        closed: Callable[[Array], tuple[Array, Array]] | None,
    ) -> None:
        """Nothing is asked yet.

        ask : asks about one thing; tells too what that cost, as a plan counts it
        closed : nominal and worst clearance of many sizes at once, where they follow in closed form
        """
        self._book, self._ask, self._closed = book, ask, closed
        self._outcomes: Array = np.empty(0, np.int8)
        self._missing_mm: Array = np.empty(0)
        self._rows: Array = np.empty(0, np.int64)

    def of(self, numbers: Array) -> tuple[Array, Array]:
        """Outcome and what is missing of these pieces."""
        if len(self._outcomes) < len(self._book.pieces):
            self._grow()
        for number in np.unique(numbers[self._outcomes[numbers] == NOT_ASKED]).tolist():
            check, self._rows[number] = self._ask(self._book.pieces[number].thing)
            self._outcomes[number], self._missing_mm[number] = check.outcome, missing_mm(check)
        return self._outcomes[numbers], self._missing_mm[numbers]

    def rows_of(self, numbers: Array) -> Array:
        """What it cost to ask about these pieces, as a plan counts it. [rows]"""
        self.of(numbers)
        found: Array = self._rows[numbers]
        return found

    def _grow(self) -> None:
        before, now = len(self._outcomes), len(self._book.pieces)
        outcomes, missing = np.full(now, NOT_ASKED, np.int8), np.zeros(now)
        rows = np.full(now, ROWS_OF_A_QUESTION, np.int64)  # what follows in closed form looks at no row beside
        outcomes[:before], missing[:before], rows[:before] = self._outcomes, self._missing_mm, self._rows
        if self._closed is not None:
            outcomes[before:], missing[before:] = self._closed(self._book.sizes()[before:])
        self._outcomes, self._missing_mm, self._rows = outcomes, missing, rows


def missing_mm(check: Check) -> float:
    """What is missing at a place, as misses are put in order by; 0 where nobody knows."""
    return 0.0 if check.clearance_mm is None else -check.clearance_mm


def numbers_of(pieces: Iterable[Piece], book: PieceBook) -> Array:
    """The numbers of some pieces."""
    return np.array([book.number(piece) for piece in pieces], dtype=np.intp)


def outcomes_of(*, nominal_mm: Array, worst_mm: Array, running_clearance_mm: float) -> Array:
    """The outcomes of many clearances, as `fit_outcome_of` tells that of one. [no unit]"""
    passes = np.where(worst_mm >= running_clearance_mm, Outcome.FITS, Outcome.TIGHT)
    return np.where(nominal_mm < 0, Outcome.NO_FIT, passes).astype(np.int8)
