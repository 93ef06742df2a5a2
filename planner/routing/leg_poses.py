"""Where a leg starts and ends in space, what carries its ends, and what it is led past."""

from itertools import pairwise
from math import dist

from planner.errors import UnknownPortError
from planner.geometry.curves.bends import turn_between_deg
from planner.geometry.curves.legs import LegEnd, find_mover
from planner.geometry.motion.frame_axes import Curve, Pose3, opposite
from planner.parts import Frame, Point, Run


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


def is_measured(run: Run) -> bool:
    """Whether a run lies in a guide whose length somebody measured."""
    return run.guide is not None and run.guide.length_mm is not None


def points_led_past_mm(run: Run) -> tuple[Point, ...]:
    """The points that a run's line must pass between its ends, in order: those it is led past, then its clips."""
    return (*run.via_mm, *run.clips_mm)


def turn_of_curve_deg(curve: Curve) -> float:
    """How far a curve turns altogether, whichever way, summed over its strokes.

    Returns sum of all changes of direction.
    """
    strokes = [(b[0] - a[0], b[1] - a[1], b[2] - a[2]) for a, b in pairwise(curve.points_mm) if dist(a, b) > 0]
    return sum(turn_between_deg(first=a, second=b) for a, b in pairwise(strokes))
