"""Rows of the table of all ways, made by hand: which of several comes first, which stand as one, which the plan's is;
and where a no is stopped."""

from dataclasses import replace
from types import SimpleNamespace
from typing import Any

import pytest

from planner.parts import JobEnd, LineKind, RoundOpening
from planner.plan.routing_plan import NoRoute, Rejection
from planner.plan.stops import find_lines_that_pass, find_stops, nearest_miss
from planner.plan.way_out import WayOut, WayOutKind
from planner.plan.way_table import (
    TriedWay,
    WayPlace,
    _alike_as_one,
    _badness,
    _badness_of,
    _either_end,
    _is_plans,
    _one_for_each_end,
    _places,
    _rank,
)
from planner.routing.closest_miss import NearestWay
from planner.routing.run_graph import RunState
from planner.rules import JointRule, PlaceRule
from planner.verdicts import Check, NoWay, Outcome, Room
from tests.builders import make_job, make_lane_frame, make_line, make_port

FITS, TIGHT, UNKNOWN, NO_FIT = Outcome.FITS, Outcome.TIGHT, Outcome.UNKNOWN, Outcome.NO_FIT


def hole(outcome: Outcome = NO_FIT, room_mm: float | None = -0.3, *, port_id: str = "p", **told: Any) -> Check:
    return Check(rule=PlaceRule.PORT_CLEARANCE, outcome=outcome, clearance_mm=room_mm, port_id=port_id, **told)


def row(name: str = "stud", end: JobEnd | None = JobEnd.FROM, **changes: Any) -> TriedWay:
    """A method that works, with one place."""
    cell = changes.pop("cell", hole(FITS, 0.5))
    fields = {"outcome": FITS, "itself": None, "cells": (cell,), "checks": (cell,), "decider": cell}
    return TriedWay(method_ids=(name,), feed_from=end, **{**fields, **changes})


NO_JOINT = Check(rule=JointRule.STUD_SQUEEZE, outcome=NO_FIT, clearance_mm=-0.1)
ON_FITTING = Check(rule=JointRule.LEADING_JOINT, outcome=NO_FIT)


def test_rows_are_ranked_by_outcome_joint_worst_place_and_what_it_lacks() -> None:
    in_order = [
        row(),
        row(outcome=TIGHT),
        row(outcome=NO_FIT, cell=hole(UNKNOWN, 0.1)),
        row(outcome=NO_FIT, cell=hole(NO_FIT, -0.1)),
        row(outcome=NO_FIT, cell=hole(NO_FIT, -0.3), itself=ON_FITTING),  # its size is known all the same
        row(outcome=NO_FIT, cell=hole(NO_FIT, None)),
        row(outcome=NO_FIT, itself=NO_JOINT, cell=hole(FITS, 0.5)),
    ]
    assert sorted((in_order[n] for n in (3, 6, 0, 5, 2, 4, 1)), key=_badness_of) == in_order
    assert _badness_of(row(decider=None)) == (0, 0, 0, float("inf"))


def test_of_the_nearest_ways_one_that_lacks_nothing_is_first_then_what_is_not_measured_then_what_lacks_least() -> None:
    misses = (None, hole(UNKNOWN, 0.1), hole(UNKNOWN, None), hole(NO_FIT, -0.1), hole(NO_FIT, -0.3), hole(NO_FIT, None))
    in_order = [NearestWay(way=(), miss=miss) for miss in misses]
    assert sorted((in_order[n] for n in (3, 5, 0, 2, 4, 1)), key=_badness) == in_order


def test_of_one_method_and_end_the_row_that_comes_furthest_is_kept() -> None:
    near, far = row(outcome=NO_FIT, cell=hole(room_mm=-0.1)), row(outcome=NO_FIT, cell=hole(room_mm=-0.3))
    other_end, other = replace(far, feed_from=JobEnd.TO), replace(far, method_ids=("sleeve",))
    assert _one_for_each_end([far, near, other_end, other]) == [near, other_end, other]
    assert _one_for_each_end([near, far]) == [near]
    assert _one_for_each_end([near, replace(near, other_way=("q",))]) == [near]  # of equals the first


def test_rows_that_come_out_alike_from_both_ends_stand_as_one() -> None:
    there, back = row(), row(end=JobEnd.TO)
    assert list(_either_end([there, back])) == [replace(there, feed_from=None)]
    hardly = replace(back, cells=(hole(FITS, 0.5049),))  # alike to a hundredth
    assert [one.feed_from for one in _either_end([there, replace(hardly, decider=hardly.cells[0])])] == [None]
    for differs in (
        row(end=JobEnd.TO, cell=hole(FITS, 0.52)),
        replace(back, outcome=TIGHT),
        replace(back, itself=ON_FITTING),
        replace(back, other_way=("q",)),
        replace(back, cells=(None,)),
        replace(back, decider=None),
        replace(back, method_ids=("sleeve",)),
    ):
        assert list(_either_end([there, differs])) == [there, differs]


def plan_of(method_id: str | None, end: JobEnd | None = JobEnd.FROM, *options: str) -> Any:
    return SimpleNamespace(
        method_id=method_id, feed_from=end, options=[SimpleNamespace(method_id=option) for option in options]
    )


def test_the_row_of_the_plan_is_its_methods_from_its_end_or_from_either() -> None:
    plan = plan_of("stud")
    assert _is_plans(row(), plan)
    assert _is_plans(row(end=None), plan)
    assert not _is_plans(row(end=JobEnd.TO), plan)
    assert not _is_plans(row("sleeve"), plan)


def test_methods_that_come_out_alike_stand_as_one_row_and_the_plans_own_alone() -> None:
    rows = [row("stud"), row("sleeve"), row("spoke"), row("cord", outcome=TIGHT), row("sleeve", JobEnd.TO)]
    assert [one.method_ids for one in _alike_as_one(rows, plan_of("stud"))] == [
        ("stud",),
        ("sleeve", "spoke"),
        ("cord",),
        ("sleeve",),
    ]
    assert _alike_as_one(rows[:3], plan_of(None))[0].method_ids == ("stud", "sleeve", "spoke")


def test_the_plans_own_row_is_first_then_what_works_in_its_order_then_what_comes_nearest() -> None:
    plan = plan_of("stud", JobEnd.FROM, "stud", "spoke", "sleeve")
    in_order = [
        row("stud"),
        row("spoke"),
        row("sleeve"),
        row("cord"),
        row("tight", outcome=TIGHT),
        row("near", outcome=NO_FIT, cell=hole(room_mm=-0.1)),
        row("spoke", JobEnd.TO, outcome=NO_FIT, cell=hole(room_mm=-0.2)),
    ]
    assert sorted((in_order[n] for n in (6, 4, 0, 3, 5, 1, 2)), key=lambda one: _rank(one, plan)) == in_order


def test_the_cell_that_decides_is_the_deciders_own() -> None:
    first, second = hole(FITS, 0.5), hole(FITS, 0.2, port_id="q")
    assert row(cells=(None, first, second), decider=second).decides_at == 2
    assert row(cells=(None, None), decider=first).decides_at is None
    assert row(cells=(None, None), decider=None).decides_at is None


def test_ports_are_numbered_along_the_way_and_runs_by_the_port_before() -> None:
    job = make_job(make_lane_frame((8.0, 8.0)))
    states = [RunState("start", "to-0"), RunState("in-0", "through-0"), RunState("out-0", "from-0")]
    assert _places(states, job) == [
        WayPlace(id="to-0", is_port=False, number=0),
        WayPlace(id="in-0", is_port=True, number=1),
        WayPlace(id="through-0", is_port=False, number=1),
        WayPlace(id="out-0", is_port=True, number=2),
        WayPlace(id="from-0", is_port=False, number=2),
    ]


def told(check: Check) -> Rejection:
    return Rejection(method_id="stud", feed_from=JobEnd.FROM, check=check)


def stopped(*rejected: Check, misses: tuple[Check, ...] = (), **no_route: Any) -> Any:
    fields: dict[str, Any] = {"reason": NoWay.STOPPED, "ports": ("p", "q"), "runs": ("r",)}
    route = NoRoute(**{**fields, "closest_misses": tuple(told(miss) for miss in misses), **no_route})
    return SimpleNamespace(no_route=route, rejected=tuple(told(check) for check in rejected))


def test_the_nearest_miss_is_the_one_that_lacks_least_where_methods_are_what_is_short() -> None:
    near, far = hole(room_mm=-0.1), hole(room_mm=-0.3, port_id="q")
    found = nearest_miss(stopped(misses=(far, near)).no_route)
    assert found is not None
    assert found.check is near
    assert nearest_miss(stopped().no_route) is None
    assert nearest_miss(stopped(misses=(near,), reason=NoWay.NOT_LINKED).no_route) is None


def test_of_every_stopping_place_the_nearest_miss_is_told_and_the_verdicts_first() -> None:
    verdicts, nearer = hole(room_mm=-0.2), hole(room_mm=-0.1)
    elsewhere, bend = hole(room_mm=-0.5, port_id="q"), Check(rule=PlaceRule.BEND_RADIUS, outcome=NO_FIT, run_id="r")
    plan = stopped(
        elsewhere,
        hole(room_mm=-0.4, port_id="q"),
        hole(room_mm=-0.6, port_id="q"),
        nearer,
        hole(UNKNOWN, -0.1, port_id="q"),  # not known is no stop
        hole(room_mm=-0.01, port_id="aside"),  # not one of those that stop every way
        replace(ON_FITTING, port_id="q"),
        bend,
        NO_JOINT,
        misses=(verdicts,),
    )
    assert [(stop.place_id, stop.check.clearance_mm) for stop in find_stops(plan)] == [
        ("p", -0.2),
        ("q", -0.4),
        ("r", None),
    ]


def test_the_opening_that_would_do_is_told_with_the_miss_it_was_found_for() -> None:
    larger = RoundOpening(diameter_mm=5.5, tolerance_mm=0.1)
    way = WayOut(kind=WayOutKind.LARGER_HOLE, port_id="p", size_mm=0.2, opening=larger)
    insert = replace(way, kind=WayOutKind.WIDER_INSERT, port_id="q", size_mm=0.3)
    plan = stopped(hole(room_mm=-0.3, port_id="q"), misses=(hole(room_mm=-0.2001),), ways_out=(way, insert))
    assert [stop.needed for stop in find_stops(plan)] == [larger, None]
    other = stopped(misses=(hole(room_mm=-0.3),), ways_out=(way,))
    assert [stop.needed for stop in find_stops(other)] == [None]


@pytest.mark.parametrize(("size_mm", "passes"), [(6.8, True), (7.0, True), (7.01, False)])
def test_lines_that_pass_a_hole_alone_are_told_with_what_they_leave(size_mm: float, passes: bool) -> None:
    room = Room(opening=RoundOpening(diameter_mm=7.0, tolerance_mm=0.1))
    line = make_line(outer_diameter_mm=size_mm, outer_tolerance_mm=0.0)
    found = find_lines_that_pass(hole(room=room), None, lines=[line], running_clearance_mm=0.2)
    assert found == ({"hose": pytest.approx(7.0 - size_mm)} if passes else {})


def test_lines_are_not_looked_for_where_a_hole_is_not_known_or_shared_or_takes_another_kind() -> None:
    room = Room(opening=RoundOpening(diameter_mm=7.0, tolerance_mm=0.1))
    asked = {"lines": [make_line()], "running_clearance_mm": 0.2}
    assert find_lines_that_pass(hole(), None, **asked) is None  # type: ignore[arg-type]
    assert find_lines_that_pass(hole(room=Room(opening=None)), None, **asked) is None  # type: ignore[arg-type]
    assert find_lines_that_pass(hole(room=room, with_ids=("gear",)), None, **asked) is None  # type: ignore[arg-type]
    stiff = replace(hole(room=room), rule=PlaceRule.WALL_ENTRY)
    assert find_lines_that_pass(stiff, None, **asked) is None  # type: ignore[arg-type]
    for admits, count in (((), 1), ((LineKind.HYDRAULIC_HOSE,), 1), ((LineKind.INNER_CABLE,), 0)):
        port = make_port("p", admits=admits)
        found = find_lines_that_pass(hole(room=room), port, **asked)  # type: ignore[arg-type]
        assert found is not None
        assert len(found) == count
