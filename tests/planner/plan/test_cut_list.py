"""Cut lists: published optima, every small case by brute force, and the balance of every millimetre."""

import csv
from collections import Counter
from decimal import Decimal
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.plan.cut_list import CutList, Piece, SearchEffort, StockLength, UncutPiece, WhyUncut, find_cut_list

ROWS = list(csv.DictReader((Path(__file__).parents[2] / "published_values/cutting_stock.csv").open(encoding="utf-8")))
LISTING_ALL = SearchEffort()
GENERATING = SearchEffort(patterns_at_most=1)

pieces_lists = st.lists(
    st.builds(
        Piece,
        id=st.just("piece"),
        line_id=st.just("hose"),
        length_mm=st.sampled_from([300, 450, 500, 700, 1200.5]),
        quantity=st.integers(1, 2),
    ),
    min_size=1,
    max_size=3,
)
stock_lists = st.lists(
    st.builds(
        StockLength,
        id=st.sampled_from(["a", "b"]),
        line_id=st.just("hose"),
        length_mm=st.sampled_from([650, 1000, 1200.5, 1500]),
        quantity=st.just(1),
        is_offcut=st.booleans(),
    ),
    max_size=3,
)


ASKED = [
    pytest.param(row, effort, id=f"{row['case']}, patterns {word}")
    for row in ROWS
    for effort, word in ((LISTING_ALL, "listed"), (GENERATING, "generated"))
    if effort is GENERATING or len(row["piece_lengths_mm"].split()) < 20  # of many sizes all patterns are never listed
]


@pytest.mark.parametrize(("row", "effort"), ASKED)
def test_published_optimum_is_found_and_proven(row: dict[str, str], effort: SearchEffort) -> None:
    lengths_mm, counts = row["piece_lengths_mm"].split(), row["piece_counts"].split()
    found = find_cut_list(
        pieces=[
            Piece(id=length, line_id="roll", length_mm=float(length), quantity=int(count))
            for length, count in zip(lengths_mm, counts, strict=True)
        ],
        stock=[StockLength(id="stock", line_id="roll", length_mm=float(row["stock_length_mm"]))],
        effort=effort,
    )
    assert found.rolls_used == int(row["expected_rolls"])
    assert found.waste_mm == float(row["expected_waste_mm"])
    assert (found.lower_bound, found.is_proven, found.uncut) == (found.rolls_used, True, ())


def test_the_piece_left_uncut_is_chosen_so_that_the_least_is_scrapped() -> None:
    """One of 300, 2 x 450, 2 x 700 must stay; without a 450 the lengths 1000 and 1200.5 leave only 50.5."""
    wanted = [(300, 1), (450, 2), (700, 2)]
    found = find_cut_list(
        pieces=[Piece(id=f"{mm}", line_id="hose", length_mm=mm, quantity=count) for mm, count in wanted],
        stock=[StockLength(id=f"{mm}", line_id="hose", length_mm=mm, quantity=1) for mm in (1000, 1200.5)],
    )
    assert (found.waste_mm, found.is_waste_proven) == (50.5, True)
    assert [(piece.piece_id, piece.quantity) for piece in found.uncut] == [("450", 1)]


@settings(max_examples=60, deadline=None)
@given(pieces=pieces_lists, stock=stock_lists, kerf_mm=st.sampled_from([0, 2.5]), keep_mm=st.sampled_from([None, 200]))
def test_small_case_is_as_good_as_brute_force(
    pieces: list[Piece], stock: list[StockLength], kerf_mm: float, keep_mm: float | None
) -> None:
    best = _best_by_brute_force(pieces, stock, kerf_mm, keep_mm)
    listed = find_cut_list(pieces=pieces, stock=stock, kerf_mm=kerf_mm, keep_offcut_from_mm=keep_mm)
    assert listed.is_proven
    assert listed.is_waste_proven
    assert _merit(listed) == pytest.approx(best)
    generated = find_cut_list(
        pieces=pieces, stock=stock, kerf_mm=kerf_mm, keep_offcut_from_mm=keep_mm, effort=GENERATING
    )
    assert _merit(generated) >= _merit(listed)
    assert generated.uncut_at_least <= best[0]
    if generated.uncut_n == best[0]:
        assert generated.lower_bound <= best[1]
    if _merit(generated)[:2] == best[:2]:
        assert generated.length_at_least_mm <= best[2] + 1e-6
    if generated.is_proven:
        assert _merit(generated)[:2] == _merit(listed)[:2]
    if generated.is_length_proven:
        assert _merit(generated)[:3] == _merit(listed)[:3]


@settings(max_examples=40, deadline=None)
@given(pieces=pieces_lists, stock=stock_lists, kerf_mm=st.sampled_from([0, 2.5]), keep_mm=st.sampled_from([None, 200]))
def test_every_piece_and_every_millimetre_is_accounted_for(
    pieces: list[Piece], stock: list[StockLength], kerf_mm: float, keep_mm: float | None
) -> None:
    found = find_cut_list(pieces=pieces, stock=stock, kerf_mm=kerf_mm, keep_offcut_from_mm=keep_mm)
    asked: Counter[float] = Counter()
    for piece in pieces:
        asked[piece.length_mm] += piece.quantity
    given_back = Counter(cut.length_mm for opened in found.opened for cut in opened.cuts)
    for uncut in found.uncut:
        given_back[uncut.length_mm] += uncut.quantity
    assert given_back == asked
    for opened in found.opened:
        parts_mm = sum(cut.length_mm for cut in opened.cuts) + opened.offcut_mm + opened.scrap_mm + opened.saw_mm
        assert parts_mm == pytest.approx(opened.length_mm, abs=1e-6)
        assert opened.cuts
        assert 0 <= opened.saw_mm <= kerf_mm * len(opened.cuts) + 1e-9
    assert Counter(opened.stock_id for opened in found.opened) <= Counter(each.id for each in stock)
    assert found.lower_bound <= found.rolls_used


def test_cuts_are_told_in_order_with_their_places() -> None:
    found = find_cut_list(
        pieces=[_piece("front", 900), _piece("rear", 1700)],
        stock=[StockLength(id="roll", line_id="hose", length_mm=3000)],
        kerf_mm=2,
    )
    (opened,) = found.opened
    assert [(cut.piece_id, cut.start_mm, cut.length_mm) for cut in opened.cuts] == [
        ("rear", 0, 1700),
        ("front", 1702, 900),
    ]
    assert (opened.scrap_mm, opened.saw_mm) == (396, 4)


@pytest.mark.parametrize(
    ("kerf_mm", "rolls"), [(0, 1), (2, 1), (2.01, 2)], ids=["knife", "saw just leaves room", "saw takes too much"]
)
def test_last_piece_needs_no_cut_where_the_roll_ends(kerf_mm: float, rolls: int) -> None:
    found = find_cut_list(
        pieces=[_piece("twin", 999, 2)], stock=[StockLength(id="roll", line_id="hose", length_mm=2000)], kerf_mm=kerf_mm
    )
    assert found.rolls_used == rolls


@pytest.mark.parametrize(
    ("length_mm", "can_be_cut"), [(1999.99, True), (2000, True), (2000.01, False)], ids=["below", "at", "above"]
)
def test_piece_longer_than_any_stock_is_named_with_the_longest(length_mm: float, can_be_cut: bool) -> None:
    found = find_cut_list(
        pieces=[_piece("long", length_mm)], stock=[StockLength(id="roll", line_id="hose", length_mm=2000)]
    )
    too_long = UncutPiece(piece_id="long", length_mm=length_mm, quantity=1, why=WhyUncut.TOO_LONG, longest_mm=2000)
    assert found.uncut == (() if can_be_cut else (too_long,))
    assert found.rolls_used == int(can_be_cut)


def test_piece_of_a_line_not_in_stock_is_named() -> None:
    found = find_cut_list(
        pieces=[_piece("rear", 900)], stock=[StockLength(id="roll", line_id="housing", length_mm=2000)]
    )
    assert [uncut.why for uncut in found.uncut] == [WhyUncut.NO_STOCK]
    assert (found.rolls_used, found.lower_bound, found.is_proven) == (0, 0, True)


def test_used_up_stock_leaves_the_fewest_pieces_uncut() -> None:
    found = find_cut_list(
        pieces=[_piece("long", 1000), _piece("short", 500, 2)],
        stock=[StockLength(id="roll", line_id="hose", length_mm=1000, quantity=1)],
    )
    used_up = UncutPiece(piece_id="long", length_mm=1000, quantity=1, why=WhyUncut.USED_UP, longest_mm=1000)
    assert (found.uncut, found.is_proven) == ((used_up,), True)


def test_offcut_is_used_before_a_roll_is_opened() -> None:
    roll = StockLength(id="roll", line_id="hose", length_mm=3000)
    offcut = StockLength(id="offcut", line_id="hose", length_mm=1000, quantity=1, is_offcut=True)
    found = find_cut_list(pieces=[_piece("rear", 950)], stock=[roll, offcut])
    assert [opened.stock_id for opened in found.opened] == ["offcut"]
    assert found.rolls_used == 0


@pytest.mark.parametrize(("keep_from_mm", "kept"), [(399.99, True), (400, True), (400.01, False), (None, False)])
def test_long_end_piece_becomes_stock_again(keep_from_mm: float | None, kept: bool) -> None:
    found = find_cut_list(
        pieces=[_piece("rear", 1600)],
        stock=[StockLength(id="roll", line_id="hose", length_mm=2000)],
        keep_offcut_from_mm=keep_from_mm,
    )
    offcut = StockLength(id="roll rest 1", line_id="hose", length_mm=400, quantity=1, is_offcut=True)
    assert found.offcuts == ((offcut,) if kept else ())
    assert found.waste_mm == (0 if kept else 400)


def test_ends_are_gathered_into_one_that_can_be_kept() -> None:
    found = find_cut_list(
        pieces=[_piece("piece", 600, 4)],
        stock=[StockLength(id="roll", line_id="hose", length_mm=1900)],
        keep_offcut_from_mm=1000,
    )
    assert (found.rolls_used, found.waste_mm, found.is_waste_proven) == (2, 100, True)
    assert [offcut.length_mm for offcut in found.offcuts] == [1300]


def test_lines_are_cut_from_their_own_stock() -> None:
    found = find_cut_list(
        pieces=[_piece("rear", 900), Piece(id="gear", line_id="housing", length_mm=700)],
        stock=[
            StockLength(id="hose roll", line_id="hose", length_mm=1000),
            StockLength(id="housing roll", line_id="housing", length_mm=2000),
        ],
    )
    assert [(opened.stock_id, opened.cuts[0].piece_id) for opened in found.opened] == [
        ("hose roll", "rear"),
        ("housing roll", "gear"),
    ]


def test_price_is_that_of_the_rolls_and_unknown_when_one_is() -> None:
    priced = StockLength(id="roll", line_id="hose", length_mm=1000, price=Decimal("19.90"))
    unpriced = StockLength(id="other", line_id="housing", length_mm=1000)
    hoses = [_piece("rear", 900, 2)]
    assert find_cut_list(pieces=hoses, stock=[priced]).price == Decimal("39.80")
    both = [*hoses, Piece(id="gear", line_id="housing", length_mm=700)]
    assert find_cut_list(pieces=both, stock=[priced, unpriced]).price is None


def test_search_that_is_cut_short_does_not_claim_a_proof() -> None:
    """By hand four rolls do: 526 + 302, 526 + 302, 484 + 484, 484 + 302; and 3410 mm ask for four."""
    asked = {
        "pieces": [_piece("short", 302, 3), _piece("middle", 484, 3), _piece("long", 526, 2)],
        "stock": [StockLength(id="roll", line_id="hose", length_mm=1000)],
    }
    hasty = find_cut_list(**asked, effort=SearchEffort(patterns_at_most=1, nodes_at_most=0, work_at_most=0))
    assert not hasty.uncut
    assert hasty.rolls_used > 4, "else nothing is tried here"
    assert hasty.lower_bound == 4
    assert not hasty.is_proven
    assert not hasty.is_length_proven
    patient = find_cut_list(**asked)
    assert (patient.rolls_used, patient.lower_bound, patient.is_proven) == (4, 4, True)


def test_for_the_fewest_rolls_only_ways_that_leave_no_room_for_another_piece_are_listed() -> None:
    """Of 600 and 50, three each, a roll of 1000 takes one and three, which is full; any other way could take more.
    1950 mm would go on two rolls, but no two of 600 share one: three, proven by a list of that one way."""
    found = find_cut_list(
        pieces=[_piece("long", 600, 3), _piece("short", 50, 3)],
        stock=[StockLength(id="roll", line_id="hose", length_mm=1000)],
        effort=SearchEffort(patterns_at_most=1, work_at_most=0),
    )
    assert (found.rolls_used, found.lower_bound, found.is_proven) == (3, 3, True)


def test_a_piece_of_less_than_a_millimetre_is_cut_and_not_refused() -> None:
    found = find_cut_list(
        pieces=[_piece("chip", 0.5)], stock=[StockLength(id="end", line_id="hose", length_mm=0.8)], kerf_mm=0.1
    )
    assert (found.rolls_used, found.waste_mm, found.saw_mm) == (1, 0.2, 0.1)


def test_same_list_twice_is_the_same() -> None:
    pieces = [_piece(str(length_mm), length_mm, 3) for length_mm in (1705, 1390, 1215, 880)]
    stock = [StockLength(id="roll", line_id="hose", length_mm=5000)]
    first = find_cut_list(pieces=pieces, stock=stock, keep_offcut_from_mm=500)
    assert first == find_cut_list(pieces=pieces, stock=stock, keep_offcut_from_mm=500)


@pytest.mark.parametrize(
    ("piece", "kerf_mm", "message"),
    [
        (Piece(id="rear", line_id="hose", length_mm=0), 0, "length of rear: 0 mm was given; it must be above zero"),
        (
            Piece(id="rear", line_id="hose", length_mm=5, quantity=-1),
            0,
            "quantity of rear: -1 pieces was given; it must not be negative",
        ),
        (Piece(id="rear", line_id="hose", length_mm=5), -1, "kerf_mm: -1 mm was given; it must not be negative"),
    ],
)
def test_impossible_numbers_are_refused(piece: Piece, kerf_mm: float, message: str) -> None:
    with pytest.raises(ImpossibleDimensionError, match=message):
        find_cut_list(pieces=[piece], stock=[], kerf_mm=kerf_mm)


def _piece(id: str, length_mm: float, quantity: int = 1) -> Piece:
    return Piece(id=id, line_id="hose", length_mm=length_mm, quantity=quantity)


def _merit(found: CutList) -> tuple[float, ...]:
    uncut = sum(each.quantity for each in found.uncut)
    return (uncut, found.rolls_used, sum(opened.length_mm for opened in found.opened), found.waste_mm)


def _best_by_brute_force(
    pieces: list[Piece], stock: list[StockLength], kerf_mm: float, keep_mm: float | None
) -> tuple[float, ...]:
    """Every piece tried in every length of stock, and left uncut."""
    single = [piece.length_mm for piece in pieces for _ in range(piece.quantity)]
    best: tuple[float, ...] = (float("inf"),)
    for places in product(range(len(stock) + 1), repeat=len(single)):
        merit = _merit_of_places(single, places, stock, kerf_mm, keep_mm)
        if merit is not None:
            best = min(best, merit)
    return best


def _merit_of_places(
    single: list[float], places: tuple[int, ...], stock: list[StockLength], kerf_mm: float, keep_mm: float | None
) -> tuple[float, ...] | None:
    rolls, opened_mm, waste_mm = 0, 0.0, 0.0
    for index, each in enumerate(stock):
        here = [length_mm for length_mm, place in zip(single, places, strict=True) if place == index]
        if not here:
            continue
        rest_mm = each.length_mm - sum(here) - kerf_mm * len(here)
        if rest_mm < -kerf_mm:
            return None
        rest_mm = max(rest_mm, 0.0)
        rolls += not each.is_offcut
        opened_mm += each.length_mm
        waste_mm += 0 if keep_mm is not None and rest_mm >= keep_mm else rest_mm
    return (places.count(len(stock)), rolls, opened_mm, waste_mm)
