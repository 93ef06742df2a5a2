"""Which check decides a plan, in which order checks are read, and how misses are ranked."""

import pytest

from planner.plan.deciding import decider_of, in_reading_order, miss_rank_mm
from planner.rules import JointRule, LengthRule, PlaceRule, Rule
from planner.verdicts import Check, Outcome, State


def check(
    rule: Rule, outcome: Outcome = Outcome.FITS, state: State | None = State.DRAWING, worst_mm: float | None = None
) -> Check:
    return Check(rule=rule, outcome=outcome, state=state, port_id="p", worst_clearance_mm=worst_mm)


HOLE, GUIDE, CAVITY = PlaceRule.PORT_CLEARANCE, PlaceRule.GUIDE_BORE, PlaceRule.ZONE_BORE
FITS, TIGHT, NO_FIT = Outcome.FITS, Outcome.TIGHT, Outcome.NO_FIT


@pytest.mark.parametrize(
    ("checks", "decides"),
    [
        ([check(HOLE, TIGHT, worst_mm=0.1), check(HOLE, FITS, worst_mm=-5.0)], 0),  # the worst outcome
        ([check(HOLE, worst_mm=0.7), check(HOLE, worst_mm=0.4), check(HOLE, worst_mm=0.5)], 1),  # the least room
        ([check(HOLE, worst_mm=0.4), check(HOLE, worst_mm=0.4)], 0),  # of equals the first
        ([check(HOLE, worst_mm=0.4), check(HOLE, worst_mm=None)], 1),  # what is not told may be the least
        ([check(CAVITY, worst_mm=0.1), check(HOLE, worst_mm=0.4)], 1),  # a hole goes before a whole cavity
        ([check(CAVITY, worst_mm=0.1), check(GUIDE, worst_mm=0.4)], 1),
        ([check(PlaceRule.GUIDE_BEND, worst_mm=0.1), check(HOLE, worst_mm=0.4)], 1),  # a stiff piece's spare length
        ([check(HOLE, state=State.RIDING, worst_mm=0.1), check(HOLE, worst_mm=0.4)], 1),  # drawing goes first
        ([check(CAVITY, worst_mm=0.1), check(HOLE, state=State.RIDING, worst_mm=0.4)], 1),
        ([check(CAVITY, worst_mm=0.3), check(CAVITY, worst_mm=0.1)], 1),
        ([check(JointRule.STUD_SQUEEZE, NO_FIT, worst_mm=0.2), check(HOLE, TIGHT, worst_mm=0.0)], 0),
    ],
)
def test_the_worst_outcome_decides_and_of_it_the_hole_with_least_room_while_drawing(
    checks: list[Check], decides: int
) -> None:
    assert decider_of(checks) is checks[decides]


def test_where_nothing_was_checked_nothing_decides() -> None:
    assert decider_of([]) is None


def test_holes_are_read_first_while_drawing_then_while_riding_then_the_rest_as_asked() -> None:
    route = [
        check(CAVITY),
        check(HOLE, state=State.RIDING),
        check(HOLE),
        check(PlaceRule.LEADING_FITTING),
        check(GUIDE),
        check(HOLE),
    ]
    general = [check(LengthRule.SUPPLIED_LENGTH, state=None), check(JointRule.STUD_SQUEEZE)]
    read = in_reading_order(route, general)
    by_identity = [[*route, *general].index(each) for each in read]
    expected = [route[2], route[5], route[1], route[0], route[3], route[4], *general]
    assert len(by_identity) == len(expected)
    assert [id(each) for each in read] == [id(each) for each in expected]


@pytest.mark.parametrize(
    ("port_id", "run_id", "clearance_mm", "rank"),
    [
        ("p", None, -0.3, 0.3),
        (None, "r", -0.3, 0.3),
        ("p", "r", 0.2, -0.2),
        ("p", "r", 0.0, 0.0),
        (None, None, -0.3, float("inf")),
        ("p", "r", None, float("inf")),
    ],
)
def test_a_miss_is_ranked_by_what_is_missing_at_its_place(
    port_id: str | None, run_id: str | None, clearance_mm: float | None, rank: float
) -> None:
    miss = Check(rule=HOLE, outcome=NO_FIT, port_id=port_id, run_id=run_id, clearance_mm=clearance_mm)
    assert miss_rank_mm(miss) == rank
