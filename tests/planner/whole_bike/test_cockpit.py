"""The worked example by hand: which orders work, what forbids the others, what is told where none does.

The cord that leads the lamp's wire in is 5.4 thick at its joint, the old hose 5.0, the new one 5.5. Beside the old hose
a guide must hold 10.4, beside the new one 10.9.
"""

from dataclasses import replace
from itertools import pairwise, permutations

import pytest

from planner.outcomes import Outcome
from planner.parts import StayingLine, Visit
from planner.whole_bike.changes import StepKind
from planner.whole_bike.reasons import find_conflict, find_forced
from planner.whole_bike.visit_builder import plan_visit
from planner.whole_bike.visit_search import VisitSearch, find_visit_order
from planner.whole_bike.visit_ways_out import VisitWayOut, VisitWayOutKind, find_visit_ways_out
from tests.planner.whole_bike.cockpit import cockpit, mirrored, planned, workshop


def order_of(visit: Visit, *, most_packings: int = 20_000) -> tuple[Outcome, list[str]]:
    answer, _ = find_visit_order(visit=visit, workshop=workshop(), most_packings=most_packings)
    found = answer.found
    places = () if found.order is None else found.order.places
    return answer.outcome, [f"{found.chosen[n].change.line_ids[0]} {found.chosen[n].change.kind}" for n in places]


def works_in_order(search: VisitSearch, ids: tuple[str, ...]) -> bool:
    """Whether this very order works."""
    kinds = {line.id: StepKind.SWAP if line.old is not None else StepKind.IN for line in search.visit.lines}
    changes = [(line_id, kinds[line_id]) for line_id in ids]
    wishes = frozenset((a, b) for a, b in pairwise(changes))
    _, found = search.find(lines=search.visit.lines, levels=(Outcome.TIGHT,), first_before=wishes)
    return found.order is not None


def test_the_lamp_goes_in_before_the_hose_becomes_thicker() -> None:
    outcome, order = order_of(cockpit())
    assert outcome is Outcome.TIGHT  # 0.20 on two diameters, less than the running clearance in the worst case
    assert order.index("lamp in") < order.index("rear-brake swap")


def test_of_the_24_orders_of_whole_swaps_those_work_that_keep_this_one_rule() -> None:
    _, search = find_visit_order(visit=cockpit(takes_out_first=False), workshop=workshop())
    ids = [line.id for line in search.visit.lines]
    works = {order: works_in_order(search, order) for order in permutations(ids)}
    assert works == {order: order.index("lamp") < order.index("rear-brake") for order in works}
    assert sum(works.values()) == 12


def test_the_reason_is_told_with_its_place_and_what_lacks() -> None:
    answer, search = find_visit_order(visit=cockpit(), workshop=workshop())
    (forced,) = find_forced(search=search, answer=answer)
    assert (forced.before, forced.after) == (("lamp", StepKind.IN), ("rear-brake", StepKind.SWAP))
    assert forced.obstacle.places == ("stay-run",)
    assert forced.obstacle.missing_mm == pytest.approx((10.9 - 10.6) / 2)
    assert (forced.with_ids, forced.follows) == ((), False)


def test_where_no_swap_works_the_old_hose_comes_out_first() -> None:
    outcome, order = order_of(cockpit(guide_mm=10.2))
    assert outcome is Outcome.FITS  # with nothing but the lamp's cord in the guide, and then 5.4 beside 2.5
    assert order.index("rear-brake out") < order.index("lamp in") < order.index("rear-brake in")


@pytest.mark.parametrize("guide_mm", [10.2, 10.3, 10.39])
def test_without_that_two_lines_forbid_every_order(guide_mm: float) -> None:
    visit = cockpit(guide_mm=guide_mm, takes_out_first=False)
    answer, search = find_visit_order(visit=visit, workshop=workshop())
    assert answer.outcome is Outcome.NO_FIT
    conflict = find_conflict(search=search, level=Outcome.UNKNOWN, splits=True)
    assert conflict is not None
    assert (conflict.line_ids, conflict.obstacle.places) == (("lamp", "rear-brake"), ("stay-run",))
    assert conflict.obstacle.missing_mm == pytest.approx((10.4 - guide_mm) / 2)
    assert not conflict.at_the_end


def test_a_hair_more_and_an_order_works() -> None:
    assert order_of(cockpit(guide_mm=10.4, takes_out_first=False))[0] is Outcome.TIGHT


def test_lines_that_do_not_even_ride_together_are_told_so() -> None:
    visit = cockpit(guide_mm=7.9)  # 5.5 and 2.5 ask 8.0
    answer, search = find_visit_order(visit=visit, workshop=workshop())
    conflict = find_conflict(search=search, level=Outcome.UNKNOWN, splits=True)
    assert answer.outcome is Outcome.NO_FIT
    assert conflict is not None
    assert conflict.line_ids == ("lamp", "rear-brake")
    assert conflict.at_the_end


def test_every_way_out_works_and_a_step_less_does_not() -> None:
    visit = cockpit(guide_mm=10.2, takes_out_first=False)
    _, search = find_visit_order(visit=visit, workshop=workshop())
    conflict = find_conflict(search=search, level=Outcome.UNKNOWN, splits=True)
    assert conflict is not None
    ways = find_visit_ways_out(search=search, conflict=conflict)
    assert VisitWayOut(kind=VisitWayOutKind.TAKE_OUT_FIRST, split=("rear-brake",)) in ways
    assert {way.line_id for way in ways if way.kind is VisitWayOutKind.OUTSIDE} == {"lamp", "rear-brake"}
    (larger,) = (way for way in ways if way.kind is VisitWayOutKind.LARGER_PLACE)
    assert (larger.place_ids, larger.by_mm) == (("stay-run",), pytest.approx(0.2))
    (thinner,) = (way for way in ways if way.kind is VisitWayOutKind.THINNER_LINE)
    assert thinner.line_id == "rear-brake"  # 10.2 less the cord's 5.4 leaves 4.8 for it
    assert thinner.by_mm == pytest.approx(0.7)


def test_lines_in_another_order_in_the_file_give_the_same_order() -> None:
    visit = cockpit()
    a, b, c, d = visit.lines
    told = {tuple(order_of(replace(visit, lines=lines))[1]) for lines in ((a, b, c, d), (d, c, b, a), (b, d, a, c))}
    assert len(told) == 1


def test_wishes_are_kept_and_may_cost_the_order() -> None:
    assert order_of(replace(cockpit(), first=("sensor", "lamp")))[1][:2] == ["sensor in", "lamp in"]
    outcome, order = order_of(replace(cockpit(), first=("rear-brake",)))
    assert outcome is Outcome.NO_FIT  # the cord passes beside the new hose neither before nor after
    assert order == []


def test_where_the_allowance_runs_out_nothing_is_claimed() -> None:
    plan = plan_visit(visit=cockpit(), workshop=workshop(), most_packings=3)
    assert (plan.outcome, plan.is_proven, plan.order) == (Outcome.UNKNOWN, False, ())
    whole = planned()
    assert whole.totals is not None
    assert plan.least_min is not None
    assert plan.least_min <= float(whole.totals.time.mean_min)


def test_the_outcome_of_the_visit_is_that_of_its_worst_line() -> None:
    plan = planned()
    outcomes = {line.line_id: line.plan.outcome for line in plan.lines if line.plan is not None}
    assert outcomes == {
        "gear": Outcome.FITS,
        "sensor": Outcome.FITS,
        "lamp": Outcome.TIGHT,
        "rear-brake": Outcome.FITS,
    }
    assert plan.outcome is Outcome.TIGHT


def test_a_line_that_stays_takes_its_room_like_the_others() -> None:
    visit = cockpit()
    line = next(line for line in visit.lines if line.id == "lamp")
    brake = next(line for line in visit.lines if line.id == "rear-brake")
    assert brake.old is not None
    assert brake.new is not None
    for lies_there, outcome in ((brake.old.line, Outcome.TIGHT), (brake.new.line, Outcome.NO_FIT)):
        stays = StayingLine(line=lies_there, through=brake.old.through)
        assert order_of(replace(visit, lines=(line,), staying=(stays,)))[0] is outcome


@pytest.mark.parametrize("guide_mm", [10.6, 10.2])
def test_a_mirrored_bicycle_has_the_same_order(guide_mm: float) -> None:
    visit = cockpit(guide_mm=guide_mm)
    assert order_of(mirrored(visit)) == order_of(visit)


def test_a_hole_that_nobody_measured_leaves_the_order_unproven_and_is_to_be_measured_first() -> None:
    visit = cockpit()
    neck = replace(visit.frame.ports["shared-neck"], opening=None)
    frame = replace(visit.frame, ports={**visit.frame.ports, "shared-neck": neck})
    plan = plan_visit(visit=replace(visit, frame=frame), workshop=workshop())
    assert plan.outcome is Outcome.UNKNOWN
    assert (plan.steps, plan.totals) == ((), None)
    asked = {item.place_id for line in plan.lines if line.plan is not None for item in line.plan.measure_first}
    assert "shared-neck" in asked
