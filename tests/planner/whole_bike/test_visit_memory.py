"""A visit planned with a memory says what it says without one, and finds anew only the line that changed."""

from collections.abc import Callable
from dataclasses import replace

import pytest

from planner.documents.records.visit_record import visit_as_record
from planner.parts import Visit, VisitLine
from planner.whole_bike import visit_search
from planner.whole_bike.visit_builder import plan_visit
from planner.whole_bike.visit_memory import VisitMemory
from tests.planner.whole_bike.cockpit import cockpit, workshop


def other_hose(visit: Visit) -> Visit:
    """The same with a new hose that is 0.1 thinner."""

    def changed(line: VisitLine) -> VisitLine:
        if line.new is None or line.id != "rear-brake":
            return line
        thin = replace(line.new.line, outer_diameter_mm=5.4)
        return replace(line, new=replace(line.new, line=thin))

    return replace(visit, lines=tuple(changed(line) for line in visit.lines))


CHANGES: dict[str, Callable[[Visit], Visit]] = {
    "a new hose": other_hose,
    "a wish": lambda visit: replace(visit, first=("lamp",)),
    "lines drawn together": lambda visit: replace(visit, together=(("rear-brake", "lamp"),)),
    "a line less": lambda visit: replace(visit, lines=visit.lines[:3]),
    "inserts that stay": lambda visit: replace(visit, may_remove_inserts=False),
    "another frame": lambda _: cockpit(guide_mm=10.2),
}


@pytest.fixture(scope="module")
def memory() -> VisitMemory:
    """Of the cockpit swap; every change is asked of it in turn."""
    found = VisitMemory()
    plan_visit(visit=cockpit(), workshop=workshop(), memory=found)
    return found


@pytest.mark.parametrize("what", CHANGES)
def test_a_changed_visit_is_planned_as_if_nothing_were_remembered(what: str, memory: VisitMemory) -> None:
    visit = CHANGES[what](cockpit())
    remembered = plan_visit(visit=visit, workshop=workshop(), memory=memory)
    anew = plan_visit(visit=visit, workshop=workshop())
    assert visit_as_record(remembered) == visit_as_record(anew)


def test_only_the_line_that_changed_is_found_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    asked: list[tuple[str, ...]] = []
    find = visit_search.find_changes

    def counted(**words: object) -> object:
        asked.append(tuple(line.id for line in words["lines"]))  # type: ignore[attr-defined]
        return find(**words)  # type: ignore[arg-type]

    monkeypatch.setattr(visit_search, "find_changes", counted)
    found = VisitMemory()
    for visit in (cockpit(), cockpit(), replace(cockpit(), first=("lamp",))):
        plan_visit(visit=visit, workshop=workshop(), memory=found)
    assert sorted(asked) == [("gear",), ("lamp",), ("rear-brake",), ("sensor",)]
    packings_n, asked[:] = len(found.places), []
    plan_visit(visit=other_hose(cockpit()), workshop=workshop(), memory=found)
    assert asked == [("rear-brake",)]
    assert len(found.places) > packings_n


def test_a_shop_with_another_clearance_forgets_what_is_known_of_holes(memory: VisitMemory) -> None:
    loose = replace(workshop(), limits=replace(workshop().limits, running_clearance_mm=0.05))
    remembered = plan_visit(visit=cockpit(), workshop=loose, memory=memory)
    assert visit_as_record(remembered) == visit_as_record(plan_visit(visit=cockpit(), workshop=loose))
