"""Runs with a length of their own: what is known then, what is asked, and how it is told."""

from dataclasses import replace
from typing import Any

import pytest

from planner import plan_as_record, plan_job
from planner.documents.words.wording import pull_sentence
from planner.parts import Frame, GeometryError, Job, LengthBy, MovesWith
from planner.plan.cut_length import allowance_words
from planner.plan.routing_plan import RoutingPlan
from tests.planner.plan.level_samples import demo_job, holes_only

LENGTHS_MM = {"cockpit": 420.0, "down-run": 610.0, "bb-loop": 118.0, "stay-run": 330.0, "tail": 130.0}
OUTSIDE_RUNS = ("cockpit", "bb-loop", "tail")


def with_lengths(frame: Frame, *, is_reached: bool = True, but: tuple[str, ...] = ()) -> Frame:
    """A frame whose runs were measured: 5 mm outside, 3 inside, the guide as it stands."""
    runs = {
        key: replace(
            run,
            length_mm=LENGTHS_MM[key],
            length_tolerance_mm=5.0 if key in OUTSIDE_RUNS else 3.0,
            is_reached=is_reached,
            length_by=LengthBy.OLD_LINE if key == "tail" else LengthBy.TAPE,
        )
        if key != "stay-run" and key not in but
        else run
        for key, run in frame.runs.items()
    }
    return replace(frame, runs=runs)


def plan_of(job: Job, frame: Frame, **shop: Any) -> RoutingPlan:
    """The plan on a changed frame, in the demo's shop with some figures of its own."""
    _, workshop = demo_job("trail-rear-brake")
    changed = replace(workshop, limits=replace(workshop.limits, **shop))
    return plan_job(job=replace(job, frame=frame), workshop=changed)


@pytest.fixture
def job() -> Job:
    return holes_only(demo_job("trail-rear-brake")[0])


def rules_of(plan: RoutingPlan) -> list[str]:
    return [check.rule.value for check in plan.advisories]


def test_told_lengths_make_need_and_cut(job: Job) -> None:
    # 420 + 610 + 118 + 330 + 130 = 1608; 1.65 x sqrt(25 + 9 + 25 + 25) = 15.12; 1608 + 22 + 19 + 10 + 15.12 -> 1675
    lengths = plan_of(job, with_lengths(job.frame)).lengths
    assert lengths is not None
    assert (lengths.need_mm, lengths.cut_mm, lengths.spare_mm) == (1608, 1675, 425)
    assert lengths.allow_mm == pytest.approx(15.12, abs=0.01)
    assert allowance_words(lengths) == "15 mm because lengths were measured by tape or wire"
    assert lengths.posture == "as measured"


def test_one_leg_that_nobody_measured_leaves_the_line_to_be_laid_in_and_marked(job: Job) -> None:
    plan = plan_of(job, with_lengths(job.frame, but=("bb-loop",)))
    record = plan_as_record(plan)["lengths"]
    assert (record["known"], record["need_mm"], record["cut_mm"], record["allow_mm"]) == (False, None, None, None)
    assert "length_not_told" in rules_of(plan)
    (asked,) = (note for note in plan_as_record(plan)["notes"] if "lay it in, then mark" in note)
    assert "1 of its legs" in asked
    assert plan.outcome.lets_work_begin


def test_a_length_measured_at_rest_is_asked_where_its_ends_move(job: Job) -> None:
    plan = plan_of(job, with_lengths(job.frame, is_reached=False))
    asked = [check.run_id for check in plan.advisories if check.rule.value == "not_tried"]
    assert asked == [
        "cockpit",
        "bb-loop",
    ]  # the tail rides whole
    assert plan.lengths is not None
    told = {leg.run_id: (leg.worst_posture, leg.slack_variation_mm) for leg in plan.lengths.legs}
    assert told["cockpit"] == ("not known", None)
    assert told["tail"] == ("at rest", 0.0)
    assert plan.lengths.cut_mm == 1675  # it is asked, and stands
    assert "not_tried" not in rules_of(plan_of(job, with_lengths(job.frame)))


def test_how_a_length_was_found_stands_in_the_record(job: Job) -> None:
    legs = plan_as_record(plan_of(job, with_lengths(job.frame)))["lengths"]["legs"]
    assert [(leg["basis"], leg["told_by"], leg["tolerance_mm"]) for leg in legs] == [
        ("told", "tape", 5),
        ("told", "tape", 3),
        ("told", "tape", 5),
        ("measured", None, None),
        ("told", "old_line", 5),
    ]


def test_the_slack_of_told_legs_is_not_known(job: Job) -> None:
    line = replace(job.new.line, pressure_shrink_ratio=0.02)
    told = replace(job, new=replace(job.new, line=line))
    (pressure,) = (
        check for check in plan_of(told, with_lengths(job.frame)).advisories if check.rule.value == "pressure"
    )
    assert (pressure.outcome.word, pressure.available_mm) == ("unknown", None)
    assert pressure.size_mm == pytest.approx(0.02 * 1608)


def test_drag_without_every_turn_is_the_least() -> None:
    full, _ = demo_job("trail-rear-brake")
    bare = holes_only(full)
    plan, whole = plan_of(bare, bare.frame), plan_of(full, full.frame)
    assert plan.joint is not None
    assert whole.joint is not None
    assert (plan.joint.is_drag_least, whole.joint.is_drag_least) == (True, False)
    assert (plan.joint.drag_n or 0) < (whole.joint.drag_n or 0)
    assert "may drag more" in pull_sentence(plan.joint)
    assert "may drag more" not in pull_sentence(whole.joint)


def test_an_open_run_with_places_keeps_its_turns_though_its_length_was_told() -> None:
    full, _ = demo_job("trail-rear-brake")
    told, whole = plan_of(full, with_lengths(full.frame)), plan_of(full, full.frame)
    assert told.joint is not None
    assert whole.joint is not None
    assert not told.joint.is_drag_least
    assert told.joint.drag_n == pytest.approx(whole.joint.drag_n, abs=0.2)  # all but the weight of other lengths


@pytest.mark.parametrize(("error", "expected_mm"), [("careful", 18.78), ("ordinary", 40.75)])
def test_the_error_of_the_frame_is_added_to_the_cut_as_a_line_of_its_own(error: str, expected_mm: float) -> None:
    # neck, belly, stay-front and stay-rear all end a leg that is found by shape
    full, workshop = demo_job("trail-rear-brake")
    before, after = plan_of(full, full.frame), plan_of(full, full.frame, geometry_error=GeometryError(error))
    assert workshop.limits.geometry_error is None
    assert before.lengths is not None
    assert after.lengths is not None
    assert (before.lengths.allow_mm, after.lengths.need_mm) == (None, before.lengths.need_mm)
    assert after.lengths.allow_mm == pytest.approx(expected_mm, abs=0.01)
    assert before.lengths.need_mm is not None
    added_mm = after.lengths.insertion_mm + after.lengths.bitten_mm + after.lengths.trim_mm + expected_mm
    assert 0 <= (after.lengths.cut_mm or 0) - before.lengths.need_mm - added_mm < 5.01
    assert "because the frame was measured" in (allowance_words(after.lengths) or "")
    assert plan_as_record(after)["lengths"]["geometry_error"] == error
    assert allowance_words(before.lengths) is None


def test_places_told_by_eye_give_no_length_and_refuse_nothing() -> None:
    full, _ = demo_job("trail-rear-brake")
    plan = plan_of(full, replace(full.frame, geometry_error=GeometryError.ROUGH))
    assert plan.lengths is not None
    assert not plan.lengths.known
    assert [leg.high_mm is not None for leg in plan.lengths.legs] == [False, False, False, True, False]
    assert "length_not_told" in rules_of(plan)
    told = plan_of(full, replace(with_lengths(full.frame), geometry_error=GeometryError.ROUGH)).lengths
    assert told is not None
    assert told.cut_mm == 1675  # tape along the line needs no place


def test_ends_that_ride_together_need_no_posture(job: Job) -> None:
    anchors = {key: replace(anchor, moves_with=MovesWith.REAR) for key, anchor in job.frame.anchors.items()}
    assert all(anchor.moves_with is MovesWith.REAR for anchor in anchors.values())
    frame = replace(with_lengths(job.frame, is_reached=False), anchors=anchors)
    asked = [c.run_id for c in plan_of(job, frame).advisories if c.rule.value == "not_tried"]
    assert "tail" not in asked
