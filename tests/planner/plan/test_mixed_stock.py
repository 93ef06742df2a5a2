"""Cut lists from rolls and many offcuts: how far from the best they may be is told, and true."""

from dataclasses import replace
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner import JobCuts, cuts_as_record, cuts_sentence
from planner.documents.drawings.cut_drawing import draw_cut_list
from planner.plan.cut_list import CutList, Piece, SearchEffort, StockLength, find_cut_list

LITTLE = SearchEffort(patterns_at_most=100, nodes_at_most=0, work_at_most=0)
SOME = SearchEffort(work_at_most=3_000_000)
ROLL_MM = 5000


def planted(seed: int, *, rolls_n: int, offcuts_n: int) -> tuple[list[Piece], list[StockLength]]:
    """Pieces that just these rolls and offcuts give with nothing left, so that no way of cutting is better; and rolls
    without end beside them."""
    draw = Random(seed)
    offcuts = [draw.randrange(150, 400) * 10 for _ in range(offcuts_n)]
    lengths: list[int] = []
    for length in [ROLL_MM] * rolls_n + offcuts:
        rest = length
        while rest > 1500:
            lengths.append(draw.randrange(40, min(150, rest // 10 - 40)) * 10)
            rest -= lengths[-1]
        lengths.append(rest)
    pieces = [Piece(id=str(mm), line_id="hose", length_mm=mm, quantity=lengths.count(mm)) for mm in sorted({*lengths})]
    stock = [StockLength(id="roll", line_id="hose", length_mm=ROLL_MM)]
    stock += [
        StockLength(id=f"offcut {n}", line_id="hose", length_mm=mm, quantity=1, is_offcut=True)
        for n, mm in enumerate(offcuts)
    ]
    return pieces, stock


@settings(max_examples=12, deadline=None)
@given(seed=st.integers(0, 10**6), effort=st.sampled_from([LITTLE, SOME]))
def test_no_bound_is_above_what_can_be_had(seed: int, effort: SearchEffort) -> None:
    pieces, stock = planted(seed, rolls_n=6, offcuts_n=5)
    found = find_cut_list(pieces=pieces, stock=stock, effort=effort)
    wanted_mm = sum(piece.length_mm * piece.quantity for piece in pieces)
    assert (found.uncut_n, found.uncut_at_least) == (0, 0)
    assert found.lower_bound <= 6 <= found.rolls_used
    assert found.rolls_used - found.rolls_above_n <= 6
    if found.rolls_used == 6:
        assert found.length_at_least_mm <= wanted_mm <= found.opened_mm
        assert found.opened_mm - found.length_above_mm <= wanted_mm


def test_rolls_filled_to_the_last_beside_offcuts_are_proven_the_fewest() -> None:
    """By hand: 2 x 1250 and 1700 fill each of 13 rolls to the last, and each of the ten offcuts holds a 1600."""
    pieces = [
        Piece(id="short", line_id="hose", length_mm=1250, quantity=26),
        Piece(id="long", line_id="hose", length_mm=1700, quantity=13),
        Piece(id="odd", line_id="hose", length_mm=1600, quantity=10),
    ]
    offcuts = [
        StockLength(id=f"offcut {n}", line_id="hose", length_mm=1600 + n, quantity=1, is_offcut=True) for n in range(10)
    ]
    found = find_cut_list(
        pieces=pieces, stock=[StockLength(id="roll", line_id="hose", length_mm=4200), *offcuts], effort=SOME
    )
    assert (found.rolls_used, found.is_proven) == (13, True)


def test_little_work_gives_an_answer_and_says_how_far_it_may_be_from_the_best() -> None:
    pieces, stock = planted(7, rolls_n=8, offcuts_n=6)
    hasty = find_cut_list(pieces=pieces, stock=stock, effort=LITTLE)
    patient = find_cut_list(pieces=pieces, stock=stock)
    assert (patient.uncut_n, patient.rolls_used, patient.is_proven) == (0, 8, True)
    assert hasty.uncut_n == 0
    assert (hasty.rolls_used, hasty.opened_mm) >= (patient.rolls_used, patient.opened_mm)
    assert hasty.rolls_used - hasty.rolls_above_n <= 8
    assert hasty == find_cut_list(pieces=pieces, stock=stock, effort=LITTLE)


@pytest.fixture(scope="module")
def gap() -> CutList:
    """A list that may be a roll and 120 mm from the best."""
    found = find_cut_list(
        pieces=[Piece(id="rear", line_id="hose", length_mm=900, quantity=3)],
        stock=[StockLength(id="roll", line_id="hose", length_mm=1000)],
    )
    return replace(found, lower_bound=2, is_proven=False, is_length_proven=False, length_at_least_mm=2880.0)


def test_the_gap_is_told_in_words_in_the_picture_and_in_the_record(gap: CutList) -> None:
    assert cuts_sentence(gap) == (
        "3 rolls opened, at most 1 more than needed: no way of cutting opens fewer than 2. 300 mm scrap; "
        "3000 mm of stock opened, at most 120 mm more than as many rolls need."
    )
    assert "3 rolls opened (at most 1 more than needed)" in draw_cut_list(gap).svg
    record = cuts_as_record(JobCuts(jobs=(), cut_list=gap))
    told = ("rolls_above_at_most", "uncut_at_least", "opened_mm", "length_at_least_mm", "length_above_at_most_mm")
    assert [record[name] for name in told] == [1, 0, 3000, 2880, 120]


def test_a_list_kept_from_before_bounds_on_the_length_were_told_tells_none(gap: CutList) -> None:
    old = replace(gap, uncut_at_least=None, length_at_least_mm=None)
    assert cuts_sentence(old).endswith("300 mm scrap; not proven to be the least length of stock.")
    assert cuts_as_record(JobCuts(jobs=(), cut_list=old))["length_above_at_most_mm"] is None


def test_pieces_that_more_work_might_give_are_told() -> None:
    short = find_cut_list(
        pieces=[Piece(id="rear", line_id="hose", length_mm=900, quantity=3)],
        stock=[StockLength(id="roll", line_id="hose", length_mm=1000, quantity=2)],
    )
    assert (short.uncut_n, short.uncut_at_least, short.is_proven) == (1, 1, True)
    told = cuts_sentence(replace(short, is_proven=False, uncut_at_least=0))
    assert told.startswith("2 rolls opened, not proven to be the best: at most 1 more of the pieces could be cut.")
