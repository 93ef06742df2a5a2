"""The old line as the measure of the new one.

Worked by hand: 1451 mm seen between the old fittings, 12 + 10 mm into the new ones, 10 mm to trim: 1483, rounded up to
1485. With 19 mm bitten and 20 mm undone 1522, so 1525. The same line with both fittings on, 18 and 22 mm long, is 1491.
"""

from dataclasses import replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner import plan_as_record, plan_job
from planner.parts import FittingStyle, Job, LineEnd, MovesWith, OldLine, OldMeasured, SetBy
from planner.plan.cut_length import find_lengths
from planner.plan.leg_lengths import find_legs
from planner.plan.lengths import Lengths
from planner.plan.old_line_length import find_visible_mm
from planner.rules import OldLineRule
from tests.planner.plan.level_samples import demo_job, holes_only
from tests.planner.plan.test_told_lengths import with_lengths

BETWEEN = OldMeasured.BETWEEN_FITTINGS


def job_with(**old: Any) -> Job:
    """The trail job on its frame without places, with what is told of the old line."""
    job = holes_only(demo_job("trail-rear-brake")[0])
    assert job.old is not None
    told = {"measured": BETWEEN, "measured_length_mm": 1451.0, "move_from_mm": 0.0, "is_reached": True}
    return replace(job, old=replace(job.old, **{**told, **old}))


def lengths_of(job: Job, **more: Any) -> Lengths:
    """Its lengths on its old way."""
    legs = find_legs(frame=job.frame, line=job.new.line)
    return find_lengths(job=job, legs=list(legs.values()), limits=demo_job("trail-rear-brake")[1].limits, **more)


def asked(job: Job, **more: Any) -> list[OldLineRule]:
    """What is asked of the old line."""
    rules = [check.rule for check in lengths_of(job, **more).old_line_checks]
    assert all(isinstance(rule, OldLineRule) for rule in rules)
    return [OldLineRule(rule) for rule in rules]


def test_the_trail_line_as_worked_by_hand() -> None:
    found = lengths_of(job_with())
    assert (found.need_mm, found.cut_mm, found.spare_mm, found.known) == (1451, 1485, 615, True)
    assert (found.is_from_old_line, found.posture, found.old_line_checks) == (True, "as the old line lay", ())
    assert [leg.high_mm is None for leg in found.legs].count(True) == 4


def test_what_a_joint_bit_into_and_what_is_lost_at_an_undone_end_is_added() -> None:
    assert lengths_of(job_with(), bitten_mm=19, undone_mm=20).cut_mm == 1525


@pytest.mark.parametrize(
    ("move", "cut_mm"), [((12, -8), 1490), ((0, 0), 1485), ((2, 0), 1485), ((2.1, 0), 1490), ((-33, 0), 1450)]
)
def test_moved_outlets_are_counted(move: tuple[float, float], cut_mm: float) -> None:
    # 1483 and 12 - 8 are 1487; 1485 and 1450 are met exactly
    found = lengths_of(job_with(move_from_mm=move[0], move_to_mm=move[1]))
    assert found.cut_mm == cut_mm
    assert found.old_line_checks == ()


def workshop_end(length_mm: float, depth_mm: float) -> LineEnd:
    """An end that was set in a workshop."""
    fitting = holes_only(demo_job("trail-rear-brake")[0]).new.from_end.fitting
    assert fitting is not None
    changed = replace(fitting, length_mm=length_mm, insertion_depth_mm=depth_mm, set_by=SetBy.WORKSHOP)
    return LineEnd(fitting=replace(changed, style=FittingStyle.COMPRESSION), is_fitted=True)


@pytest.mark.parametrize(
    ("measured", "length_mm"),
    [(BETWEEN, 1451.0), (OldMeasured.CUT_ENDS, 1451.0 + 12 + 9), (OldMeasured.WITH_FITTINGS, 1451.0 + 18 + 22)],
)
def test_three_ways_of_measuring_tell_the_same(measured: OldMeasured, length_mm: float) -> None:
    ends = {"from_end": workshop_end(18, 12), "to_end": workshop_end(22, 9)}
    found = lengths_of(job_with(measured=measured, measured_length_mm=length_mm, **ends))
    assert (found.need_mm, found.cut_mm) == (1451, 1485)


def test_a_bare_end_goes_into_nothing() -> None:
    bare = job_with(measured=OldMeasured.CUT_ENDS, from_end=LineEnd(), to_end=LineEnd())
    assert lengths_of(bare).need_mm == 1451


def test_a_crimped_end_has_no_depth_so_it_is_asked_between_fittings() -> None:
    cut_ends = job_with(measured=OldMeasured.CUT_ENDS, measured_length_mm=1473.0)
    assert asked(cut_ends) == [OldLineRule.DEPTH]
    assert (lengths_of(cut_ends).known, lengths_of(cut_ends).cut_mm) == (False, None)
    assert asked(job_with(measured=OldMeasured.WITH_FITTINGS, measured_length_mm=1491.0)) == []


def test_what_is_all_fitting_is_no_measure() -> None:
    short = job_with(measured=OldMeasured.WITH_FITTINGS, measured_length_mm=40.0)
    assert asked(short) == [OldLineRule.TOO_SHORT]
    assert asked(job_with(measured_length_mm=60.0, move_to_mm=-60.0)) == [OldLineRule.TOO_SHORT]
    assert asked(job_with(measured_length_mm=60.0, move_to_mm=-59.0)) == []


def test_another_way_and_a_line_that_did_not_reach_tell_nothing() -> None:
    assert asked(job_with(), leaves_old_way=True) == [OldLineRule.OTHER_WAY]
    assert not lengths_of(job_with(), leaves_old_way=True).known
    assert asked(job_with(is_reached=False)) == [OldLineRule.NOT_REACHED]
    assert not lengths_of(job_with(is_reached=False)).known


def test_what_was_not_told_is_asked_and_the_length_stands() -> None:
    job = job_with(move_from_mm=None, is_reached=None)
    assert asked(job) == [OldLineRule.MOVE, OldLineRule.REACHED]
    assert lengths_of(job).cut_mm == 1485
    (move, _) = lengths_of(job).old_line_checks
    assert move.available_mm == 20


@pytest.mark.parametrize(
    ("has_bar", "has_rear", "rides", "is_asked"),
    [
        (False, False, False, False),
        (True, False, False, True),
        (False, True, False, True),
        (False, False, True, True),  # one end rides on the bar and the other does not
    ],
)
def test_whether_it_reached_in_every_posture_is_asked_where_something_moves(
    has_bar: bool, has_rear: bool, rides: bool, is_asked: bool
) -> None:
    job = job_with(is_reached=None)
    frame = job.frame
    assert frame.bar is not None
    assert frame.rear is not None
    ends = {
        id_: replace(frame.anchors[id_], moves_with=MovesWith.BAR if rides and id_ == job.from_anchor_id else None)
        for id_ in (job.from_anchor_id, job.to_anchor_id)
    }
    moving = {"bar": frame.bar if has_bar else None, "rear": frame.rear if has_rear else None}
    still = replace(frame, anchors={**frame.anchors, **ends}, **moving)
    assert (OldLineRule.REACHED in asked(replace(job, frame=still))) is is_asked


def test_outlets_of_a_brake_that_stays_have_not_moved() -> None:
    job = job_with(move_from_mm=None)
    assert job.old is not None
    same = replace(job, old=replace(job.old, brake=job.new.brake))
    assert asked(same) == []
    assert asked(replace(job, new=replace(job.new, brake=None))) == []
    assert asked(job) == [OldLineRule.MOVE]


@pytest.mark.parametrize(("more_mm", "is_asked"), [(-1.0, False), (0.0, False), (0.5, True)])
def test_a_line_that_may_be_bent_less_is_asked(more_mm: float, is_asked: bool) -> None:
    job = job_with()
    assert job.old is not None
    radius_mm = job.old.line.minimum_bend_radius_mm + more_mm
    stiffer = replace(job, new=replace(job.new, line=replace(job.new.line, minimum_bend_radius_mm=radius_mm)))
    assert asked(stiffer) == [OldLineRule.BEND] * is_asked
    assert lengths_of(stiffer).cut_mm == 1485


def test_lengths_told_along_the_way_go_before_and_are_held_against_it() -> None:
    job = job_with(measured_length_mm=1608.0)
    told = replace(job, frame=with_lengths(job.frame))
    found = lengths_of(told)
    assert not found.is_from_old_line
    assert found.old_makes_mm == pytest.approx(1608 + 22 + 10 + 15.12, abs=0.01)  # what the plan adds, added to it too
    assert found.measured_difference_ratio == pytest.approx((1655.12 - 1660) / 1660, abs=1e-4)


def test_a_plan_by_the_old_line_says_so() -> None:
    job, workshop = job_with(), demo_job("trail-rear-brake")[1]
    plan = plan_job(job=job, workshop=workshop)
    record = plan_as_record(plan)["lengths"]
    assert (record["is_from_old_line"], record["known"], record["cut_mm"]) == (True, True, 1505)  # 19 bitten
    assert "length_not_told" not in [check.rule.value for check in plan.advisories]
    assert any("at least 1505 mm" in step.text for step in plan.steps)


@given(st.floats(50, 5000), st.floats(0, 100), st.floats(0, 100))
def test_nothing_or_all_but_the_fittings_is_left(measured_mm: float, first_mm: float, last_mm: float) -> None:
    ends = {"from_end": workshop_end(20, first_mm), "to_end": workshop_end(20, last_mm)}
    job = job_with(measured=OldMeasured.CUT_ENDS, measured_length_mm=measured_mm, **ends)
    assert isinstance(job.old, OldLine)
    left_mm = measured_mm - (first_mm + last_mm)
    assert find_visible_mm(job.old) == (pytest.approx(left_mm) if left_mm > 0 else None)
