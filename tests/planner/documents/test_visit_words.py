"""What is told of several lines together: one work order without doubles, one sheet for what sticks, in order."""

import re
from dataclasses import replace

from planner import needs_of_visit, told_steps
from planner.documents.words.rescue_words import rescue_of_lines
from planner.parts import RescueCase, RescueKind
from planner.plan.routing_plan import RoutingPlan
from tests.planner.whole_bike.cockpit import planned


def test_every_step_is_told_once_in_its_order_and_its_minutes_are_kept() -> None:
    plan = planned()
    rows = told_steps(plan)
    numbers: list[int] = []
    for row in rows:
        first, _, last = row.numbers.partition("–")
        numbers += range(int(first), int(last or first) + 1)
    assert numbers == [row.n for row in plan.steps]
    assert len(rows) < len(plan.steps)
    (power,) = (row for row in rows if row.step.id == "plug-in")
    alone = [row.step for row in plan.steps if row.step.id == "plug-in"]
    assert set(power.whose.split(", ")) == {"sensor", "lamp"}
    assert power.minutes.startswith(f"{sum(step.likely_min for step in alone):.0f} (")


def test_every_caution_is_told_in_full_once() -> None:
    plan = planned()
    told = [*plan.cautions, *(caution for row in told_steps(plan) for caution in row.cautions)]
    asked = {caution for row in plan.steps for caution in row.step.cautions}
    assert len(told) == len(set(told))
    assert set(told) == asked | set(plan.cautions)


def plans() -> dict[str, RoutingPlan]:
    """The four lines of the demo by their letters."""
    found = [line.plan for line in planned().lines]
    return {letter: plan for letter, plan in zip("ABCD", found, strict=True) if plan is not None}


def test_what_sticks_is_told_once_each_line_in_its_own_order() -> None:
    sheet = dict(rescue_of_lines(plans()))
    told = dict(sheet["When it sticks"])["Try, in this order"]
    assert [row.partition(".")[0] for row in told] == [f"{n}" for n in range(1, len(told) + 1)]
    bare = [re.sub(r"^\d+\. ((?:[A-D], )*[A-D]: )?", "", row) for row in told]
    assert len(bare) == len(set(bare))
    for letter, plan in plans().items():
        own = [line.text for line in plan.rescue if (line.case, line.kind) == (RescueCase.STUCK, RescueKind.TRY)]
        assert [row for row in bare if row in own] == own
        for row, text in zip(told, bare, strict=True):
            names_line = re.match(r"^\d+\. ((?:[A-D], )*[A-D]): ", row)
            if text in own and names_line is not None:
                assert letter in names_line[1]


def test_a_line_without_such_a_sheet_takes_nothing_from_the_others() -> None:
    lines = plans()
    silent = {**lines, "A": replace(lines["A"], rescue=())}
    others = {letter: plan for letter, plan in lines.items() if letter != "A"}
    assert list(rescue_of_lines(silent)) == list(rescue_of_lines(others))


def test_tools_and_supplies_are_told_once_for_all_lines() -> None:
    told = needs_of_visit(planned())
    assert len(told) == len(set(told))
    assert {"torque wrench, tape, clips", "new inner cable, cap for it, awl", "fresh seals"} <= set(told)
