"""Where zero is, which way is forward, and what a curve through that space is.

Origin at the bottom-bracket centre, x forward, y to the rider's left, z up; millimetres.
"""

from math import hypot

from planner.errors import ImpossibleDimensionError
from planner.parts import Point
from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Pose3:
    """A place on a line and the way the line goes there.

    position_mm : where [mm]
    heading : direction of travel; any length above zero
    """

    position_mm: Point
    heading: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """The centre line of a line through space.

    points_mm : along the curve, close enough to be drawn with straight strokes [mm]
    length_mm : of the curve itself, not of the strokes [mm]
    tightest_radius_mm : of its tightest bend, to the centre line; None where it is straight [mm]
    shape : letters for its pieces, such as CSC (arc, straight, arc); empty where it has no pieces
    is_proven_shortest : whether no shorter curve of the same bend limit joins the same ends; False where the
        shortest found is all that can be said
    is_only_plain_curve : whether it is the one curve between its ends of an arc, a straight and an arc of no more than
        half a circle each; nothing shorter was then ever found. Where there is none, a loop may be needed
    """

    points_mm: tuple[Point, ...]
    length_mm: float
    tightest_radius_mm: float | None
    shape: str = ""
    is_proven_shortest: bool = False
    is_only_plain_curve: bool = False


def unit_vector(vector: Point, *, name: str = "heading") -> Point:
    """The same direction at length one.

    Returns the direction, length 1.

    vector : any direction that is not zero
    name : what it is, for the complaint

    Raises ImpossibleDimensionError when the vector has no length, for then it points nowhere.
    """
    length = hypot(*vector)
    if not 0 < length < float("inf"):
        raise ImpossibleDimensionError(name=name, value=length, unit="long", rule="must have a length above zero")
    return (vector[0] / length, vector[1] / length, vector[2] / length)


def opposite(vector: Point) -> Point:
    """The same direction walked the other way.

    vector : any direction
    """
    return (-vector[0], -vector[1], -vector[2])
