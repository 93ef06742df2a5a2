"""The shortest curve of limited bend between two poses in space."""

from math import atan2, ceil, cos, degrees, dist, hypot, inf, pi, radians, sin

from planner.errors import ImpossibleDimensionError
from planner.geometry.curves.arc_straight_arc import find_arc_straight_arcs
from planner.geometry.curves.planar_dubins import DubinsPath, find_dubins_paths
from planner.geometry.curves.three_arcs import find_three_arcs
from planner.geometry.motion.frame_axes import Curve, Pose3, unit_vector
from planner.geometry.vectors import cross, dot, moved
from planner.parts import Point

_STROKE_RAD = radians(5)
"""How far an arc turns between two drawn points."""

_CLOSE = 4.0
"""In units of the radius: three arcs can only be shorter between poses closer than this, as in the plane."""

_FLAT = 1e-9
"""In units of the radius: poses this little out of one plane lie in it."""

_Piece = tuple[str, float, Point]
"""A piece of curve: S with its length, or C with its turn in radians and the unit vector it turns towards."""


def shortest_bend_limited_curve(*, start: Pose3, end: Pose3, centreline_radius_mm: float) -> Curve:
    """The shortest line between two poses that nowhere bends tighter than allowed.

    Arc-straight-arc curves and, where those need a loop between close poses, three arcs. A real hose springs outward of
    it and needs more. Between poses so close a helicoidal arc may be up to a tenth shorter still: what is returned is
    the best found, and only a straight line is called proven.

    Returns the curve with its length; its shape is S, CSC or CCC.

    start : where the line starts, heading in the direction of travel
    end : where it ends, heading in the direction of travel there
    centreline_radius_mm : the tightest bend allowed, to the centre line

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.

    Source: H. J. Sussmann, "Shortest 3-dimensional paths with a prescribed curvature bound", Proc. 34th IEEE Conf.
    Decision and Control (1995) 3306-3312; from memory of the paper. L. E. Dubins, Amer. J. Math. 79 (1957) 497-516,
    for poses in one plane.
    """
    if not 0 < centreline_radius_mm < inf:
        raise ImpossibleDimensionError(
            name="centreline_radius_mm", value=centreline_radius_mm, unit="mm", rule="must be above zero"
        )
    first, last = unit_vector(start.heading), unit_vector(end.heading)
    gap = tuple((e - s) / centreline_radius_mm for s, e in zip(start.position_mm, end.position_mm, strict=True))
    goal = (gap[0], gap[1], gap[2])
    if _is_straight(goal, first, last):
        return Curve(
            points_mm=(start.position_mm, end.position_mm),
            length_mm=dist(start.position_mm, end.position_mm),
            tightest_radius_mm=None,
            shape="S",
            is_proven_shortest=True,
        )
    length, shape, pieces = min(_candidates(goal, first, last), key=lambda candidate: candidate[:2])
    return Curve(
        points_mm=_walk(start.position_mm, first, pieces, centreline_radius_mm),
        length_mm=length * centreline_radius_mm,
        tightest_radius_mm=centreline_radius_mm,
        shape=shape,
    )


def _is_straight(goal: Point, first: Point, last: Point) -> bool:
    far = hypot(*goal)
    return dist(first, last) < 1e-12 and dist(goal, tuple(far * x for x in first)) < 1e-12 * max(far, 1.0)


def _candidates(goal: Point, first: Point, last: Point) -> list[tuple[float, str, tuple[_Piece, ...]]]:
    found = (_best_in_plane(goal, first, last), _best_with_straight(goal, first, last))
    curves = [curve for curve in found if curve is not None]
    _, _, pieces = min(curves, key=lambda candidate: candidate[:2])
    if hypot(*goal) < _CLOSE and any(letter == "C" and turn > pi for letter, turn, _ in pieces):
        arcs = find_three_arcs(goal=goal, start_heading=first, end_heading=last)
        if arcs is not None:
            curves.append((arcs.length, "CCC", tuple(zip("CCC", arcs.turns, arcs.towards, strict=True))))
    return curves


def _best_with_straight(goal: Point, first: Point, last: Point) -> tuple[float, str, tuple[_Piece, ...]] | None:
    curves = find_arc_straight_arcs(goal=goal, start_heading=first, end_heading=last)
    if not curves:
        return None
    best = min(curves, key=lambda curve: curve.length)
    pieces = (
        ("C", best.first_turn, best.first_towards),
        ("S", best.straight, first),
        ("C", best.last_turn, best.last_towards),
    )
    return best.length, "CSC", pieces


def _best_in_plane(goal: Point, first: Point, last: Point) -> tuple[float, str, tuple[_Piece, ...]] | None:
    """The Dubins path, where both poses lie in one plane."""
    normal = _plane_normal(goal, first, last)
    if normal is None:
        return None
    left = cross(normal, first)
    path = find_dubins_paths(
        start_mm=(0.0, 0.0),
        start_heading_deg=0.0,
        end_mm=(dot(goal, first), dot(goal, left)),
        end_heading_deg=degrees(atan2(dot(last, left), dot(last, first))),
        radius_mm=1.0,
    )[0]
    return path.length_mm, "CCC" if path.word[1] != "S" else "CSC", _pieces_of(path, normal, first)


def _pieces_of(path: DubinsPath, normal: Point, first: Point) -> tuple[_Piece, ...]:
    pieces: list[_Piece] = []
    heading = first
    for letter, length in zip(path.word, path.pieces_mm, strict=True):
        if letter == "S":
            pieces.append(("S", length, heading))
            continue
        side = 1.0 if letter == "L" else -1.0
        x, y, z = cross(normal, heading)
        towards = (side * x, side * y, side * z)
        pieces.append(("C", length, towards))
        heading = _turned(heading, towards, length)
    return tuple(pieces)


def _plane_normal(goal: Point, first: Point, last: Point) -> Point | None:
    """Unit normal of the plane of both poses; None where they lie in no plane or in many."""
    crosses = (cross(first, last), cross(first, goal))
    normal = max(crosses, key=lambda vector: hypot(*vector))
    size = hypot(*normal)
    if size < _FLAT:
        normal = min((cross(first, axis) for axis in _AXES), key=lambda vector: -hypot(*vector))
        size = hypot(*normal)
    unit = (normal[0] / size, normal[1] / size, normal[2] / size)
    return unit if max(abs(dot(unit, goal)), abs(dot(unit, last))) < _FLAT else None


_AXES: tuple[Point, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def _walk(place: Point, heading: Point, pieces: tuple[_Piece, ...], radius_mm: float) -> tuple[Point, ...]:
    points = [place]
    for letter, size, towards in pieces:
        if letter == "S":
            if size > 0:
                points.append(moved(points[-1], heading, size * radius_mm))
            continue
        begin = points[-1]
        strokes = ceil(size / _STROKE_RAD)
        for i in range(1, strokes + 1):
            turn = size * i / strokes
            along = moved(begin, heading, radius_mm * sin(turn))
            points.append(moved(along, towards, radius_mm * (1 - cos(turn))))
        heading = _turned(heading, towards, size)
    return tuple(points)


def _turned(heading: Point, towards: Point, turn: float) -> Point:
    c, s = cos(turn), sin(turn)
    return (c * heading[0] + s * towards[0], c * heading[1] + s * towards[1], c * heading[2] + s * towards[2])
