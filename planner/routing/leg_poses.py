"""Where a leg starts and ends in space, what carries its ends, and what it is led past."""

from itertools import pairwise
from math import dist

from planner.errors import UnknownPortError
from planner.geometry.curves.bends import turn_between_deg
from planner.geometry.curves.legs import LegEnd, find_mover
from planner.geometry.motion.frame_axes import Curve, Pose3, opposite
from planner.parts import Frame, Point, Run


def find_leg_ends(*, frame: Frame, run: Run) -> tuple[LegEnd, LegEnd] | None:
    """The two ends of a run as poses of travel, from its first end to its second, with what carries them.

    Returns at the first end and at the second, both pointing the way of travel; None where nobody told the place of
    one.

    Raises UnknownPortError when an end is neither a port nor an anchor of the frame.
    """
    first, second = run.between
    start, end = _end_of(frame, run, first), _end_of(frame, run, second)
    if start is None or end is None:
        return None
    backwards = Pose3(position_mm=end.position_mm, heading=opposite(end.heading))
    return (
        LegEnd(pose=start, moves_with=find_mover(frame=frame, place=first)),
        LegEnd(pose=backwards, moves_with=find_mover(frame=frame, place=second)),
    )


def _end_of(frame: Frame, run: Run, place: str) -> Pose3 | None:
    """Position, and the way a line points there going into the run; None where nobody told them."""
    if place in frame.anchors:
        anchor = frame.anchors[place]
        return _pose(anchor.position_mm, anchor.heading)
    if place not in frame.ports:
        raise UnknownPortError(frame_id=frame.id, port_id=place, known=(*frame.ports, *frame.anchors))
    port = frame.ports[place]
    pose = _pose(port.position_mm, port.heading)
    if pose is None or run.zone_id == port.joins[1]:
        return pose
    return Pose3(position_mm=pose.position_mm, heading=opposite(pose.heading))


def _pose(position_mm: Point | None, heading: Point | None) -> Pose3 | None:
    return None if position_mm is None or heading is None else Pose3(position_mm=position_mm, heading=heading)


def told_length_mm(run: Run) -> float | None:
    """The length of a run as somebody measured it: its own, else its guide's; None where nobody did."""
    return run.length_mm if run.length_mm is not None or run.guide is None else run.guide.length_mm


def points_led_past_mm(run: Run) -> tuple[Point, ...]:
    """The points that a run's line must pass between its ends, in order: those it is led past, then its clips."""
    return (*run.via_mm, *run.clips_mm)


def turn_of_curve_deg(curve: Curve) -> float:
    """How far a curve turns altogether, whichever way, summed over its strokes.

    Returns sum of all changes of direction.
    """
    strokes = [(b[0] - a[0], b[1] - a[1], b[2] - a[2]) for a, b in pairwise(curve.points_mm) if dist(a, b) > 0]
    return sum(turn_between_deg(first=a, second=b) for a, b in pairwise(strokes))
