"""Cut lists of several lines at once: what is added up, and what of it counts as proven."""

from decimal import Decimal

import pytest

from planner.plan.cut_list import Piece, SearchEffort, StockLength, WhyUncut, find_cut_list


def _piece(id: str, length_mm: float, quantity: int = 1) -> Piece:
    return Piece(id=id, line_id="hose", length_mm=length_mm, quantity=quantity)


def test_of_several_lines_all_is_added_up_and_nothing_is_proven_that_one_of_them_leaves_open() -> None:
    """Housing: 900 from 1000, proven at once. Hose: by hand five rolls where four would do. Wire: two of 700 from one
    length of 1000, one left. The saw takes 2 of a wire, and nothing is kept."""
    pieces = [
        Piece(id="gear", line_id="housing", length_mm=900),
        *(_piece(id, length_mm, n) for id, length_mm, n in (("short", 302, 3), ("middle", 484, 3), ("long", 526, 2))),
        Piece(id="plug", line_id="wire", length_mm=700, quantity=2),
    ]
    stock = [
        StockLength(
            id=f"{line} roll", line_id=line, length_mm=1000, quantity=1 if line == "wire" else None, price=price
        )
        for line, price in (("housing", Decimal(7)), ("hose", Decimal(20)), ("wire", Decimal(5)))
    ]
    hasty = SearchEffort(patterns_at_most=1, nodes_at_most=0, work_at_most=0)
    found = find_cut_list(pieces=pieces, stock=stock, effort=hasty)
    rolls = found.rolls_used
    assert (rolls, found.lower_bound, found.price) == (7, 1 + 4 + 1, Decimal(7 + 5 * 20 + 5))
    assert (found.is_proven, found.is_length_proven, found.is_waste_proven) == (False, False, False)
    assert (found.uncut_n, found.uncut_at_least, found.rolls_above_n) == (1, 1, 1)
    assert found.length_at_least_mm == pytest.approx(1000 + 4000 + 1000)
    assert (found.opened_mm, found.length_above_mm) == (7000, 1000)
    assert found.waste_mm == pytest.approx(7000 - 900 - 3410 - 700)
    alone = [each for each in pieces if each.line_id != "hose"]
    proven = find_cut_list(pieces=alone, stock=stock)
    assert (proven.is_proven, proven.is_length_proven, proven.is_waste_proven) == (True, True, True)
    sawn = find_cut_list(pieces=alone, stock=stock, kerf_mm=2)
    assert (sawn.saw_mm, sawn.waste_mm) == (2 + 2, 98 + 298)


def test_stock_of_which_there_is_none_and_pieces_of_which_none_is_wanted_are_left_out() -> None:
    gone = StockLength(id="gone", line_id="hose", length_mm=5000, quantity=0)
    roll = StockLength(id="roll", line_id="hose", length_mm=2000)
    found = find_cut_list(pieces=[_piece("long", 3000), _piece("none", 100, 0)], stock=[gone, roll])
    assert [(one.piece_id, one.why, one.longest_mm) for one in found.uncut] == [("long", WhyUncut.TOO_LONG, 2000)]
    assert found.opened == ()


def test_pieces_of_one_length_are_handed_out_as_they_were_asked_for() -> None:
    three = find_cut_list(
        pieces=[_piece("a", 400, 2), _piece("b", 400, 3)],
        stock=[StockLength(id="roll", line_id="hose", length_mm=1300, quantity=1)],
    )
    assert [cut.piece_id for cut in three.opened[0].cuts] == ["a", "a", "b"]
    assert [(one.piece_id, one.quantity, one.why) for one in three.uncut] == [("b", 2, WhyUncut.USED_UP)]
