"""Pieces, stock, and the cut list made of them (data only)."""

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """Pieces wanted of one length.

    id : the job or leg it is for
    line_id : the line it is cut from
    length_mm : cut length [mm]
    quantity : how many
    """

    id: str
    line_id: str
    length_mm: float
    quantity: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class StockLength:
    """Rolls, supplied lengths or offcuts to cut from.

    id : as on the shelf
    line_id : the line it is
    length_mm : of one [mm]
    quantity : how many there are; None for as many as wanted
    is_offcut : whether it is left from earlier work: using one up opens no roll
    price : of one; None when not priced
    """

    id: str
    line_id: str
    length_mm: float
    quantity: int | None = None
    is_offcut: bool = False
    price: Decimal | None = None


class WhyUncut(StrEnum):
    """Why a piece cannot be cut."""

    NO_STOCK = "no_stock"
    TOO_LONG = "too_long"
    USED_UP = "used_up"


@dataclass(frozen=True, slots=True, kw_only=True)
class UncutPiece:
    """Pieces the stock does not give.

    piece_id, length_mm, quantity : which, and how many of them [mm]
    why : no stock of this line, longer than the longest of it, or the stock is used up
    longest_mm : the longest stock of this line; None where there is none [mm]
    """

    piece_id: str
    length_mm: float
    quantity: int
    why: WhyUncut
    longest_mm: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cut:
    """One piece, in the order it is cut.

    piece_id : which
    start_mm, length_mm : from the free end of the stock [mm]
    """

    piece_id: str
    start_mm: float
    length_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenedLength:
    """One length of stock and how it is cut, first cut first.

    stock_id, line_id, length_mm, is_offcut : the stock [mm]
    cuts : in order from its free end
    offcut_mm : end piece to keep; 0 where none is kept [mm]
    scrap_mm : end piece too short to keep [mm]
    saw_mm : lost in the cuts [mm]
    """

    stock_id: str
    line_id: str
    length_mm: float
    is_offcut: bool
    cuts: tuple[Cut, ...]
    offcut_mm: float
    scrap_mm: float
    saw_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CutList:
    """What to cut from what.

    opened : every length of stock to open, with its cuts
    uncut : pieces the stock does not give, with the reason
    rolls_used : lengths opened that are not offcuts
    lower_bound : no way of cutting that leaves no more uncut opens fewer
    is_proven : whether rolls_used, and the number of pieces left uncut, is proven to be the least
    is_length_proven, is_waste_proven : the same for the length of stock opened, and for the scrap
    waste_mm : scrap, without what the saw takes and what is kept [mm]
    saw_mm : lost in the cuts [mm]
    offcuts : end pieces kept, as stock for the next list
    price : of the rolls opened; None where one of them is not priced
    uncut_at_least : no way of cutting leaves fewer pieces uncut; None in lists kept from before this was told
    length_at_least_mm : none that opens no more rolls takes less length of stock; None likewise [mm]
    """

    opened: tuple[OpenedLength, ...]
    uncut: tuple[UncutPiece, ...]
    rolls_used: int
    lower_bound: int
    is_proven: bool
    is_length_proven: bool
    is_waste_proven: bool
    waste_mm: float
    saw_mm: float
    offcuts: tuple[StockLength, ...]
    price: Decimal | None
    uncut_at_least: int | None = None
    length_at_least_mm: float | None = None

    @property
    def uncut_n(self) -> int:
        """How many pieces are left uncut."""
        return sum(each.quantity for each in self.uncut)

    @property
    def opened_mm(self) -> float:
        """Length of all stock opened. [mm]"""
        return round(sum(each.length_mm for each in self.opened), 2)

    @property
    def rolls_above_n(self) -> int:
        """By how many rolls, at most, fewer could do; 0 where that is ruled out."""
        return 0 if self.is_proven else self.rolls_used - self.lower_bound

    @property
    def length_above_mm(self) -> float | None:
        """By how much length of stock, at most, less could do; None where that is not known. [mm]"""
        if self.is_length_proven:
            return 0.0
        return None if self.length_at_least_mm is None else round(self.opened_mm - self.length_at_least_mm, 2)
