"""How long a cut list takes: run with `pytest tests/benchmarks/bench_cut_list.py`."""

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from planner.plan.cut_list import CutList, Piece, StockLength, find_cut_list

LENGTHS_MM = (935, 1060, 1145, 1290, 1405, 1585, 1720, 1865, 2010, 2245)
COUNTS = (31, 12, 24, 9, 27, 18, 22, 14, 28, 15)


@pytest.mark.parametrize("stock_length_mm", [2500, 5000, 10_000, 25_000])
@pytest.mark.parametrize("keep_offcut_from_mm", [None, 600], ids=["nothing kept", "offcuts kept"])
def test_two_hundred_pieces_in_ten_sizes(
    benchmark: BenchmarkFixture, stock_length_mm: float, keep_offcut_from_mm: float | None
) -> None:
    pieces = [
        Piece(id=str(length_mm), line_id="hose", length_mm=length_mm, quantity=count)
        for length_mm, count in zip(LENGTHS_MM, COUNTS, strict=True)
    ]
    assert sum(COUNTS) == 200
    stock = [StockLength(id="roll", line_id="hose", length_mm=stock_length_mm)]

    def solve() -> CutList:
        return find_cut_list(pieces=pieces, stock=stock, keep_offcut_from_mm=keep_offcut_from_mm)

    found = benchmark.pedantic(solve, rounds=3, warmup_rounds=1)
    assert found.is_proven
