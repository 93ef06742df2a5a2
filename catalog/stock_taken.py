"""What cut lists took from the stock: the same list twice takes it once, and is told again just as it was cut."""

import json
from collections import Counter
from collections.abc import Collection
from dataclasses import replace
from datetime import date

from catalog.errors import CatalogError
from catalog.open_stock import Stock
from catalog.stock import TakenEntry, TakenPiece
from catalog.store_errors import StoreDamaged
from catalog.store_records import as_record, from_record
from planner import CutList, JobCuts

Piece = tuple[str, str, float]


class TakenNotReadable(CatalogError):  # noqa: N818
    """The note of a list that was cut before does not read as we wrote it."""

    def __init__(self, *, why: str) -> None:
        self.why = why
        super().__init__(f"the stock file's note of what was taken cannot be read ({why}); say --again to cut anew")


def pieces_of(cuts: JobCuts) -> "Counter[Piece]":
    """What is asked for: the jobs whose line is to be cut, each with its line and length; and own pieces."""
    wanted = Counter(
        (asked.job.id, asked.job.new.line.id, asked.cut_mm)
        for asked in cuts.jobs
        if asked.taken_from is not None and asked.cut_mm is not None
    )
    for piece in cuts.own:
        wanted[piece.id, piece.line_id, piece.length_mm] += piece.quantity
    return wanted


def taken_before(stock: Stock, cuts: JobCuts) -> tuple[date, JobCuts] | None:
    """The day on which just this list was cut, with its cuts as they were; None where it was not, or not to its end.

    Raises TakenNotReadable where the note of it cannot be read.
    """
    asked = pieces_of(cuts)
    for entry in reversed(stock.entries.taken):
        if entry.whole and _pieces_in(entry) == asked:
            try:
                cut_list = from_record(CutList, json.loads(entry.cuts))
            except (StoreDamaged, ValueError, TypeError) as problem:
                raise TakenNotReadable(why=getattr(problem, "why", str(problem))) from problem
            return date.fromisoformat(entry.on), replace(cuts, cut_list=cut_list)
    return None


def jobs_taken_before(stock: Stock, cuts: JobCuts) -> dict[str, date]:
    """The jobs of a list that were cut before to the same length, and when last."""
    asked: Collection[Piece] = pieces_of(cuts)
    return {
        piece[0]: date.fromisoformat(entry.on)
        for entry in stock.entries.taken
        for piece in _pieces_in(entry)
        if piece in asked
    }


def taken_entry(cuts: JobCuts, *, on: date) -> TakenEntry:
    """The note of what a list takes: of the pieces that it cuts, and of all its cuts."""
    cut_list = cuts.cut_list
    cut_ids = Counter(cut.piece_id for opened in cut_list.opened for cut in opened.cuts)
    return TakenEntry(
        on=on.isoformat(),
        pieces=(
            *(
                TakenPiece(job=asked.job.id, line=asked.job.new.line.id, length=asked.cut_mm)
                for asked in cuts.jobs
                if asked.label in cut_ids and asked.cut_mm is not None
            ),
            *(
                TakenPiece(job=piece.id, line=piece.line_id, length=piece.length_mm)
                for piece in cuts.own
                for _ in range(cut_ids[piece.id])
            ),
        ),
        whole=not cut_list.uncut,
        cuts=json.dumps(as_record(cut_list), ensure_ascii=False, separators=(",", ":")),
    )


def _pieces_in(entry: TakenEntry) -> "Counter[Piece]":
    return Counter((piece.job, piece.line, piece.length) for piece in entry.pieces)
