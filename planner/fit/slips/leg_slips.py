"""Legs that a slip makes unlikely: a told length that its ends deny, a curve that has to loop."""

from collections.abc import Iterator
from math import degrees, dist

from planner.fit.slips.likely import likely_length
from planner.geometry.curves.legs import LegEnd, LegMotion, find_leg_ranges
from planner.geometry.motion.frame_axes import Pose3, opposite
from planner.parts import Anchor, Frame, Point, Port, Run, SlipLimits
from planner.rules import SlipRule
from planner.verdicts import Check, Outcome


def length_slips(frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    """Lengths told along a run that are too short for its ends, or of a guide too long. The told length counts.

    Common practice, no source.
    """
    for run in frame.runs.values():
        told_mm, ends_mm = told_length_mm(run), _ends_mm(frame, run)
        if told_mm is None or ends_mm is None:
            continue
        chord_mm = dist(*ends_mm)
        least_mm = chord_mm - limits.guide_short_mm
        most_mm = limits.guide_long_ratio * chord_mm + limits.guide_long_mm
        if told_mm < least_mm:
            note = likely_length(told_mm, lambda length_mm, least=least_mm, most=most_mm: least <= length_mm <= most)
            yield _asked(SlipRule.SHORT_LENGTH, run, told_mm, chord_mm, note)
        elif run.guide is not None and told_mm > most_mm:
            note = likely_length(told_mm, lambda length_mm, least=least_mm, most=most_mm: least <= length_mm <= most)
            yield _asked(SlipRule.LONG_LENGTH, run, told_mm, most_mm, note)


def told_length_mm(run: Run) -> float | None:
    """The length of a run as somebody measured it; None where nobody did."""
    return None if run.guide is None else run.guide.length_mm


def loop_slips(frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    """Legs whose shortest curve at rest loops: a place or a heading at one of their ends is not what was meant.

    A leg that is led past points is not looked at.

    Common practice, no source.
    """
    runs = [run for run in frame.runs.values() if not run.via_mm and not run.clips_mm]
    legs = [(run, ends) for run in runs if (ends := _poses(frame, run)) is not None]
    if not legs:
        return
    motions = [
        LegMotion(start=LegEnd(pose=start), end=LegEnd(pose=end), bar=None, rear=None) for _, (start, end) in legs
    ]
    radius_mm = limits.loop_radius_mm
    found = find_leg_ranges(motions=motions, centreline_radius_mm=radius_mm)
    for (run, (start, end)), one in zip(legs, found, strict=True):
        chord_mm = dist(start.position_mm, end.position_mm)
        turn_deg = degrees(float(one.curves.chains.whole_turns[0]))
        is_long = one.rest_mm - chord_mm > limits.loop_extra_mm and chord_mm < limits.loop_chord_ratio * radius_mm
        if turn_deg > limits.loop_turn_deg or is_long:
            note = "is a place or a heading at one of its ends meant otherwise?"
            yield _asked(SlipRule.LOOPS, run, one.rest_mm, chord_mm, note)


def _end(frame: Frame, place: str) -> Port | Anchor | None:
    return frame.ports.get(place) or frame.anchors.get(place)


def _ends_mm(frame: Frame, run: Run) -> tuple[Point, Point] | None:
    first, second = (_end(frame, place) for place in run.between)
    if first is None or second is None or first.position_mm is None or second.position_mm is None:
        return None
    return first.position_mm, second.position_mm


def _poses(frame: Frame, run: Run) -> tuple[Pose3, Pose3] | None:
    """The two ends as poses of travel; None where one has no place, or both are one."""
    poses = [_pose_into(frame, run, place) for place in run.between]
    if poses[0] is None or poses[1] is None or dist(poses[0].position_mm, poses[1].position_mm) == 0:
        return None
    return poses[0], Pose3(position_mm=poses[1].position_mm, heading=opposite(poses[1].heading))


def _pose_into(frame: Frame, run: Run, place: str) -> Pose3 | None:
    """An end of a run, pointing into it."""
    end = _end(frame, place)
    if end is None or end.position_mm is None or end.heading is None:
        return None
    goes_in = isinstance(end, Anchor) or run.zone_id == end.joins[1]
    return Pose3(position_mm=end.position_mm, heading=end.heading if goes_in else opposite(end.heading))


def _asked(rule: SlipRule, run: Run, size_mm: float, available_mm: float, note: str) -> Check:
    return Check(
        rule=rule,
        outcome=Outcome.UNKNOWN,
        run_id=run.id,
        size_mm=size_mm,
        available_mm=available_mm,
        note=note,
    )
