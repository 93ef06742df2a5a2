"""The table of all ways: it says what the plan says, place by place, and leaves no method out."""

from dataclasses import replace

import pytest

from planner import find_stops, verdict_sentence, way_out_sentences
from planner.documents.words.check_words import sentence_for
from planner.routing.closest_miss import place_of
from planner.verdicts import Outcome
from tests.planner.plan.way_samples import plan_and_table, stopped_by_size_alone
from tests.ui.noes_of_every_sort import demo_catalog

JOBS = ("trail-rear-brake", "city-cable-stops", "touring-unmeasured", "dropbar-headset")


@pytest.mark.parametrize("name", JOBS)
def test_every_method_of_the_shop_is_told_once_for_each_end(name: str) -> None:
    table = plan_and_table(name)[1]
    told = [
        (method_id, end)
        for row in (*table.ways, *table.unmade)
        for method_id in row.method_ids
        for end in ([row.feed_from] if row.feed_from else ["from", "to"])
    ]
    assert len(told) == len(set(told))
    assert {method_id for method_id, _ in told} == {method.id for method in demo_catalog().workshop.methods}


@pytest.mark.parametrize("name", ["trail-rear-brake", "touring-unmeasured", "dropbar-headset"])
def test_the_plan_stands_first_and_its_cells_are_its_checks(name: str) -> None:
    plan, table = plan_and_table(name)
    first = table.ways[0]
    assert first.method_id == plan.method_id
    for place, cell in zip(table.places, first.cells, strict=True):
        there = ("port" if place.is_port else "run", place.id)
        asked = [check for check in plan.checks if (check.port_id or check.run_id) and place_of(check) == there]
        assert cell in asked
        assert cell is not None
        assert cell.outcome is max(check.outcome for check in asked)
    assert [place.id for place in table.places if place.is_port] == list(plan.route)


def test_of_a_no_the_first_row_decides_where_the_verdict_says() -> None:
    plan, table = plan_and_table("city-cable-stops")
    first = table.ways[0]
    assert first.decides_at == 0
    assert first.decider is not None
    assert sentence_for(first.decider, names=plan.names) in verdict_sentence(plan)
    assert all(row.outcome is Outcome.NO_FIT for row in table.ways)


def test_a_fitting_that_sits_on_the_leading_end_is_told_beside_the_figures() -> None:
    rows = [row for row in plan_and_table("trail-rear-brake")[1].ways if row.itself is not None]
    assert rows
    assert all(row.cells[0] is not None for row in rows)


def test_the_stop_told_first_is_that_of_the_verdict_and_its_opening_suits_its_own_thing() -> None:
    plan = stopped_by_size_alone()
    first, *others = find_stops(plan)
    assert sentence_for(first.check, names=plan.names) in verdict_sentence(plan)
    assert first.needed is not None
    assert first.needed.words == "round 5 mm"
    assert [stop.place_id for stop in others] == ["stop-right"]
    assert others[0].needed is None, "nobody asked how large that one would have to be"


def test_a_hole_for_another_kind_of_line_is_told_no_size_that_would_do() -> None:
    plan = plan_and_table("city-cable-stops")[0]
    stops = find_stops(plan)
    assert [stop.place_id for stop in stops] == ["stop-left", "stop-right"]
    assert [stop.needed for stop in stops] == [None, None]
    told = way_out_sentences(plan)
    assert not [sentence for sentence in told if "would have to be" in sentence]
    assert len([sentence for sentence in told if "whatever its size this line goes another way" in sentence]) == 2


def test_a_plan_and_a_no_by_parts_alone_have_no_stop() -> None:
    without_words = replace(plan_and_table("city-cable-stops")[0], no_route=None)
    assert find_stops(without_words) == ()
    assert find_stops(plan_and_table("trail-rear-brake")[0]) == ()
