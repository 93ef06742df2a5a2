"""What is to be said of a leg's length: motions not described, ways to lie, loops, points that no bend gets past."""

from collections.abc import Iterator, Sequence
from typing import TypedDict

from planner.geometry.curves.hose_lengths import HoseRange
from planner.geometry.curves.led_runs import gets_past_points, widest_radius_past_points_mm
from planner.geometry.curves.leg_loops import LoopGrade, find_loop
from planner.geometry.curves.legs import LegRange, Posture, ends_in_postures
from planner.geometry.motion.frame_axes import Pose3
from planner.outcomes import Outcome, State
from planner.parts import Line, Point, Run
from planner.routing.leg_poses import points_led_past_mm
from planner.rules import LengthRule, PlaceRule
from planner.verdicts import Check

_LOOP_RULES = {
    LoopGrade.EDGE: LengthRule.LEG_EDGE,
    LoopGrade.LOOP: LengthRule.LEG_LOOP,
    LoopGrade.BOW: LengthRule.LEG_BOW,
}

NOT_TRIED = "not known"
"""The worst posture of a leg whose length somebody measured at rest only."""


def not_tried_check(run: Run) -> Check:
    """A length that was measured at rest, between ends that move against each other."""
    return _about(run, LengthRule.NOT_TRIED, Outcome.UNKNOWN, run.length_mm, note="")


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


def motion_checks(run: Run, ranges: Sequence[LegRange]) -> Iterator[Check]:
    """Motions that are not described, and rears that lock before their end; each told once for the run."""
    for mover in dict.fromkeys(mover for one in ranges for mover in one.motion.not_measured):
        yield _about(run, LengthRule.MOTION, Outcome.UNKNOWN, note=f"how the {mover} moves")
    for locked in dict.fromkeys(one.motion.locked for one in ranges if one.motion.locked is not None):
        yield _about(run, LengthRule.MOTION, Outcome.TIGHT, note=f"{locked.locks_at_deg:.1f}°")


def lying_checks(run: Run, line: Line, hoses: Sequence[HoseRange]) -> Iterator[Check]:
    """Two ways to lie, lengths that are estimates, and a length that serves one posture but not another."""
    for hose in hoses:
        for posture, short_mm, long_mm in hose.two_ways[:1]:
            yield _about(run, LengthRule.TWO_WAYS_TO_LIE, Outcome.TIGHT, short_mm, long_mm, note=posture_words(posture))
        for posture in hose.estimated[:1]:
            yield _about(run, LengthRule.RELAXED_SHAPE, Outcome.UNKNOWN, note=posture_words(posture))
        if hose.one_length is not None and not hose.one_length.serves:
            inside_mm = hose.one_length.tightest_radius_mm - line.outer_diameter_mm / 2
            note = f"{posture_words(hose.one_length.tightest_at)}: {hose.one_length.slack_mm:.0f} mm too much there"
            yield _about(run, LengthRule.ONE_LENGTH, Outcome.UNKNOWN, line.minimum_bend_radius_mm, inside_mm, note=note)


def loop_check(run: Run, line: Line, found: LegRange, hose: HoseRange | None) -> Check | None:
    """Whether a leg's length cannot be told because it misses an ordinary way.

    Returns the worst posture with what is missed; None where there is an ordinary way in every posture.
    """
    loop = find_loop(found, hose)
    if loop is None:
        return None
    size_mm, available_mm, note = loop.length_mm, loop.ordinary_mm, posture_words(loop.at)
    if loop.radius_without_mm is not None:
        size_mm = line.minimum_bend_radius_mm
        available_mm = max(loop.radius_without_mm - line.outer_diameter_mm / 2, 0.0)
    return Check(
        rule=_LOOP_RULES[loop.grade],
        outcome=Outcome.UNKNOWN,
        state=State.RIDING,
        run_id=run.id,
        size_mm=size_mm,
        available_mm=available_mm,
        clearance_mm=loop.length_mm - loop.ordinary_mm,
        note=note,
    )


def led_point_checks(
    run: Run, line: Line, ranges: Sequence[LegRange], *, tells_by_how_much: bool = True
) -> Iterator[Check]:
    """Points of a run that no bend of the line gets past, told for the posture that leaves the tightest.

    A stretch without an ordinary curve is looked at again with the directions at the points free: a clip that holds its
    line badly is another thing than a point in the wrong place.

    tells_by_how_much : whether the bend that would get past is sought; without, the first posture found is told
    """
    points_mm = points_led_past_mm(run)
    if not points_mm:
        return
    find_stop = _tightest_stop if tells_by_how_much else _first_stop
    for i, one in enumerate(ranges):
        looped = [posture for posture, plain in zip(one.postures, one.curves.is_only_plain, strict=True) if not plain]
        stop = find_stop(ranges, points_mm, tuple(dict.fromkeys((*looped[:1], *looped[-1:]))))
        if stop is not None:
            at, widest_mm = stop
            yield Check(
                rule=PlaceRule.LED_POINT,
                outcome=Outcome.NO_FIT,
                state=State.RIDING,
                run_id=run.id,
                size_mm=line.minimum_bend_radius_mm,
                available_mm=None if widest_mm is None else max(widest_mm - line.outer_diameter_mm / 2, 0.0),
                clearance_mm=None if widest_mm is None else widest_mm - one.centreline_radius_mm,
                note=f"from {_place(run, i, len(ranges))} to {_place(run, i + 1, len(ranges))} ({posture_words(at)})",
            )


_Stop = tuple[Posture, float | None]
"""A posture in which no bend of the line gets past, with the widest to the centre line that does, if that was asked."""


def _tightest_stop(
    ranges: Sequence[LegRange], points_mm: tuple[Point, ...], postures: Sequence[Posture]
) -> _Stop | None:
    stop, available_mm = None, ranges[0].centreline_radius_mm
    for posture in postures:
        way = _way_in(ranges, points_mm, posture)
        widest_mm = widest_radius_past_points_mm(**way, centreline_radius_mm=available_mm)
        if widest_mm < available_mm:
            stop, available_mm = (posture, widest_mm), widest_mm
        if not available_mm:
            break
    return stop


def _first_stop(ranges: Sequence[LegRange], points_mm: tuple[Point, ...], postures: Sequence[Posture]) -> _Stop | None:
    radius_mm = ranges[0].centreline_radius_mm
    for posture in postures:
        if not gets_past_points(**_way_in(ranges, points_mm, posture), centreline_radius_mm=radius_mm):
            return posture, None
    return None


class _Way(TypedDict):
    start: Pose3
    points_mm: tuple[Point, ...]
    end: Pose3


def _way_in(ranges: Sequence[LegRange], points_mm: tuple[Point, ...], posture: Posture) -> _Way:
    """A whole run in one posture."""
    return {
        "start": ends_in_postures(ranges[0].motion, [posture])[0][0],
        "points_mm": points_mm,
        "end": ends_in_postures(ranges[-1].motion, [posture])[0][1],
    }


def _place(run: Run, number: int, last: int) -> str:
    """The end of a stretch, in words: an end of the run, or one of its points by its number."""
    return {0: run.between[0], last: run.between[1]}.get(number, f"point {number}")


def _about(
    run: Run,
    rule: LengthRule,
    outcome: Outcome,
    size_mm: float | None = None,
    available_mm: float | None = None,
    *,
    note: str,
) -> Check:
    return Check(
        rule=rule,
        outcome=outcome,
        state=State.RIDING,
        run_id=run.id,
        size_mm=size_mm,
        available_mm=available_mm,
        note=note,
    )
