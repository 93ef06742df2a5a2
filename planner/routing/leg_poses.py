"""Where a leg starts and ends in space, what carries its ends, and how a line lies between them."""

from itertools import pairwise
from math import dist

import numpy as np

from planner.errors import UnknownPortError
from planner.geometry.curves.bends import centreline_bend_radius_mm, turn_between_deg
from planner.geometry.curves.fillets import FilletedPath, round_corners
from planner.geometry.curves.legs import Ends, LegEnd, MeasuredLegs, find_mover, measure_shortest
from planner.geometry.curves.space_curves import shortest_bend_limited_curve
from planner.geometry.motion.frame_axes import Curve, Pose3, opposite
from planner.parts import Frame, Line, Point, Run


def find_leg_ends(*, frame: Frame, run: Run) -> tuple[LegEnd, LegEnd]:
    """The two ends of a run as poses of travel, from its first end to its second, with what carries them.

    Returns at the first end and at the second, both pointing the way of travel.

    Raises UnknownPortError when an end is neither a port nor an anchor of the frame.
    """
    first, second = run.between
    start_mm, into_run = _end_of(frame, run, first)
    end_mm, into_run_at_end = _end_of(frame, run, second)
    return (
        LegEnd(pose=Pose3(position_mm=start_mm, heading=into_run), moves_with=find_mover(frame=frame, place=first)),
        LegEnd(
            pose=Pose3(position_mm=end_mm, heading=opposite(into_run_at_end)),
            moves_with=find_mover(frame=frame, place=second),
        ),
    )


def _end_of(frame: Frame, run: Run, place: str) -> tuple[Point, Point]:
    """Position, and the way a line points there going into the run."""
    if place in frame.anchors:
        anchor = frame.anchors[place]
        return anchor.position_mm, anchor.heading
    if place not in frame.ports:
        raise UnknownPortError(frame_id=frame.id, port_id=place, known=(*frame.ports, *frame.anchors))
    port = frame.ports[place]
    return port.position_mm, port.heading if run.zone_id == port.joins[1] else opposite(port.heading)


def draw_leg(*, run: Run, centreline_radius_mm: float, start: Pose3, end: Pose3) -> Curve:
    """How a line lies in a run between two poses.

    Points the run is led past, and its clips, are joined with fillets; everything else is the shortest curve the line
    can be bent to.

    centreline_radius_mm : tightest bend of the line's centre line
    start, end : both pointing the way of travel, from the run's first end to its second
    """
    if is_led_past(run):
        return round_run(run=run, centreline_radius_mm=centreline_radius_mm, start=start, end=end).curve
    return shortest_bend_limited_curve(start=start, end=end, centreline_radius_mm=centreline_radius_mm)


def measure_legs(ends: Ends, *, run: Run, centreline_radius_mm: float) -> MeasuredLegs:
    """How much line lies in a run in several postures, drawn as `draw_leg` does."""
    if not is_led_past(run):
        return measure_shortest(ends, centreline_radius_mm=centreline_radius_mm)
    lengths_mm = [
        draw_leg(run=run, centreline_radius_mm=centreline_radius_mm, start=start, end=end).length_mm
        for start, end in ends
    ]
    return MeasuredLegs(
        lengths_mm=np.array(lengths_mm), is_plain=np.ones(len(ends), bool), largest_turns_deg=np.zeros(len(ends))
    )


def is_led_past(run: Run) -> bool:
    """Whether a run has points or clips that its line must pass.

    True where it has.
    """
    return bool(run.via_mm or run.clips_mm)


def round_run(*, run: Run, centreline_radius_mm: float, start: Pose3, end: Pose3) -> FilletedPath:
    """A run that is led past points, its corners rounded, with the corners that are too tight.

    Returns the way from start to end, past the points first and then the clips.
    """
    points_mm = (start.position_mm, *run.via_mm, *run.clips_mm, end.position_mm)
    return round_corners(points_mm=points_mm, radius_mm=centreline_radius_mm)


def find_leg_at_rest(*, frame: Frame, run: Run, line: Line) -> Curve:
    """How a line lies in a run of a frame while nothing moves; a guide with a measured length is drawn by its points.

    Returns from the run's first end to its second.

    Source: SAE J343 practice: the bend radius is measured to the inside of the bend, so the centre line's is half a
    diameter larger.
    """
    start, end = (leg_end.pose for leg_end in find_leg_ends(frame=frame, run=run))
    if run.guide is not None and run.guide.length_mm is not None:
        points_mm = (start.position_mm, *run.via_mm, end.position_mm)
        return Curve(points_mm=points_mm, length_mm=run.guide.length_mm, tightest_radius_mm=None)
    radius_mm = centreline_bend_radius_mm(
        inside_bend_radius_mm=line.minimum_bend_radius_mm, outer_diameter_mm=line.outer_diameter_mm
    )
    return draw_leg(run=run, centreline_radius_mm=radius_mm, start=start, end=end)


def turn_of_curve_deg(curve: Curve) -> float:
    """How far a curve turns altogether, whichever way, summed over its strokes.

    Returns sum of all changes of direction.
    """
    strokes = [(b[0] - a[0], b[1] - a[1], b[2] - a[2]) for a, b in pairwise(curve.points_mm) if dist(a, b) > 0]
    return sum(turn_between_deg(first=a, second=b) for a, b in pairwise(strokes))
