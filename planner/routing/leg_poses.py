"""Where a leg starts and ends in space, which way the line points there, and how it lies at rest."""

from itertools import pairwise
from math import dist

from planner.errors import UnknownPortError
from planner.geometry.bends import centreline_bend_radius_mm, turn_between_deg
from planner.geometry.fillets import TightCorner, round_corners
from planner.geometry.frame_axes import Curve, Pose3, opposite
from planner.geometry.space_curves import shortest_bend_limited_curve
from planner.parts import Frame, Line, Point, Run


def find_leg_poses(*, frame: Frame, run: Run) -> tuple[Pose3, Pose3]:
    """The two ends of a run as poses of travel, from its first end to its second.

    Parameters
    ----------
    frame : Frame
        The frame.
    run : Run
        A run of it.

    Returns
    -------
    tuple of Pose3
        At the first end and at the second, both pointing the way of travel.

    Raises
    ------
    UnknownPortError
        When an end is neither a port nor an anchor of the frame.

    References
    ----------
    Plain bookkeeping; no outside source needed.
    """
    first, second = run.between
    start_mm, into_run = _end_of(frame, run, first)
    end_mm, into_run_at_end = _end_of(frame, run, second)
    return (
        Pose3(position_mm=start_mm, heading=into_run),
        Pose3(position_mm=end_mm, heading=opposite(into_run_at_end)),
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


def find_leg_at_rest(*, frame: Frame, run: Run, line: Line) -> tuple[Curve, str, tuple[TightCorner, ...]]:
    """How the line lies in a run while nothing moves.

    A guide with a measured length counts as measured. Points the run is led past are joined with fillets. An open
    leg, and a guide nobody measured, is the shortest curve the line can be bent to.

    Parameters
    ----------
    frame : Frame
        The frame.
    run : Run
        A run of it.
    line : Line
        The line that lies in it.

    Returns
    -------
    tuple of Curve, str, tuple of TightCorner
        The curve; its basis, "measured", "fillets" or "shortest curve"; the corners a fillet does not fit into.

    Raises
    ------
    UnknownPortError
        When an end is neither a port nor an anchor of the frame.

    References
    ----------
    SAE J343 practice: the bend radius is measured to the inside of the bend, so the centre line's is half a diameter
    larger.
    """
    start, end = find_leg_poses(frame=frame, run=run)
    radius_mm = centreline_bend_radius_mm(
        inside_bend_radius_mm=line.minimum_bend_radius_mm, outer_diameter_mm=line.outer_diameter_mm
    )
    if run.guide is not None and run.guide.length_mm is not None:
        points_mm = (start.position_mm, *run.via_mm, end.position_mm)
        measured = Curve(points_mm=points_mm, length_mm=run.guide.length_mm, tightest_radius_mm=None)
        return measured, "measured", ()
    led_past_mm = (*run.via_mm, *run.clips_mm)
    if led_past_mm:
        path = round_corners(points_mm=(start.position_mm, *led_past_mm, end.position_mm), radius_mm=radius_mm)
        return path.curve, "fillets", path.corners_too_tight
    return shortest_bend_limited_curve(start=start, end=end, centreline_radius_mm=radius_mm), "shortest curve", ()


def turn_of_curve_deg(curve: Curve) -> float:
    """How far a curve turns altogether, whichever way, summed over its strokes.

    Parameters
    ----------
    curve : Curve
        The curve.

    Returns
    -------
    float
        Sum of all changes of direction. [deg]

    References
    ----------
    Total curvature of a polyline; elementary.
    """
    strokes = [(b[0] - a[0], b[1] - a[1], b[2] - a[2]) for a, b in pairwise(curve.points_mm) if dist(a, b) > 0]
    return sum(turn_between_deg(first=a, second=b) for a, b in pairwise(strokes))
