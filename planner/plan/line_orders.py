"""Lines that jobs take against the shop's stock: what the shelf gives, and which rolls or lengths to buy."""

from collections import Counter
from collections.abc import Iterable
from functools import lru_cache

from planner.plan.cut_list import find_cut_list
from planner.plan.cut_stock import CutList, Piece, StockLength, UncutPiece
from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class LineToCut:
    """A length of line that an open job takes and that did not come with it.

    line_id : in the catalog; "" where the line is not cut from stock: a wire, or one with an end set at the factory
    line_name : for people
    length_mm : to cut before it goes in, or at least to have; None where the plan has none [mm]
    job_id : which job
    """

    line_id: str
    line_name: str
    length_mm: float | None
    job_id: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RollsToBuy:
    """Rolls of one sort that the shop can have as often as it wants.

    stock_id : as in the stock file
    length_mm : of one [mm]
    count : rolls
    """

    stock_id: str
    length_mm: float
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class LineOrder:
    """One line: what open jobs take of it, what the shelf gives, what to buy.

    line_id, line_name : as in the catalog
    pieces : every length wanted, by job
    have : what lies on the shelf; None where no stock was told
    from_shelf : pieces that are cut from the shelf
    rolls : to buy
    lengths_mm : to buy each in one piece, for no roll that is told of gives them [mm]
    is_fewest : whether no way of cutting takes more pieces from the shelf, or fewer rolls
    """

    line_id: str
    line_name: str
    pieces: tuple[LineToCut, ...]
    have: tuple[StockLength, ...] | None = None
    from_shelf: int = 0
    rolls: tuple[RollsToBuy, ...] = ()
    lengths_mm: tuple[float, ...] = ()
    is_fewest: bool = True

    @property
    def need_mm(self) -> float:
        """All lengths that are known, together."""
        return sum(piece.length_mm for piece in self.pieces if piece.length_mm is not None)

    @property
    def is_short(self) -> bool:
        """Whether something is to be bought."""
        return bool(self.rolls or self.lengths_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Shelf:
    """What a shop cuts its lines from.

    lengths : rolls and offcuts; one without a quantity can be had as often as wanted and is bought, not there
    kerf_mm : what one cut takes [mm]
    """

    lengths: tuple[StockLength, ...] = ()
    kerf_mm: float = 0.0


def find_line_orders(lines: Iterable[LineToCut], *, shelf: Shelf | None) -> tuple[LineOrder, ...]:
    """For each line what the shelf gives, the most pieces first, and the fewest rolls for the rest.

    Returns by name; without a shelf every length is to be bought.

    shelf : None where no stock was told
    """
    wanted: dict[tuple[str, str], list[LineToCut]] = {}
    for line in lines:
        wanted.setdefault((line.line_name, line.line_id), []).append(line)
    return tuple(_order(tuple(pieces), shelf) for _, pieces in sorted(wanted.items()))


@lru_cache(maxsize=256)
def _order(pieces: tuple[LineToCut, ...], shelf: Shelf | None) -> LineOrder:
    first = pieces[0]
    known = [
        Piece(id=f"{n} {piece.job_id}", line_id=piece.line_id, length_mm=piece.length_mm)
        for n, piece in enumerate(pieces)
        if piece.length_mm is not None
    ]
    order = LineOrder(
        line_id=first.line_id,
        line_name=first.line_name,
        pieces=pieces,
        lengths_mm=tuple(piece.length_mm for piece in known),
    )
    if shelf is None or not first.line_id:
        return order
    there = [each for each in shelf.lengths if each.line_id == first.line_id and each.quantity is not None]
    sold = [each for each in shelf.lengths if each.line_id == first.line_id and each.quantity is None]
    cut = find_cut_list(pieces=known, stock=there, kerf_mm=shelf.kerf_mm)
    rest = tuple(_as_piece(one, first.line_id) for one in cut.uncut)
    bought = find_cut_list(pieces=rest, stock=sold, kerf_mm=shelf.kerf_mm)
    return LineOrder(
        line_id=first.line_id,
        line_name=first.line_name,
        pieces=pieces,
        have=tuple(there),
        from_shelf=len(known) - cut.uncut_n,
        rolls=_rolls(bought),
        lengths_mm=tuple(one.length_mm for one in bought.uncut for _ in range(one.quantity)),
        is_fewest=cut.is_proven and bought.is_proven,
    )


def _as_piece(one: UncutPiece, line_id: str) -> Piece:
    return Piece(id=one.piece_id, line_id=line_id, length_mm=one.length_mm, quantity=one.quantity)


def _rolls(bought: CutList) -> tuple[RollsToBuy, ...]:
    count = Counter((each.stock_id, each.length_mm) for each in bought.opened)
    return tuple(
        RollsToBuy(stock_id=stock_id, length_mm=length_mm, count=rolls)
        for (stock_id, length_mm), rolls in count.items()
    )
