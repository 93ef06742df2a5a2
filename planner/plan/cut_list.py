"""Which pieces to cut from which roll, so that the fewest rolls are opened and the least is wasted.

Price is no goal. Up to 5,000 patterns are solved exactly; beyond that an answer is proven only where it meets the
bound. A line supplied with a job serves that job first.
"""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from math import gcd

from planner.errors import ImpossibleDimensionError
from planner.plan.cut_patterns import CutProblem, Pattern, leftover_of
from planner.plan.cut_program import SearchEffort
from planner.plan.cut_search import CutAnswer, find_cuts
from planner.plan.cut_stock import Cut, CutList, OpenedLength, Piece, StockLength, UncutPiece, WhyUncut

__all__ = [
    "Cut",
    "CutList",
    "OpenedLength",
    "Piece",
    "SearchEffort",
    "StockLength",
    "UncutPiece",
    "WhyUncut",
    "find_cut_list",
]

_NOTHING_TO_CUT = CutAnswer(
    bins=(),
    uncut=(),
    uncut_bound=0,
    roll_bound=0,
    length_bound=0,
    is_proven=True,
    is_length_proven=True,
    is_scrap_proven=True,
)
UNITS_PER_MM = 100
"""Lengths are counted in hundredths of a millimetre, so that sums are exact."""


def find_cut_list(
    *,
    pieces: Sequence[Piece],
    stock: Sequence[StockLength],
    kerf_mm: float = 0.0,
    keep_offcut_from_mm: float | None = None,
    effort: SearchEffort | None = None,
) -> CutList:
    """The cut list for several jobs together.

    Decided in this order: fewest pieces left uncut, fewest rolls opened (offcuts are free), least length of stock
    opened, least scrap. Lengths count to a hundredth of a millimetre; the last piece of a length needs no cut when it
    ends where the length ends. Hose that is cut by a knife takes kerf 0.

    Returns always one that can be cut; what is not proven to be the best is marked so.

    pieces : what is wanted, of any number of lines
    stock : what there is; each line is cut from its own
    kerf_mm : what one cut takes
    keep_offcut_from_mm : an end piece at least this long is kept as stock; None to keep none
    effort : how much work may be spent on the proof; None for the usual

    >>> found = find_cut_list(
    ...     pieces=[Piece(id="rear", line_id="hose", length_mm=1700, quantity=3)],
    ...     stock=[StockLength(id="roll", line_id="hose", length_mm=4000)],
    ... )
    >>> found.rolls_used, found.waste_mm, found.is_proven
    (2, 2900.0, True)

    Raises ImpossibleDimensionError when a length is not above zero, a quantity is negative, or the kerf is.

    Source: P. C. Gilmore, R. E. Gomory, "A linear programming approach to the cutting-stock problem", Operations
    Research 9 (1961) 849-859 (from memory).
    """
    _refuse_impossible(pieces, stock, kerf_mm)
    line_ids = dict.fromkeys(piece.line_id for piece in pieces)
    lists = [
        _one_line(
            [piece for piece in pieces if piece.line_id == line_id and piece.quantity],
            [each for each in stock if each.line_id == line_id and each.quantity != 0],
            kerf_mm,
            keep_offcut_from_mm,
            effort or SearchEffort(),
        )
        for line_id in line_ids
    ]
    prices = [each.price for each in lists]
    return CutList(
        opened=tuple(opened for each in lists for opened in each.opened),
        uncut=tuple(uncut for each in lists for uncut in each.uncut),
        rolls_used=sum(each.rolls_used for each in lists),
        lower_bound=sum(each.lower_bound for each in lists),
        is_proven=all(each.is_proven for each in lists),
        is_length_proven=all(each.is_length_proven for each in lists),
        is_waste_proven=all(each.is_waste_proven for each in lists),
        waste_mm=sum(each.waste_mm for each in lists),
        saw_mm=sum(each.saw_mm for each in lists),
        offcuts=tuple(offcut for each in lists for offcut in each.offcuts),
        price=None if None in prices else sum((price for price in prices if price is not None), Decimal(0)),
        uncut_at_least=sum(each.uncut_at_least or 0 for each in lists),
        length_at_least_mm=round(sum(each.length_at_least_mm or 0.0 for each in lists), 2),
    )


def _refuse_impossible(pieces: Iterable[Piece], stock: Iterable[StockLength], kerf_mm: float) -> None:
    if not 0 <= kerf_mm < float("inf"):
        raise ImpossibleDimensionError(name="kerf_mm", value=kerf_mm, unit="mm", rule="must not be negative")
    everything: list[Piece | StockLength] = [*pieces, *stock]
    for each in everything:
        if not 0 < each.length_mm < float("inf"):
            raise ImpossibleDimensionError(
                name=f"length of {each.id}", value=each.length_mm, unit="mm", rule="must be above zero"
            )
        if each.quantity is not None and each.quantity < 0:
            raise ImpossibleDimensionError(
                name=f"quantity of {each.id}", value=each.quantity, unit="pieces", rule="must not be negative"
            )


def _one_line(
    pieces: Sequence[Piece],
    stock: Sequence[StockLength],
    kerf_mm: float,
    keep_from_mm: float | None,
    effort: SearchEffort,
) -> CutList:
    longest_mm = max((each.length_mm for each in stock), default=None)
    why = WhyUncut.NO_STOCK if longest_mm is None else WhyUncut.TOO_LONG
    fitting = [piece for piece in pieces if longest_mm is not None and piece.length_mm <= longest_mm]
    hopeless = tuple(
        UncutPiece(
            piece_id=piece.id, length_mm=piece.length_mm, quantity=piece.quantity, why=why, longest_mm=longest_mm
        )
        for piece in pieces
        if piece not in fitting
    )
    if not fitting:
        return _finish((), hopeless, _NOTHING_TO_CUT, unit=1, stock=stock)
    problem, unit = _problem(fitting, stock, kerf_mm, keep_from_mm)
    answer = find_cuts(problem=problem, effort=effort)
    bench = _Bench(fitting)
    opened = tuple(_opened(problem, pattern, stock[pattern.stock], bench, kerf_mm, unit) for pattern in answer.bins)
    missing = tuple(bench.rest(longest_mm=longest_mm))
    return _finish(opened, (*hopeless, *missing), answer, unit=unit, stock=stock)


def _units(length_mm: float) -> int:
    return round(length_mm * UNITS_PER_MM)


def _problem(
    pieces: Sequence[Piece], stock: Sequence[StockLength], kerf_mm: float, keep_from_mm: float | None
) -> tuple[CutProblem, int]:
    """The pieces and stock in the largest unit that measures them all; the unit in hundredths of a millimetre."""
    kerf = _units(kerf_mm)
    wanted: dict[int, int] = {}
    for piece in pieces:
        size = _units(piece.length_mm) + kerf
        wanted[size] = wanted.get(size, 0) + piece.quantity
    rooms = [_units(each.length_mm) + kerf for each in stock]
    unit = gcd(*wanted, *rooms, kerf)
    sizes = sorted(wanted, reverse=True)
    return CutProblem(
        sizes=tuple(size // unit for size in sizes),
        demands=tuple(wanted[size] for size in sizes),
        rooms=tuple(room // unit for room in rooms),
        supplies=tuple(each.quantity for each in stock),
        are_rolls=tuple(not each.is_offcut for each in stock),
        saw_cut=kerf // unit,
        keep_from=None if keep_from_mm is None else -(-_units(keep_from_mm) // unit),
    ), unit


class _Bench:
    """Hands out the pieces of each size, in the order they were asked for."""

    def __init__(self, pieces: Sequence[Piece]) -> None:
        by_size = sorted(pieces, key=lambda piece: -_units(piece.length_mm))
        self._sizes = sorted({_units(piece.length_mm) for piece in pieces}, reverse=True)
        self._waiting = {
            size: [piece for piece in by_size if _units(piece.length_mm) == size for _ in range(piece.quantity)]
            for size in self._sizes
        }

    def take(self, size_index: int) -> Piece:
        return self._waiting[self._sizes[size_index]].pop(0)

    def rest(self, *, longest_mm: float | None) -> Iterator[UncutPiece]:
        for size in self._sizes:
            for piece in dict.fromkeys(self._waiting[size]):
                yield UncutPiece(
                    piece_id=piece.id,
                    length_mm=piece.length_mm,
                    quantity=self._waiting[size].count(piece),
                    why=WhyUncut.USED_UP,
                    longest_mm=longest_mm,
                )


def _opened(
    problem: CutProblem, pattern: Pattern, stock: StockLength, bench: _Bench, kerf_mm: float, unit: int
) -> OpenedLength:
    cuts: list[Cut] = []
    start_mm = 0.0
    for size_index, count in enumerate(pattern.counts):
        for _ in range(count):
            piece = bench.take(size_index)
            cuts.append(Cut(piece_id=piece.id, start_mm=start_mm, length_mm=piece.length_mm))
            start_mm = round(start_mm + piece.length_mm + kerf_mm, 2)
    leftover_mm = leftover_of(problem=problem, pattern=pattern) * unit / UNITS_PER_MM
    is_kept = problem.keep_from is not None and leftover_mm * UNITS_PER_MM >= problem.keep_from * unit
    cut_mm = sum(cut.length_mm for cut in cuts)
    return OpenedLength(
        stock_id=stock.id,
        line_id=stock.line_id,
        length_mm=stock.length_mm,
        is_offcut=stock.is_offcut,
        cuts=tuple(cuts),
        offcut_mm=leftover_mm if is_kept else 0.0,
        scrap_mm=0.0 if is_kept else leftover_mm,
        saw_mm=round(stock.length_mm - cut_mm - leftover_mm, 2),
    )


def _finish(
    opened: Sequence[OpenedLength],
    uncut: tuple[UncutPiece, ...],
    answer: CutAnswer,
    *,
    unit: int,
    stock: Sequence[StockLength],
) -> CutList:
    price_of = {each.id: each.price for each in stock}
    prices = [price_of[each.stock_id] for each in opened if not each.is_offcut]
    kept = [each for each in opened if each.offcut_mm > 0]
    return CutList(
        opened=tuple(opened),
        uncut=uncut,
        rolls_used=sum(not each.is_offcut for each in opened),
        lower_bound=answer.roll_bound,
        is_proven=answer.is_proven,
        is_length_proven=answer.is_length_proven,
        is_waste_proven=answer.is_scrap_proven,
        waste_mm=round(sum(each.scrap_mm for each in opened), 2),
        saw_mm=round(sum(each.saw_mm for each in opened), 2),
        offcuts=tuple(
            StockLength(
                id=f"{each.stock_id} rest {number}",
                line_id=each.line_id,
                length_mm=each.offcut_mm,
                quantity=1,
                is_offcut=True,
            )
            for number, each in enumerate(kept, start=1)
        ),
        price=None if None in prices else sum((price for price in prices if price is not None), Decimal(0)),
        uncut_at_least=sum(each.quantity for each in uncut) - answer.uncut_above,
        length_at_least_mm=answer.length_bound * unit / UNITS_PER_MM,
    )
