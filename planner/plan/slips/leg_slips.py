"""Legs that a slip makes unlikely: a told length that its ends deny, a curve that has to loop."""

from collections.abc import Iterator
from math import degrees, dist

from planner.geometry.curves.legs import LegEnd, find_leg_motion, find_leg_ranges
from planner.parts import Frame, Run, SlipLimits
from planner.plan.slips.likely import likely_length
from planner.routing.leg_poses import find_leg_ends, points_led_past_mm, told_length_mm
from planner.rules import SlipRule
from planner.verdicts import Check, Outcome


def length_slips(frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    """Lengths told along a run that are too short for its ends, or of a guide too long. The told length counts.

    Common practice, no source.
    """
    for run in frame.runs.values():
        told_mm, ends = told_length_mm(run), find_leg_ends(frame=frame, run=run)
        if told_mm is None or ends is None:
            continue
        chord_mm = _chord_mm(ends)
        least_mm = chord_mm - limits.guide_short_mm
        most_mm = limits.guide_long_ratio * chord_mm + limits.guide_long_mm
        if told_mm < least_mm or (run.guide is not None and told_mm > most_mm):
            rule = SlipRule.SHORT_LENGTH if told_mm < least_mm else SlipRule.LONG_LENGTH
            likely = likely_length(told_mm, least_mm=least_mm, most_mm=most_mm)
            yield _asked(rule, run, told_mm, chord_mm if told_mm < least_mm else most_mm, likely)


def loop_slips(frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    """Legs whose shortest curve at rest loops: a place or a heading at one of their ends is not what was meant.

    A leg that is led past points is not looked at.

    Common practice, no source.
    """
    runs = [run for run in frame.runs.values() if not points_led_past_mm(run)]
    legs = [(run, ends) for run in runs if (ends := find_leg_ends(frame=frame, run=run)) and _chord_mm(ends) > 0]
    motions = [find_leg_motion(start=start, end=end, bar=None, rear=None) for _, (start, end) in legs]
    found = find_leg_ranges(motions=motions, centreline_radius_mm=limits.loop_radius_mm) if motions else ()
    for (run, ends), one in zip(legs, found, strict=True):
        chord_mm, turn_deg = _chord_mm(ends), degrees(float(one.curves.chains.whole_turns[0]))
        is_near = chord_mm < limits.loop_chord_ratio * limits.loop_radius_mm
        is_long = is_near and one.rest_mm - chord_mm > limits.loop_extra_mm
        if turn_deg > limits.loop_turn_deg or is_long:
            note = "is a place or a heading at one of its ends meant otherwise?"
            yield _asked(SlipRule.LOOPS, run, one.rest_mm, chord_mm, note)


def _chord_mm(ends: tuple[LegEnd, LegEnd]) -> float:
    start, end = ends
    return dist(start.pose.position_mm, end.pose.position_mm)


def _asked(rule: SlipRule, run: Run, size_mm: float, available_mm: float, note: str) -> Check:
    return Check(
        rule=rule,
        outcome=Outcome.UNKNOWN,
        run_id=run.id,
        size_mm=size_mm,
        available_mm=available_mm,
        note=note,
    )
