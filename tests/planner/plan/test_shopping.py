"""What open jobs take together, against the shelf: counted by hand."""

import csv
from io import StringIO

from planner import (
    BYTE_ORDER_MARK,
    OpenJob,
    ShoppingList,
    find_shopping_list,
    part_rows,
    shopping_csv,
    shopping_remarks,
)
from planner.parts import SmallPart
from planner.plan.routing_plan import PartNeeded
from planner.plan.shopping import LineToCut, PartToBuy


def _needs(**quantities: int) -> tuple[PartNeeded, ...]:
    return tuple(PartNeeded(id=id, name=id.title(), quantity=quantity) for id, quantity in quantities.items())


def _shelf(**counts: int | None) -> dict[str, SmallPart]:
    return {id: SmallPart(id=id, name=id.title(), on_shelf=count) for id, count in counts.items()}


def test_need_is_added_up_and_the_shelf_taken_off_once() -> None:
    jobs = (OpenJob(id="a", parts=_needs(olive=2, stud=1)), OpenJob(id="b", parts=_needs(olive=3)))
    found = find_shopping_list(jobs, small_parts=_shelf(olive=4, stud=7))
    assert found.parts == (
        PartToBuy(id="olive", name="Olive", need=5, have=4, job_ids=("a", "b")),
        PartToBuy(id="stud", name="Stud", need=1, have=7, job_ids=("a",)),
    )
    assert [part.to_buy for part in found.parts] == [1, 0]


def test_what_nobody_counted_is_bought_in_full_and_said_not_to_be_counted() -> None:
    jobs = (OpenJob(id="a", parts=_needs(olive=2, spacer=1, washer=1)),)
    found = find_shopping_list(jobs, small_parts=_shelf(olive=None, washer=0))
    assert [(part.have, part.to_buy) for part in found.parts] == [(None, 2), (None, 1), (0, 1)]
    assert [row[3] for row in part_rows(found)] == ["not counted", "not counted", "0"]
    assert any(remark.startswith("What nobody counted is bought in full") for remark in shopping_remarks(found))


def test_a_job_without_a_plan_is_named() -> None:
    found = find_shopping_list((OpenJob(id="a"),), small_parts={})
    assert (found.parts, found.without_plan) == ((), ("a",))
    assert shopping_remarks(found) == ["Without a plan to work from, and so not counted: a."]
    assert shopping_remarks(ShoppingList()) == []


def test_the_table_for_a_spreadsheet_leaves_empty_what_is_not_known() -> None:
    found = ShoppingList(
        parts=(PartToBuy(id="olive", name="=Olive", need=2, have=None, job_ids=("a", "b")),),
        lines=(LineToCut(line_name="Hose", length_mm=1640.5, job_id="a"),),
    )
    rows = list(csv.reader(StringIO(shopping_csv(found).removeprefix(BYTE_ORDER_MARK))))
    assert rows[1:] == [
        ["part", "olive", "'=Olive", "2", "", "2", "", "a b"],
        ["line", "", "Hose", "1", "", "", "1640.5", "a"],
    ]
