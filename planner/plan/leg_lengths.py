"""How much line each run takes, over everything that bar and rear can do."""

from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import pairwise
from math import dist

from planner.geometry.curves.bends import centreline_bend_radius_mm
from planner.geometry.curves.fillets import TightCorner
from planner.geometry.curves.legs import LegEnd, LegMotion, LegRange, Posture, find_leg_motion, find_leg_range
from planner.geometry.curves.relaxed_legs import RelaxedRange, find_relaxed_range
from planner.geometry.motion.frame_axes import Curve, Pose3
from planner.parts import Bar, FourBar, Frame, Line, Run, SinglePivot
from planner.plan.routing_plan import LegLength
from planner.routing.leg_poses import (
    draw_leg,
    find_leg_at_rest,
    find_leg_ends,
    is_led_past,
    measure_legs,
    round_run,
    turn_of_curve_deg,
)
from planner.rules import LengthRule, PlaceRule
from planner.verdicts import Check, Outcome, State


def find_legs(*, frame: Frame, line: Line) -> dict[str, LegLength]:
    """Length of the line in every run of a frame, at rest and over all postures.

    A guide with a measured length counts as measured. A run that is led past points, or clipped, is a polyline with
    its corners rounded to the line's bend radius. A guide nobody measured is the shortest curve that the line can be
    bent to; so is the lower bound of an open leg, whose upper estimate is the relaxed shape of a hose clamped at both
    ends and nowhere bent tighter than it allows.

    Source: SAE J343 practice: the bend radius is measured to the inside of the bend, so the centre line's is half a
    diameter larger. Curves: see planner.geometry.curves.
    """
    radius_mm = centreline_bend_radius_mm(
        inside_bend_radius_mm=line.minimum_bend_radius_mm, outer_diameter_mm=line.outer_diameter_mm
    )
    return {run.id: _find_leg(frame, run, line, radius_mm) for run in frame.runs.values()}


def _find_leg(frame: Frame, run: Run, line: Line, radius_mm: float) -> LegLength:
    if run.guide is not None and run.guide.length_mm is not None:
        return _measured_leg(run, find_leg_at_rest(frame=frame, run=run, line=line))
    start, end = find_leg_ends(frame=frame, run=run)
    return _find_moving_leg(run, start, end, frame.bar, frame.rear, radius_mm)


@lru_cache(maxsize=1024)
def _find_moving_leg(
    run: Run, start: LegEnd, end: LegEnd, bar: Bar | None, rear: SinglePivot | FourBar | None, radius_mm: float
) -> LegLength:
    """One leg over all postures; remembered, since a frame is planned on many times with the same line."""

    motion = find_leg_motion(start=start, end=end, bar=bar, rear=rear)
    found = find_leg_range(
        motion=motion, measure=lambda ends: measure_legs(ends, run=run, centreline_radius_mm=radius_mm)
    )
    rest = draw_leg(run=run, centreline_radius_mm=radius_mm, start=start.pose, end=end.pose)
    leg = _leg_of_shortest(run, motion, found, rest)
    if is_led_past(run):
        corners = tuple(_corner_checks(run, radius_mm, start.pose, end.pose))
        return replace(leg, basis="fillets", bend_checks=corners)
    if run.guide is not None:
        return leg
    relaxed = find_relaxed_range(motion=motion, centreline_radius_mm=radius_mm, shortest=found)
    return _with_relaxed(leg, relaxed)


def _leg_of_shortest(run: Run, motion: LegMotion, found: LegRange, rest: Curve) -> LegLength:
    return LegLength(
        run_id=run.id,
        from_place=run.between[0],
        to_place=run.between[1],
        nominal_mm=found.rest_mm,
        low_mm=found.shortest_mm,
        high_mm=found.longest_mm,
        least_mm=found.longest_mm,
        basis="shortest curve",
        worst_posture=posture_words(found.longest_at),
        slackest_posture=posture_words(found.shortest_at),
        slack_variation_mm=found.longest_mm - found.shortest_mm,
        curve=rest,
        tightest_radius_mm=rest.tightest_radius_mm,
        motion_checks=tuple(_motion_checks(run, motion)),
    )


def _with_relaxed(leg: LegLength, relaxed: RelaxedRange | None) -> LegLength:
    """The upper estimate of an open leg: how a real hose lies. Where no shape was found, that is said."""
    if relaxed is None or relaxed.longest.length_mm < leg.least_mm:
        missing = Check(rule=LengthRule.RELAXED_SHAPE, outcome=Outcome.UNKNOWN, state=State.RIDING, run_id=leg.run_id)
        return replace(leg, motion_checks=(*leg.motion_checks, missing))
    return replace(
        leg,
        high_mm=relaxed.longest.length_mm,
        basis="relaxed shape",
        worst_posture=posture_words(relaxed.longest_at),
        relaxed_curve=relaxed.rest,
        tightest_radius_mm=relaxed.rest.tightest_radius_mm,
    )


def _measured_leg(run: Run, curve: Curve) -> LegLength:
    return LegLength(
        run_id=run.id,
        from_place=run.between[0],
        to_place=run.between[1],
        nominal_mm=curve.length_mm,
        low_mm=curve.length_mm,
        high_mm=curve.length_mm,
        least_mm=curve.length_mm,
        basis="measured",
        curve=curve,
    )


def _corner_checks(run: Run, radius_mm: float, start: Pose3, end: Pose3) -> Iterator[Check]:
    for corner in round_run(run=run, centreline_radius_mm=radius_mm, start=start, end=end).corners_too_tight:
        yield _tight_corner(run, corner)


def _tight_corner(run: Run, corner: TightCorner) -> Check:
    return Check(
        rule=PlaceRule.BEND_RADIUS,
        outcome=Outcome.NO_FIT,
        state=State.RIDING,
        run_id=run.id,
        size_mm=corner.radius_wanted_mm,
        available_mm=corner.radius_available_mm,
        clearance_mm=corner.radius_available_mm - corner.radius_wanted_mm,
        note=f"corner {corner.corner}",
    )


def _motion_checks(run: Run, motion: LegMotion) -> Iterator[Check]:
    for mover in motion.not_measured:
        yield Check(
            rule=LengthRule.MOTION,
            outcome=Outcome.UNKNOWN,
            state=State.RIDING,
            run_id=run.id,
            note=f"how the {mover} moves",
        )
    if motion.locked is not None:
        yield Check(
            rule=LengthRule.MOTION,
            outcome=Outcome.TIGHT,
            state=State.RIDING,
            run_id=run.id,
            note=f"{motion.locked.locks_at_deg:.1f}°",
        )


def posture_words(posture: Posture) -> str:
    """Where bar and rear stand, in words.

    Returns such as "bar +75°, rear 15°"; "at rest" for neither moved.
    """
    words = []
    if posture.bar_deg:
        words.append(f"bar {posture.bar_deg:+.0f}°")
    if posture.rear_deg:
        words.append(f"rear {posture.rear_deg:.0f}°")
    return ", ".join(words) or "at rest"


def longest_free_span_mm(*, leg: LegLength, run: Run) -> float:
    """The longest stretch of a leg that hangs free between its ends and clips.

    Returns the whole leg at rest where there is no clip; else the widest straight distance between supports.
    """
    if not run.clips_mm or leg.curve is None:
        return leg.nominal_mm
    supports = (leg.curve.points_mm[0], *run.clips_mm, leg.curve.points_mm[-1])
    return max(dist(a, b) for a, b in pairwise(supports))


def turn_of_leg_deg(*, leg: LegLength, run: Run) -> float:
    """How far the line turns on a leg: as the guide's maker or caliper says, else along its curve at rest.

    Returns sum of all changes of direction.
    """
    if run.guide is not None:
        return run.guide.turn_deg
    return 0.0 if leg.curve is None else turn_of_curve_deg(leg.curve)


def leg_as_travelled(*, leg: LegLength, from_place: str) -> LegLength:
    """The same leg told from the end the route comes from, its curves turned round where needed.

    from_place : the end it is entered at
    """
    if leg.from_place == from_place:
        return leg
    return replace(
        leg,
        from_place=leg.to_place,
        to_place=leg.from_place,
        curve=_reversed(leg.curve),
        relaxed_curve=_reversed(leg.relaxed_curve),
    )


def _reversed(curve: Curve | None) -> Curve | None:
    return None if curve is None else replace(curve, points_mm=curve.points_mm[::-1])
