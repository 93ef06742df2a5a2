"""What turns with the handlebar, and where it goes."""

from math import cos, radians, sin

from planner.geometry.motion.frame_axes import Pose3, unit_vector
from planner.geometry.vectors import cross, dot
from planner.parts import Bar, Point


def turn_direction(direction: Point, *, axis: Point, angle_deg: float) -> Point:
    """A direction turned about an axis, right-handed.

    Returns the turned direction, as long as before.

    direction : what is turned
    axis : direction of the axis; any length above zero
    angle_deg : how far; positive the way the fingers of a right hand close whose thumb points along the axis

    >>> [round(x, 12) for x in turn_direction((1, 2, 3), axis=(1, 1, 1), angle_deg=120)]
    [3.0, 1.0, 2.0]

    Raises ImpossibleDimensionError when the axis has no length.

    Source: O. Rodrigues, "Des lois geometriques qui regissent les deplacements d'un systeme solide dans l'espace", J.
    Math. Pures Appl. 5 (1840) 380-440; from memory.
    """
    k = unit_vector(axis, name="axis")
    c, s = cos(radians(angle_deg)), sin(radians(angle_deg))
    beside, along = cross(k, direction), dot(k, direction) * (1 - c)
    x, y, z = direction
    return (
        x * c + beside[0] * s + k[0] * along,
        y * c + beside[1] * s + k[1] * along,
        z * c + beside[2] * s + k[2] * along,
    )


def turn_about_axis(pose: Pose3, *, axis_point_mm: Point, axis: Point, angle_deg: float) -> Pose3:
    """Where a pose comes to lie when what carries it turns about an axis.

    Returns place and heading, both turned.

    axis : direction of the axis; any length above zero
    angle_deg : how far, right-handed about the axis

    Raises ImpossibleDimensionError when the axis has no length.

    Source: O. Rodrigues, J. Math. Pures Appl. 5 (1840) 380-440; from memory.
    """
    px, py, pz = pose.position_mm
    ox, oy, oz = axis_point_mm
    x, y, z = turn_direction((px - ox, py - oy, pz - oz), axis=axis, angle_deg=angle_deg)
    return Pose3(
        position_mm=(ox + x, oy + y, oz + z), heading=turn_direction(pose.heading, axis=axis, angle_deg=angle_deg)
    )


def turn_with_bar(pose: Pose3, *, bar: Bar, angle_deg: float) -> Pose3:
    """Where a pose on the handlebar comes to lie when the bar is turned; with an axis that points up, positive is left.

    Returns place and heading, both turned.

    pose : with the wheel straight ahead
    bar : its steering axis
    angle_deg : how far, right-handed about the bar's axis

    Source: O. Rodrigues, J. Math. Pures Appl. 5 (1840) 380-440; from memory.
    """
    return turn_about_axis(pose, axis_point_mm=bar.axis_point_mm, axis=bar.axis, angle_deg=angle_deg)
