"""Three numbers at a time: what geometry in space does with points and directions, without numpy's cost per call.

Textbook vector algebra, derived.
"""

from math import hypot

from planner.parts import Point


def dot(a: Point, b: Point) -> float:
    """Length of one along the other, times the other's length.

    Returns their scalar product, in the product of their units [mm2 for two places].

    a, b : two vectors
    """
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def cross(a: Point, b: Point) -> Point:
    """Square to both, right-handed, as long as the area they span.

    Returns their vector product.

    a, b : two vectors
    """
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def moved(place: Point, direction: Point, by: float) -> Point:
    """A place carried along a direction.

    by : how many times the direction [no unit]
    """
    return (place[0] + by * direction[0], place[1] + by * direction[1], place[2] + by * direction[2])


def scaled(vector: Point, by: float) -> Point:
    """The same direction so many times as long.

    by : how many times [no unit]
    """
    return (vector[0] * by, vector[1] * by, vector[2] * by)


def from_to(start: Point, end: Point) -> Point:
    """The way from one place straight to another, as long as they are apart."""
    return (end[0] - start[0], end[1] - start[1], end[2] - start[2])


def across(heading: Point) -> Point:
    """A unit vector square to a heading, always the same one for the same heading.

    Returns square to it, towards that axis of the frame it leans on least.

    heading : a unit vector
    """
    sizes = [abs(x) for x in heading]
    least = sizes.index(min(sizes))
    axis: Point = (float(least == 0), float(least == 1), float(least == 2))
    side = cross(heading, axis)
    size = hypot(*side)
    return (side[0] / size, side[1] / size, side[2] / size)
