"""Where a hole sits and how a line passes it, from where it is on its tube. Vector geometry, derived."""

from math import cos, hypot, radians, sin

from planner.errors import ImpossibleDimensionError
from planner.geometry.frame_table.tube_path import Station
from planner.geometry.motion.frame_axes import Pose3, opposite, unit_vector
from planner.geometry.vectors import cross, dot, moved, scaled
from planner.parts import Point, SideWord, TubeSide

MOST_ACROSS = 0.9
"""A tube that runs more across the bicycle than this has no left and no right."""

LEAST_TO_SIDE = 0.3
"""A tube's upper side faces up (its front forward) by at least this, or nobody can tell which side is meant."""

STEEP = 0.866
"""From 60 degrees on, twelve o'clock is the front of a tube and no longer its top."""


def outward_at(station: Station, side: TubeSide) -> Point:
    """The way out of a tube's wall at one of its sides, length 1.

    Twelve o'clock is the top, and the front of a tube steeper than 60 degrees; three o'clock is the rider's right.

    Raises ImpossibleDimensionError when the tube has no such side: it runs across the bicycle, or upright.
    """
    along = station.along
    if abs(along[1]) > MOST_ACROSS:
        raise ImpossibleDimensionError(
            name="side", value=along[1], unit="", rule=f"runs across the bicycle by more than {MOST_ACROSS:g}"
        )
    left = unit_vector((-along[1] * along[0], 1 - along[1] * along[1], -along[1] * along[2]), name="side")
    up = cross(along, left)
    upright = 0 if _is_by_front(side, along) else 2
    if side.needs_up and abs(up[upright]) < LEAST_TO_SIDE:
        raise ImpossibleDimensionError(
            name="side", value=abs(up[upright]), unit="", rule=f"faces that way by less than {LEAST_TO_SIDE:g}"
        )
    up = up if up[upright] > 0 else opposite(up)
    angle_rad = radians(30 * side.clock)
    return moved(scaled(up, cos(angle_rad)), left, -sin(angle_rad))


def _is_by_front(side: TubeSide, along: Point) -> bool:
    """Whether the side is told from the tube's front rather than from its top."""
    if side.word in (SideWord.FRONT, SideWord.BACK):
        return True
    return side.word is None and abs(along[2]) > STEEP


def radius_at_mm(*, across_mm: float, up_mm: float, side: TubeSide) -> float:
    """How far the wall of an upright ellipse stands from the middle line at one of its sides.

    across_mm, up_mm : its outside from left to right and from bottom to top
    """
    angle_rad = radians(30 * side.clock)
    return 0.5 / hypot(cos(angle_rad) / up_mm, sin(angle_rad) / across_mm)


def pose_in_side(
    *, station: Station, side: TubeSide, lean_deg: float, radius_mm: float, goes_in: bool, goes_on: bool
) -> Pose3:
    """A hole in the side of a tube, with the way a line points in it.

    lean_deg : between the line and the way straight out of the wall: 0 straight in or out, 90 along the tube
    radius_mm : from the tube's middle line to the hole
    goes_in : whether the line passes it into the tube, rather than out of it
    goes_on : whether the line's way inside lies towards the path's last point

    Raises ImpossibleDimensionError when the tube has no such side.
    """
    out = outward_at(station, side)
    lean_rad = radians(lean_deg)
    inside = station.along if goes_on else opposite(station.along)
    into = moved(scaled(out, -cos(lean_rad)), inside, sin(lean_rad))
    return Pose3(
        position_mm=moved(station.position_mm, out, radius_mm),
        heading=into if goes_in else opposite(into),
    )


def pose_in_end(*, station: Station, is_last: bool, goes_in: bool, off_mm: float, side: TubeSide | None) -> Pose3:
    """The open end of a tube, with the way a line points in it: along the tube.

    is_last : whether it is the end of the path, rather than its start
    off_mm : from the middle line towards the side

    Raises ImpossibleDimensionError when the tube has no such side.
    """
    position_mm = station.position_mm if side is None else moved(station.position_mm, outward_at(station, side), off_mm)
    runs_with_path = goes_in is not is_last
    return Pose3(position_mm=position_mm, heading=station.along if runs_with_path else opposite(station.along))


def pose_in_window(*, first: Station, second: Station, goes_on: tuple[bool, bool]) -> Pose3:
    """A window between two cavities: half way between them, its heading half way between the two ways.

    first, second : where the two middle lines come nearest
    goes_on : whether the line goes towards the path's last point in the first, and in the second

    Raises ImpossibleDimensionError when the line would turn straight back there.
    """
    before, behind = (
        one.along if on else opposite(one.along) for one, on in zip((first, second), goes_on, strict=True)
    )
    if 1 + dot(before, behind) < 1e-9:
        raise ImpossibleDimensionError(
            name="window", value=180, unit="degrees", rule="turns the line straight back: tell `at` and `heading`"
        )
    return Pose3(
        position_mm=scaled(moved(first.position_mm, second.position_mm, 1), 0.5),
        heading=unit_vector(moved(before, behind, 1)),
    )
