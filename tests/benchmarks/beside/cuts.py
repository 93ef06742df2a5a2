"""Cut lists beside HiGHS, a general solver, given the same question and at least the same time."""

import time
from collections.abc import Sequence
from random import Random

import numpy as np

from planner.plan.cut_list import CutList, Piece, StockLength, find_cut_list
from tests.benchmarks.beside.measured import Measured, Stopwatch

Merit = tuple[int, int, float]


def mixed_stock(
    seed: int, *, pieces_n: int, sizes_n: int, offcuts_n: int, roll_mm: float
) -> tuple[list[Piece], list[StockLength]]:
    """Pieces in that many sizes, rolls of one length without end, and offcuts, each of its own length."""
    draw = Random(seed)
    sizes = draw.sample(range(400, 2300, 5), sizes_n)
    counts = dict.fromkeys(sizes, 1)
    for _ in range(pieces_n - sizes_n):
        counts[draw.choice(sizes)] += 1
    pieces = [Piece(id=str(mm), line_id="hose", length_mm=mm, quantity=n) for mm, n in counts.items()]
    offcuts = [
        StockLength(id=f"offcut {n}", line_id="hose", length_mm=draw.randrange(300, 4000), quantity=1, is_offcut=True)
        for n in range(offcuts_n)
    ]
    return pieces, [StockLength(id="roll", line_id="hose", length_mm=roll_mm), *offcuts]


def merit_of(found: CutList) -> Merit:
    """Pieces left uncut, rolls opened, length of stock opened: less is better, in this order."""
    return found.uncut_n, found.rolls_used, found.opened_mm


def by_general_solver(
    pieces: Sequence[Piece], stock: Sequence[StockLength], *, rolls_at_most: int, seconds: float
) -> Merit | None:
    """How many pieces of each size from each length, as one integer program; None where it finds nothing in time.

    rolls_at_most : how many rolls it may open at most; the fewer, the smaller its program
    seconds : its time limit
    """
    from scipy.optimize import Bounds, LinearConstraint, milp
    from scipy.sparse import coo_array

    (roll,), offcuts = [each for each in stock if not each.is_offcut], [each for each in stock if each.is_offcut]
    lengths = np.array([each.length_mm for each in offcuts] + [roll.length_mm] * rolls_at_most)
    sizes = np.array([piece.length_mm for piece in pieces])
    counts = np.array([piece.quantity for piece in pieces])
    bins, kinds = len(lengths), len(sizes)
    roll_price = 1.0 + sum(each.length_mm for each in offcuts) / roll.length_mm  # a roll outweighs all offcuts
    prices = np.concatenate([np.zeros(bins * kinds), lengths / roll.length_mm])
    prices[-rolls_at_most:] += roll_price
    cell = np.arange(bins * kinds)
    fill = coo_array((np.tile(sizes, bins), (cell // kinds, cell)), shape=(bins, bins * kinds + bins)).tolil()
    fill[np.arange(bins), bins * kinds + np.arange(bins)] = -lengths
    demand = coo_array((np.ones(bins * kinds), (cell % kinds, cell)), shape=(kinds, bins * kinds + bins))
    most = np.minimum(counts[None, :], lengths[:, None] // sizes[None, :])
    result = milp(
        prices,
        constraints=[LinearConstraint(fill.tocsr(), -np.inf, 0), LinearConstraint(demand.tocsr(), counts, counts)],
        integrality=np.ones(len(prices)),
        bounds=Bounds(0, np.concatenate([most.ravel(), np.ones(bins)])),
        options={"time_limit": seconds},
    )
    if result.x is None:
        return None
    opened = result.x[bins * kinds :] > 0.5
    return 0, int(opened[len(offcuts) :].sum()), round(float(lengths[opened].sum()), 2)


def cut_lists(*, pieces_n: int, sizes_n: int, offcuts_n: int, roll_mm: float, lists_n: int, least_s: float) -> Measured:
    """Ours first; the solver then has at least as long, and must not be better."""
    mine, theirs = Stopwatch(), Stopwatch()
    better = equal = proven = 0
    for seed in range(lists_n):
        pieces, stock = mixed_stock(seed, pieces_n=pieces_n, sizes_n=sizes_n, offcuts_n=offcuts_n, roll_mm=roll_mm)
        began = time.monotonic()
        found = mine.time(lambda: find_cut_list(pieces=pieces, stock=stock))  # noqa: B023
        seconds = max(least_s, time.monotonic() - began)
        other = theirs.time(
            lambda: by_general_solver(pieces, stock, rolls_at_most=found.rolls_used + 2, seconds=seconds)  # noqa: B023
        )
        assert other is None or merit_of(found) <= other, (seed, merit_of(found), other)
        better += other is None or merit_of(found) < other
        equal += other == merit_of(found)
        proven += found.is_proven
    lists = "1 list" if lists_n == 1 else f"{lists_n} lists"
    work = f"{lists} of {pieces_n} pieces in {sizes_n} sizes, rolls and {offcuts_n} offcuts; {proven} proven"
    beside = f"HiGHS, at least as long: worse in {better}, equal in {equal}, better in none"
    return Measured(name="", work=work, ours_s=mine.seconds, beside=beside, beside_s=theirs.seconds, aim="10 s each")
