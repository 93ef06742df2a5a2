"""What open jobs take together, against the shelf: counted by hand."""

import csv
from dataclasses import replace
from functools import partial
from io import StringIO

import pytest

from planner import (
    BYTE_ORDER_MARK,
    OpenJob,
    Shelf,
    ShoppingList,
    StockLength,
    find_shopping_list,
    line_rows,
    part_rows,
    shopping_csv,
    shopping_remarks,
)
from planner.parts import Adapter, AdapterKind, MountKind, SmallPart, Workshop
from planner.plan.line_orders import LineOrder, LineToCut, find_line_orders
from planner.plan.routing_plan import PartNeeded
from planner.plan.shopping import PartToBuy
from tests.builders import make_workshop


def _needs(**quantities: int) -> tuple[PartNeeded, ...]:
    return tuple(PartNeeded(id=id, name=id.title(), quantity=quantity) for id, quantity in quantities.items())


def _shelf(*adapters: Adapter, **counts: int | None) -> Workshop:
    parts = {id: SmallPart(id=id, name=id.title(), on_shelf=count) for id, count in counts.items()}
    return replace(make_workshop(), small_parts=parts, adapters=adapters)


def test_need_is_added_up_and_the_shelf_taken_off_once() -> None:
    jobs = (OpenJob(id="a", parts=_needs(olive=2, stud=1)), OpenJob(id="b", parts=_needs(olive=3)))
    found = find_shopping_list(jobs, workshop=_shelf(olive=4, stud=7))
    assert found.parts == (
        PartToBuy(id="olive", name="Olive", need=5, have=4, job_ids=("a", "b")),
        PartToBuy(id="stud", name="Stud", need=1, have=7, job_ids=("a",)),
    )
    assert [part.to_buy for part in found.parts] == [1, 0]


def test_what_nobody_counted_is_bought_in_full_and_said_not_to_be_counted() -> None:
    jobs = (OpenJob(id="a", parts=_needs(olive=2, spacer=1, washer=1)),)
    found = find_shopping_list(jobs, workshop=_shelf(olive=None, washer=0))
    assert [(part.have, part.to_buy) for part in found.parts] == [(None, 2), (None, 1), (0, 1)]
    assert [row[3] for row in part_rows(found)] == ["not counted", "not counted", "0 pieces"]
    assert any(remark.startswith("What nobody counted is bought in full") for remark in shopping_remarks(found))


def test_a_job_without_a_plan_is_named() -> None:
    found = find_shopping_list((OpenJob(id="a"),), workshop=_shelf())
    assert (found.parts, found.without_plan) == ((), ("a",))
    assert shopping_remarks(found) == ["Without a plan to work from, and so not counted: a."]
    assert shopping_remarks(ShoppingList()) == []


def test_an_adapter_is_counted_as_a_small_part_is() -> None:
    adapter = Adapter(
        id="plus-20",
        name="Plus 20",
        kind=AdapterKind.POST_STEP,
        frame_mount=MountKind.POST,
        caliper_mount=MountKind.POST,
        step_mm=20.0,
        on_shelf=1,
    )
    found = find_shopping_list((OpenJob(id="a", parts=_needs(**{"plus-20": 3})),), workshop=_shelf(adapter))
    assert part_rows(found) == [("Plus-20", "a", "3 pieces", "1 piece", "2 pieces")]


HOSE = partial(LineToCut, line_id="hose", line_name="Hose")
WANTED = (HOSE(length_mm=1500.0, job_id="a"), HOSE(length_mm=1400.0, job_id="b"), HOSE(length_mm=1400.0, job_id="c"))
SOLD = StockLength(id="roll", line_id="hose", length_mm=2500.0)


def _orders(*lengths: StockLength) -> LineOrder:
    (order,) = find_line_orders(WANTED, shelf=Shelf(lengths=lengths))
    return order


def _told(order: LineOrder) -> tuple[str, ...]:
    return line_rows(ShoppingList(lines=(order,)))[0][2:]


NEED = "1 × 1500 mm + 2 × 1400 mm"


@pytest.mark.parametrize(
    ("lengths", "have", "to_buy"),
    [
        ((), "none", NEED),
        ((SOLD,), "none", "3 × 2500 mm (roll)"),
        (
            (StockLength(id="wall", line_id="hose", length_mm=2900.0, quantity=1), SOLD),
            "1 × 2900 mm, enough for 2 pieces",
            None,
        ),
        (
            (StockLength(id="wall", line_id="hose", length_mm=5000.0, quantity=1),),
            "1 × 5000 mm, enough for 3 pieces",
            "",
        ),
        (
            (StockLength(id="end", line_id="hose", length_mm=1450.0, quantity=2),),
            "2 × 1450 mm, enough for 2 pieces",
            "1 × 1500 mm",
        ),
        ((StockLength(id="wall", line_id="other", length_mm=5000.0, quantity=1),), "none", NEED),
    ],
    ids=[
        "nothing is there and nothing is sold by the roll",
        "each roll gives one piece, 1400 + 1400 > 2500",
        "the shelf goes first: two of 2900 and one from a roll",
        "the shelf gives all, 1500 + 2 · 1400 = 4300",
        "two offcuts give both short ones, the long one is bought by itself",
        "another line is of no use",
    ],
)
def test_lines_come_from_the_shelf_first(lengths: tuple[StockLength, ...], have: str, to_buy: str | None) -> None:
    assert _told(_orders(*lengths)) == (NEED, have, "1 × 2500 mm (roll)" if to_buy is None else to_buy or "nothing")


def test_a_saw_that_takes_something_is_counted() -> None:
    wall = StockLength(id="wall", line_id="hose", length_mm=4300.0, quantity=1)
    (order,) = find_line_orders(WANTED, shelf=Shelf(lengths=(wall,), kerf_mm=1.0))
    assert order.lengths_mm in ((1500.0,), (1400.0,))
    (order,) = find_line_orders(WANTED, shelf=Shelf(lengths=(wall,)))
    assert order.lengths_mm == ()


def test_what_is_not_known_or_not_cut_here_is_said() -> None:
    own = LineToCut(line_id="", line_name="Brake", length_mm=900.0, job_id="a")
    lines = find_line_orders((own, HOSE(length_mm=None, job_id="b")), shelf=Shelf(lengths=(SOLD,)))
    assert line_rows(ShoppingList(lines=lines)) == [
        ("Brake", "a", "1 × 900 mm", "not counted", "1 × 900 mm"),
        ("Hose", "b", "1 piece of a length not known", "none", "not known"),
    ]
    told = " ".join(shopping_remarks(ShoppingList(lines=lines)))
    assert "an end set at the factory" in told
    assert "No stock was told" not in told
    assert "No stock was told" in " ".join(shopping_remarks(ShoppingList(lines=find_line_orders(WANTED, shelf=None))))


def test_the_table_for_a_spreadsheet_leaves_empty_what_is_not_known() -> None:
    wanted = (HOSE(length_mm=1640.5, job_id="a"), HOSE(length_mm=2600.0, job_id="b"))
    found = ShoppingList(
        parts=(PartToBuy(id="olive", name="=Olive", need=2, have=None, job_ids=("a", "b")),),
        lines=find_line_orders(wanted, shelf=Shelf(lengths=(SOLD,))),
    )
    rows = list(csv.reader(StringIO(shopping_csv(found).removeprefix(BYTE_ORDER_MARK))))
    assert rows[1:] == [
        ["part", "olive", "'=Olive", "2", "", "2", "", "a b", "pieces"],
        ["line", "hose", "Hose", "1", "", "", "1640.5", "a", "pieces"],
        ["line", "hose", "Hose", "1", "", "", "2600", "b", "pieces"],
        ["roll", "roll", "Hose", "", "", "1", "2500", "", "rolls"],
        ["length", "hose", "Hose", "", "", "1", "2600", "", "pieces"],
    ]
