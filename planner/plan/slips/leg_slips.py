"""Legs that a slip makes unlikely: a told length that its ends deny, a curve that has to loop."""

from collections.abc import Iterator
from dataclasses import replace
from math import dist

import numpy as np

from planner.geometry.curves.legs import LegEnd, find_leg_motion, find_leg_ranges
from planner.geometry.curves.pose_pairs import dots
from planner.parts import Frame, Run, SlipLimits
from planner.plan.leg_checks import posture_words
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
    """Legs whose shortest curve loops in any posture: a place or a heading at one of their ends is not what was meant.

    A leg that is led past points is not looked at.

    Common practice, no source.
    """
    runs = [run for run in frame.runs.values() if not points_led_past_mm(run)]
    legs = [(run, ends) for run in runs if (ends := find_leg_ends(frame=frame, run=run)) and _chord_mm(ends) > 0]
    motions = [find_leg_motion(start=start, end=end, bar=frame.bar, rear=frame.rear) for _, (start, end) in legs]
    radius_mm = limits.loop_radius_mm
    found = find_leg_ranges(motions=motions, centreline_radius_mm=radius_mm) if motions else ()
    for (run, _), one in zip(legs, found, strict=True):
        chords_mm = np.sqrt(dots(one.pairs.ways, one.pairs.ways)) * radius_mm
        is_near = chords_mm < limits.loop_chord_ratio * radius_mm
        loops = np.degrees(one.curves.chains.whole_turns) > limits.loop_turn_deg
        loops |= is_near & (one.lengths_mm - chords_mm > limits.loop_extra_mm)
        if loops.any():
            at = int(loops.argmax())
            check = _asked(SlipRule.LOOPS, run, float(one.lengths_mm[at]), float(chords_mm[at]), _MEANT_OTHERWISE)
            yield replace(check, with_ids=(posture_words(one.postures[at]),))


_MEANT_OTHERWISE = "is a place or a heading at one of its ends meant otherwise?"


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
