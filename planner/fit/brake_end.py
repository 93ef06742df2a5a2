"""Which end of the frame does the caliper sit at, and is the brake made for it?"""

from planner.parts import FrameEnd, Job, MovesWith, is_lever_at_from
from planner.rules import BrakeRule
from planner.verdicts import Check, Outcome


def find_brake_end(*, job: Job) -> FrameEnd | None:
    """Which end of the frame the brake's caliper sits at.

    What is told goes first. Else what rides with the bar is on the fork; what rides with the rear, or stands still
    behind the bottom bracket, is at the rear.

    None where the caliper stands still ahead of the bottom bracket: it may be on a fork and not marked so; and where it
    has no place.
    """
    is_at_from = is_lever_at_from(frame=job.frame, from_anchor_id=job.from_anchor_id, to_anchor_id=job.to_anchor_id)
    caliper = job.frame.anchors[job.to_anchor_id if is_at_from else job.from_anchor_id]
    if caliper.end is not None:
        return caliper.end
    if caliper.moves_with is MovesWith.BAR:
        return FrameEnd.FRONT
    is_behind = caliper.position_mm is not None and caliper.position_mm[0] < 0
    return FrameEnd.REAR if caliper.moves_with is MovesWith.REAR or is_behind else None


def check_brake_end(*, job: Job) -> Check | None:
    """Whether the brake is made for the end it goes on.

    Returns rule "brake_end": FITS with note "this_end"; NO_FIT with "rear_brake_on_fork"; UNKNOWN with
    "front_brake_on_rear". None where one of the two ends is not known.

    Source: common practice, no source.
    """
    end = find_brake_end(job=job)
    if job.new.brake is None or job.new.brake.made_for is None or end is None:
        return None
    if job.new.brake.made_for is end:
        return Check(rule=BrakeRule.BRAKE_END, outcome=Outcome.FITS, note="this_end")
    if end is FrameEnd.FRONT:
        return Check(rule=BrakeRule.BRAKE_END, outcome=Outcome.NO_FIT, note="rear_brake_on_fork")
    return Check(rule=BrakeRule.BRAKE_END, outcome=Outcome.UNKNOWN, note="front_brake_on_rear")


def ask_brake_end(*, job: Job) -> Check | None:
    """What would change the no to a rear brake on a fork: only the owner can say whether that brake is meant.

    Returns rule "brake_end", always UNKNOWN, with note "is_rear_brake_meant"; None where there is no such no.
    """
    check = check_brake_end(job=job)
    if check is None or check.outcome is not Outcome.NO_FIT:
        return None
    return Check(rule=BrakeRule.BRAKE_END, outcome=Outcome.UNKNOWN, note="is_rear_brake_meant")
