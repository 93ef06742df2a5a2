"""Front or rear: what the anchor says, what the brake says, and what is asked where the two do not settle it."""

from dataclasses import replace

import pytest

from planner.documents.words.check_words import sentence_for
from planner.fit.brake_end import find_brake_end
from planner.fit.compatibility import CompatibilityResult, check_compatibility
from planner.fit.rotor_fit import check_rotor_in_frame
from planner.parts import Brake, BrakeMount, Frame, FrameEnd, HubKind, Job, MountKind, MovesWith
from planner.verdicts import Check, Outcome
from tests.planner.fit.compatibility_samples import ADAPTERS, UNTOLD, make_brake, make_frame, make_job, make_new

POSTS = BrakeMount(mount=MountKind.POST, rotor_native_mm=160, rotor_max_mm=203, hub=HubKind.SIX_BOLT)
BOTH = {"front": replace(POSTS, rotor_native_mm=180), "rear": POSTS}


def frame_with_caliper(*, x_mm: float, moves_with: MovesWith | None) -> Frame:
    frame = make_frame(caliper_moves_with=moves_with, brakes=BOTH)
    caliper = replace(frame.anchors["caliper"], position_mm=(x_mm, 60.0, 40.0))
    return replace(frame, anchors={**frame.anchors, "caliper": caliper})


def job_on(frame: Frame, *, brake: Brake | None = None) -> Job:
    return make_job(frame=frame, new=make_new(brake=brake or make_brake()), rotor_mm=180)


def asked(job: Job) -> CompatibilityResult:
    return check_compatibility(job=job, adapters=ADAPTERS, limits=UNTOLD)


def told(result: CompatibilityResult, rule: str) -> list[Check]:
    return [check for check in (*result.checks, *result.questions) if check.rule == rule]


@pytest.mark.parametrize(
    ("x_mm", "moves_with", "end"),
    [
        (560.0, MovesWith.BAR, FrameEnd.FRONT),
        (-420.0, MovesWith.REAR, FrameEnd.REAR),
        (-420.0, None, FrameEnd.REAR),
        (560.0, None, None),
        (0.0, None, None),
    ],
)
def test_the_end_goes_by_what_the_caliper_rides_with_and_where_it_sits(
    x_mm: float, moves_with: MovesWith | None, end: FrameEnd | None
) -> None:
    assert find_brake_end(job=job_on(frame_with_caliper(x_mm=x_mm, moves_with=moves_with))) is end


def test_a_front_caliper_that_is_not_marked_is_asked_about_and_never_taken_for_a_rear_one() -> None:
    result = check_compatibility(
        job=job_on(frame_with_caliper(x_mm=560, moves_with=None)), adapters=ADAPTERS, limits=UNTOLD
    )
    (mount,) = told(result, "mount")
    assert (mount.outcome, mount.note) == (Outcome.UNKNOWN, "end_not_known")
    assert result.adapter is None, "the rear's native rotor would ask for a step of 20"
    assert told(result, "lever_side") == []
    unknown = [check.rule for check in result.checks if check.outcome is Outcome.UNKNOWN]
    assert unknown == ["mount"], "one thing nobody said is asked once"
    assert "moves_with: bar" in sentence_for(mount)


def test_the_mount_of_the_end_it_sits_at_decides() -> None:
    front = check_compatibility(
        job=job_on(frame_with_caliper(x_mm=560, moves_with=MovesWith.BAR)), adapters=ADAPTERS, limits=UNTOLD
    )
    rear = check_compatibility(
        job=job_on(frame_with_caliper(x_mm=-420, moves_with=None)), adapters=ADAPTERS, limits=UNTOLD
    )
    assert (told(front, "mount")[0].note, front.adapter) == ("direct", None)
    assert (told(rear, "mount")[0].note, rear.adapter) == ("with_adapter", ADAPTERS[0])


def test_a_rear_brake_on_a_fork_is_a_no_that_says_what_would_change_it() -> None:
    frame = frame_with_caliper(x_mm=560, moves_with=MovesWith.BAR)
    result = check_compatibility(
        job=job_on(frame, brake=make_brake(made_for=FrameEnd.REAR)), adapters=ADAPTERS, limits=UNTOLD
    )
    assert result.outcome is Outcome.NO_FIT
    no, question = told(result, "brake_end")
    assert (no.outcome, no.note) == (Outcome.NO_FIT, "rear_brake_on_fork")
    assert (question.outcome, question.note) == (Outcome.UNKNOWN, "is_rear_brake_meant")
    assert "both ends" in sentence_for(question)


def test_a_front_brake_on_the_rear_is_asked() -> None:
    frame = frame_with_caliper(x_mm=-420, moves_with=MovesWith.REAR)
    result = check_compatibility(
        job=job_on(frame, brake=make_brake(made_for=FrameEnd.FRONT)), adapters=ADAPTERS, limits=UNTOLD
    )
    assert [(check.outcome, check.note) for check in told(result, "brake_end")] == [
        (Outcome.UNKNOWN, "front_brake_on_rear")
    ]


def test_tabs_are_not_judged_where_the_shop_has_not_said_what_their_lowest_bracket_gives() -> None:
    frame = make_frame(brakes={"rear": BrakeMount(mount=MountKind.IS_TABS, rotor_max_mm=203)})
    (mount,) = told(asked(job_on(frame)), "mount")
    assert (mount.outcome, mount.note) == (Outcome.UNKNOWN, "tab_base_not_known")
    assert "lowest bracket" in sentence_for(mount)


def test_the_native_rotor_needs_no_stated_maximum_and_any_other_does() -> None:
    mount = BrakeMount(mount=MountKind.POST, rotor_native_mm=180)
    at, above = (check_rotor_in_frame(rotor_mm=rotor_mm, frame_mount=mount) for rotor_mm in (180, 203))
    assert (at.outcome, at.note) == (Outcome.FITS, "is_native")
    assert (above.outcome, above.note) == (Outcome.UNKNOWN, "maximum_not_stated")
    assert sentence_for(at).startswith("a rotor of 180")


def test_no_adapter_is_ordered_for_a_rotor_that_the_frame_or_the_caliper_forbids() -> None:
    small = make_frame(brakes={"rear": replace(POSTS, rotor_max_mm=170)})
    assert asked(job_on(small)).part_ids == ()
    narrow = make_brake(rotors_mm=(None, 170))
    result = check_compatibility(
        job=job_on(make_frame(brakes={"rear": POSTS}), brake=narrow), adapters=ADAPTERS, limits=UNTOLD
    )
    assert (result.outcome, result.part_ids) == (Outcome.NO_FIT, ())
