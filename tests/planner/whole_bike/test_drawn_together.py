"""Lines drawn in with one draw, by hand: the hose of 5.5 joined to the old one, the lamp's wire of 2.5 bound on behind.

Thread and tape add 1.0 to both where the wire is bound to the hose: a guide must hold 6.5 beside 3.5, so 10.0. The
joint before it is 5.74 thick; riding asks 5.5 beside 2.5.
"""

from dataclasses import replace

import pytest

from planner.outcomes import Outcome
from planner.parts import Visit
from planner.whole_bike.changes import StepKind
from planner.whole_bike.drawn_together import NeverTogether
from planner.whole_bike.reasons import Conflict, find_conflict
from planner.whole_bike.visit_builder import plan_visit
from planner.whole_bike.visit_plan import VisitPlan
from planner.whole_bike.visit_search import VisitSearch, find_visit_order
from planner.whole_bike.visit_ways_out import VisitWayOut, VisitWayOutKind, find_visit_ways_out
from tests.planner.whole_bike.cockpit import cockpit, workshop


def pair(guide_mm: float, *, ids: tuple[str, ...] = ("lamp", "rear-brake")) -> Visit:
    """Brake and lamp of the cockpit swap, with guides of this bore, drawn in together."""
    visit = cockpit(guide_mm=guide_mm)
    lines = tuple(line for line in visit.lines if line.id in ids)
    return replace(visit, lines=lines, together=(ids,))


def planned(visit: Visit) -> VisitPlan:
    return plan_visit(visit=visit, workshop=workshop())


def conflict_of(visit: Visit) -> tuple[Conflict, VisitSearch]:
    answer, search = find_visit_order(visit=visit, workshop=workshop())
    assert answer.outcome is Outcome.NO_FIT
    conflict = find_conflict(search=search, level=Outcome.UNKNOWN, splits=True)
    assert conflict is not None
    return conflict, search


def test_the_line_with_the_old_one_leads_and_the_other_follows() -> None:
    plan = planned(pair(10.6))
    (step,) = plan.order
    assert (step.line_id, step.kind, step.together) == ("rear-brake", StepKind.SWAP, ("rear-brake", "lamp"))
    brake, lamp = (line.plan for line in plan.lines)
    assert brake is not None
    assert lamp is not None
    drawn = [check for check in lamp.checks if (check.run_id, check.state.value) == ("stay-run", "drawing")]
    assert [check.clearance_mm for check in drawn] == pytest.approx([(10.6 - 6.5 - 3.5) / 2])
    assert (brake.outcome, lamp.outcome) == (Outcome.FITS, Outcome.TIGHT)
    assert [lamp.names.thing(key) for check in drawn for key in check.with_ids] == [
        "Brake hose 5.5 with bore 2.5, bound round to 6.50"
    ]
    assert any("The Brake hose 5.5 with bore 2.5, bound round" in item.reason for item in lamp.measure_first)


@pytest.mark.parametrize(("guide_mm", "outcome"), [(10.0, Outcome.TIGHT), (9.99, Outcome.NO_FIT)])
def test_the_tied_end_beside_the_bound_line_decides(guide_mm: float, outcome: Outcome) -> None:
    answer, _ = find_visit_order(visit=pair(guide_mm), workshop=workshop())
    assert answer.outcome is outcome


def test_where_they_do_not_pass_together_that_is_told_and_one_by_one_they_do() -> None:
    conflict, search = conflict_of(pair(9.9))
    assert (conflict.line_ids, conflict.is_one_draw) == (("lamp", "rear-brake"), True)
    assert (conflict.obstacle.places, conflict.never, conflict.at_the_end) == (("stay-run",), None, False)
    assert conflict.obstacle.missing_mm == pytest.approx((10.0 - 9.9) / 2)
    ways = find_visit_ways_out(search=search, conflict=conflict)
    apart = VisitWayOut(kind=VisitWayOutKind.ONE_BY_ONE, line_ids=("lamp", "rear-brake"), split=("rear-brake",))
    assert apart in ways


def test_a_catalog_that_says_of_no_joint_how_lines_are_tied_on_draws_one_by_one() -> None:
    untied = tuple(replace(each, tie=None) if hasattr(each, "tie") else each for each in workshop().methods)
    plan = plan_visit(visit=pair(10.6), workshop=replace(workshop(), methods=untied))
    assert plan.conflict is not None
    assert plan.conflict.never is NeverTogether.NO_METHOD


def test_more_lines_than_a_joint_takes_are_not_tied_on() -> None:
    one = tuple(
        replace(each, tie=replace(each.tie, most_n=1)) if getattr(each, "tie", None) else each
        for each in workshop().methods
    )
    visit = pair(14.0)
    wire = next(line for line in visit.lines if line.id == "lamp")
    three = replace(
        visit, lines=(*visit.lines, replace(wire, id="sensor")), together=(("lamp", "rear-brake", "sensor"),)
    )
    plan = plan_visit(visit=three, workshop=replace(workshop(), methods=one))
    assert plan.conflict is not None
    assert plan.conflict.never is NeverTogether.NO_METHOD
    assert planned(three).order[0].together[0] == "rear-brake"


def test_lines_without_a_common_way_are_not_drawn_together() -> None:
    conflict, _ = conflict_of(replace(pair(10.6, ids=("lamp", "sensor")), staying=()))
    assert conflict.never is NeverTogether.NO_SHARED_WAY


def test_the_joint_bears_the_drag_of_all_and_the_hands_mind_the_weakest() -> None:
    plan = planned(pair(10.6))
    brake, lamp = (line.plan.joint for line in plan.lines if line.plan is not None)
    alone = planned(replace(pair(10.6), together=(), may_take_out_first=False))
    single = {line.line_id: line.plan.joint for line in alone.lines if line.plan is not None}
    assert brake is not None
    assert lamp is not None
    assert single["rear-brake"] is not None
    assert lamp.drag_n is not None
    both_n = single["rear-brake"].drag_n + lamp.drag_n
    assert brake.drag_n == pytest.approx(both_n, rel=0.01)  # each line's own curve is a little another one
    assert (brake.advice, brake.ease_up_to_n) == (lamp.advice, lamp.ease_up_to_n)
    assert brake.ease_up_to_n == pytest.approx(
        15 / workshop().limits.pull_margin_ratio
    )  # the tie holds 15, less than any stud


def test_the_steps_of_one_draw_stand_in_the_order_of_the_hands() -> None:
    rows = [(step.step.id, step.line_ids) for step in planned(pair(10.6)).steps]
    told = [
        rows.index((step_id, (line_id,)))
        for step_id, line_id in (
            ("cut-old", "rear-brake"),
            ("join-coupler", "rear-brake"),
            ("tie-on", "lamp"),
            ("feed-easing", "rear-brake"),
            ("joint-out", "rear-brake"),
            ("tie-out", "lamp"),
        )
    ]
    assert told == sorted(told)
    assert not [row for row in rows if row[0] in ("fish-leader", "join-leader", "feed-leader")]


def test_a_tied_line_may_be_told_from_its_other_end() -> None:
    visit = pair(10.6)
    turned = tuple(
        replace(line, from_anchor_id=line.to_anchor_id, to_anchor_id=line.from_anchor_id) if line.id == "lamp" else line
        for line in visit.lines
    )
    plan = planned(replace(visit, lines=turned))
    brake, lamp = (line.plan for line in plan.lines if line.plan is not None)
    assert lamp.feed_from is brake.feed_from.other  # the same end of the bicycle
    assert lamp.route == brake.route[::-1]


def test_what_is_wished_for_one_of_a_draw_holds_for_all() -> None:
    visit = replace(cockpit(), together=(("rear-brake", "lamp"),))
    for wish in ({"first": ("lamp",)}, {"before": (("lamp", "gear"), ("lamp", "sensor"))}):
        assert drawn_first(replace(visit, **wish)) == ("rear-brake", "lamp")
    assert drawn_first(replace(visit, before=(("gear", "lamp"),))) != ("rear-brake", "lamp")


def drawn_first(visit: Visit) -> tuple[str, ...]:
    """The lines of the first step."""
    found = find_visit_order(visit=visit, workshop=workshop())[0].found
    assert found.order is not None
    return found.chosen[found.order.places[0]].change.line_ids


def test_where_only_the_wish_for_an_order_forbids_one_that_is_told() -> None:
    plan = planned(replace(cockpit(takes_out_first=False), before=(("rear-brake", "lamp"),)))
    assert (plan.outcome, plan.conflict) == (Outcome.NO_FIT, None)
    assert [way.kind for way in plan.ways_out] == [VisitWayOutKind.OTHER_ORDER]
