"""How much line each run takes, over everything that bar and rear can do.

Low is the shortest curve in the slackest posture, nominal that at rest, least that in the worst posture; high is a real
hose over all postures, and the cut uses it. Left out of a real hose: torsion, gravity, contact and what its coil left.
"""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from functools import lru_cache

from planner.geometry.curves.bends import centreline_bend_radius_mm
from planner.geometry.curves.hose_lengths import HoseRange, find_hose_ranges
from planner.geometry.curves.led_runs import find_hanging_stretches, find_stretches
from planner.geometry.curves.legs import LegEnd, LegMotion, LegRange, find_leg_motion, find_leg_ranges, find_mover
from planner.geometry.curves.space_curves import draw_curve
from planner.geometry.motion.frame_axes import Curve
from planner.parts import Frame, Line, Run
from planner.plan.leg_checks import (
    NOT_TRIED,
    led_point_checks,
    loop_check,
    lying_checks,
    motion_checks,
    not_tried_check,
    posture_words,
)
from planner.plan.leg_views import NOT_MEASURED
from planner.plan.lengths import LegLength
from planner.routing.leg_poses import find_leg_ends, points_led_past_mm, told_length_mm


def find_legs(
    *, frame: Frame, line: Line, run_ids: Collection[str] | None = None, tells_by_how_much: bool = True
) -> dict[str, LegLength]:
    """The shortest way of the line in every run of a frame, at rest and over all postures.

    What somebody measured along a run or its guide goes first. Everything else is the shortest curve that the line can
    be bent to, past the points and clips of the run, which hold its direction as it is at rest; `hang_legs` makes the
    upper estimates of it. A run that nobody measured and that has an end without a place has no length.

    run_ids : which runs are asked for; None for all
    tells_by_how_much : whether a point that no bend of the line gets past is told with the widest bend that does

    Source: SAE J343 practice: the bend radius is measured to the inside of the bend, so the centre line's is half a
    diameter larger. Curves: see planner.geometry.curves.
    """
    runs = [run for run in frame.runs.values() if run_ids is None or run.id in run_ids]
    ranges = _find_ranges(frame, line, runs, together=runs)
    return {
        run.id: _leg_of(frame, run, line, ranges.get(run.id, ()), tells_by_how_much=tells_by_how_much) for run in runs
    }


def hang_legs(*, frame: Frame, line: Line, legs: dict[str, LegLength], run_ids: Iterable[str]) -> dict[str, LegLength]:
    """The legs with the upper estimates of some of them: how a real hose lies, clamped at both ends.

    One hose has one length, so the need of a leg is the least length that bends it too tightly in no posture. A leg
    that works only with a loop, or only just without one, has no length that could be told.

    legs : as `find_legs` tells them, at least of the runs wanted
    run_ids : whose estimates are wanted; what was measured keeps its length
    """
    wanted = set(run_ids)
    runs = [
        run
        for run in frame.runs.values()
        if run.id in wanted and told_length_mm(run) is None and _has_shape(frame, run)
    ]
    ranges = _hanging_ranges(frame, line, runs, together=[frame.runs[run_id] for run_id in legs])
    hanging = tuple(one for run in runs if run.guide is None for one in ranges[run.id])
    hoses = dict(zip(hanging, _find_hoses(hanging), strict=True))
    hung = {run.id: _hung_leg(legs[run.id], run, line, ranges[run.id], hoses) for run in runs}
    return {run_id: hung.get(run_id, leg) for run_id, leg in legs.items()}


def _leg_of(frame: Frame, run: Run, line: Line, ranges: Sequence[LegRange], *, tells_by_how_much: bool) -> LegLength:
    told_mm = told_length_mm(run)
    if told_mm is None and ranges:
        leg = _shortest_leg(run, ranges)
        return replace(leg, bend_checks=tuple(led_point_checks(run, line, ranges, tells_by_how_much=tells_by_how_much)))
    is_told = run.length_mm is not None
    leg = LegLength(
        run_id=run.id,
        from_place=run.between[0],
        to_place=run.between[1],
        way_mm=told_mm,
        nominal_mm=told_mm,
        low_mm=told_mm,
        high_mm=told_mm,
        least_mm=told_mm,
        basis=NOT_MEASURED if told_mm is None else "told" if is_told else "measured",
        curve=_joined([_rest_curve(one) for one in ranges]) if ranges else _drawn_by_its_points(frame, run, told_mm),
        tolerance_mm=_tolerance_mm(run),
        told_by=run.length_by if is_told else None,
    )
    movers = {find_mover(frame=frame, place=place) for place in run.between}
    if len(movers) == 1 or run.is_reached or leg.basis == "measured":
        return leg
    unknown = replace(leg, worst_posture=NOT_TRIED, slackest_posture=NOT_TRIED, slack_variation_mm=None)
    return replace(unknown, length_checks=(not_tried_check(run),)) if is_told else unknown


def _tolerance_mm(run: Run) -> float | None:
    """Plus or minus on a told length, or on that of a guide told as a range; None for any other."""
    if run.length_mm is not None:
        return run.length_tolerance_mm
    return None if run.guide is None or not run.guide.length_mm else run.guide.length_tolerance_mm or None


def _has_shape(frame: Frame, run: Run) -> bool:
    """Whether the run has a curve of its own: ends with a place, and no measured guide to lie in."""
    is_in_guide = run.guide is not None and told_length_mm(run) is not None
    return not is_in_guide and find_leg_ends(frame=frame, run=run) is not None


def _ends_of(frame: Frame, run: Run) -> tuple[LegEnd, LegEnd]:
    ends = find_leg_ends(frame=frame, run=run)
    assert ends is not None, "asked only of runs whose ends have a place"
    return ends


def _centreline_radius_mm(line: Line) -> float:
    return centreline_bend_radius_mm(
        inside_bend_radius_mm=line.minimum_bend_radius_mm, outer_diameter_mm=line.outer_diameter_mm
    )


def _find_ranges(
    frame: Frame, line: Line, runs: Iterable[Run], *, together: Sequence[Run]
) -> dict[str, tuple[LegRange, ...]]:
    """The shortest curves of every stretch of each run that nobody measured.

    together : the runs whose curves are worked out at once: all of the frame, or some at a glance
    """
    radius_mm = _centreline_radius_mm(line)
    motions = {
        run.id: _motions_of(frame, _stretches_of(frame, run, radius_mm)) for run in together if _has_shape(frame, run)
    }
    all_motions = tuple(dict.fromkeys(motion for some in motions.values() for motion in some))
    work_out = _ranges_of if len(together) == len(frame.runs) else _ranges_at_a_glance
    found = dict(zip(all_motions, work_out(all_motions, radius_mm), strict=True))
    return {run.id: tuple(found[motion] for motion in motions[run.id]) for run in runs if run.id in motions}


def _hanging_ranges(
    frame: Frame, line: Line, runs: Sequence[Run], *, together: Sequence[Run]
) -> dict[str, tuple[LegRange, ...]]:
    """The same, the points of led runs holding the line as a real hose lies best, if it gets by so in every posture."""
    ranges, radius_mm = _find_ranges(frame, line, runs, together=together), _centreline_radius_mm(line)
    for run in runs:
        points_mm = points_led_past_mm(run)
        if points_mm and run.guide is None:
            start, end = _ends_of(frame, run)
            stretches = find_hanging_stretches(
                start=start, points_mm=points_mm, end=end, centreline_radius_mm=radius_mm
            )
            better = _ranges_of(_motions_of(frame, stretches), radius_mm)
            if all(one.curves.is_only_plain.all() for one in better):
                ranges[run.id] = better
    return ranges


def _motions_of(frame: Frame, stretches: Sequence[tuple[LegEnd, LegEnd]]) -> tuple[LegMotion, ...]:
    return tuple(find_leg_motion(start=a, end=b, bar=frame.bar, rear=frame.rear) for a, b in stretches)


def _stretches_of(frame: Frame, run: Run, radius_mm: float) -> tuple[tuple[LegEnd, LegEnd], ...]:
    start, end = _ends_of(frame, run)
    return find_stretches(start=start, points_mm=points_led_past_mm(run), end=end, centreline_radius_mm=radius_mm)


@lru_cache(maxsize=128)
def _ranges_of(motions: tuple[LegMotion, ...], radius_mm: float) -> tuple[LegRange, ...]:
    """All legs of a frame; remembered, since a frame is planned on many times with the same line.

    Always worked out together: the last digits of a figure hang on what it is worked out with.
    """
    ranges = find_leg_ranges(motions=motions, centreline_radius_mm=radius_mm) if motions else ()
    for motion, found in zip(motions, ranges, strict=True):
        _kept_range(motion, radius_mm)[:] = [found]
    return ranges


def _ranges_at_a_glance(motions: tuple[LegMotion, ...], radius_mm: float) -> tuple[LegRange, ...]:
    """Some legs of a frame, each as somebody may have worked it out before: good for yes and no, not for a figure."""
    kept = [_kept_range(motion, radius_mm) for motion in motions]
    new = tuple(motion for motion, known in zip(motions, kept, strict=True) if not known)
    for motion, found in zip(
        new, find_leg_ranges(motions=new, centreline_radius_mm=radius_mm) if new else (), strict=True
    ):
        _kept_range(motion, radius_mm)[:] = [found]
    return tuple(known[0] for known in kept)


@lru_cache(maxsize=8192)
def _kept_range(_motion: LegMotion, _radius_mm: float) -> list[LegRange]:
    """Where the range of a leg is kept: empty until somebody has worked it out."""
    return []


@lru_cache(maxsize=128)
def _find_hoses(ranges: tuple[LegRange, ...]) -> tuple[HoseRange, ...]:
    return find_hose_ranges(ranges)


def _shortest_leg(run: Run, ranges: Sequence[LegRange]) -> LegLength:
    least_mm = sum(one.longest_mm for one in ranges)
    most_moving = max(ranges, key=lambda one: one.longest_mm - one.shortest_mm)
    rest = _joined([_rest_curve(one) for one in ranges])
    return LegLength(
        run_id=run.id,
        from_place=run.between[0],
        to_place=run.between[1],
        way_mm=rest.length_mm,
        nominal_mm=rest.length_mm,
        low_mm=sum(one.shortest_mm for one in ranges),
        high_mm=least_mm,
        least_mm=least_mm,
        basis="shortest curve",
        worst_posture=posture_words(most_moving.longest_at),
        slackest_posture=posture_words(most_moving.shortest_at),
        slack_variation_mm=sum(one.longest_mm - one.shortest_mm for one in ranges),
        curve=rest,
        tightest_radius_mm=rest.tightest_radius_mm,
        length_checks=tuple(motion_checks(run, ranges)),
    )


def _hung_leg(
    leg: LegLength, run: Run, line: Line, ranges: Sequence[LegRange], hoses: dict[LegRange, HoseRange]
) -> LegLength:
    known = [(one, hoses.get(one)) for one in ranges]
    loops = [check for one, hose in known if (check := loop_check(run, line, one, hose)) is not None]
    if loops:
        return replace(
            leg,
            nominal_mm=None,
            low_mm=None,
            high_mm=None,
            least_mm=None,
            basis="not known",
            length_checks=(*leg.length_checks, *loops),
        )
    if run.guide is not None:
        return leg
    found = [hoses[one] for one in ranges]
    longest = max(found, key=lambda hose: hose.longest_mm - (hose.rest.length_mm if hose.rest is not None else 0.0))
    shapes = [hose.rest for hose in found if hose.rest is not None]
    relaxed = _joined(shapes) if len(shapes) == len(found) else None
    return replace(
        leg,
        high_mm=max(sum(hose.need_mm for hose in found), leg.least_mm or 0.0),
        basis="estimate" if any(hose.estimated for hose in found) else "relaxed shape",
        worst_posture=posture_words(longest.longest_at),
        relaxed_curve=relaxed,
        tightest_radius_mm=leg.tightest_radius_mm if relaxed is None else relaxed.tightest_radius_mm,
        length_checks=(*leg.length_checks, *lying_checks(run, line, found)),
    )


def _drawn_by_its_points(frame: Frame, run: Run, length_mm: float | None) -> Curve | None:
    """A measured guide, drawn by its points; None where its ends have no place."""
    ends = find_leg_ends(frame=frame, run=run)
    if ends is None or length_mm is None:
        return None
    points_mm = (ends[0].pose.position_mm, *points_led_past_mm(run), ends[1].pose.position_mm)
    return Curve(points_mm=points_mm, length_mm=length_mm, tightest_radius_mm=None)


def _rest_curve(one: LegRange) -> Curve:
    start, end = one.motion.start.pose, one.motion.end.pose
    return draw_curve(one.curves, row=0, start=start, end=end, centreline_radius_mm=one.centreline_radius_mm)


def _joined(curves: Sequence[Curve]) -> Curve:
    """Stretches one after the other, as one curve."""
    if len(curves) == 1:
        return curves[0]
    radii_mm = [curve.tightest_radius_mm for curve in curves if curve.tightest_radius_mm is not None]
    return Curve(
        points_mm=(*curves[0].points_mm, *(point for curve in curves[1:] for point in curve.points_mm[1:])),
        length_mm=sum(curve.length_mm for curve in curves),
        tightest_radius_mm=min(radii_mm, default=None),
        is_only_plain_curve=all(curve.is_only_plain_curve for curve in curves),
    )
