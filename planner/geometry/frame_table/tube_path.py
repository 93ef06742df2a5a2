"""A tube by the points of its middle line: where one is so many mm along it, and which way it runs there.

Plane and vector geometry, derived.
"""

from collections.abc import Iterator
from itertools import accumulate, pairwise
from math import dist, inf

from planner.geometry.motion.frame_axes import unit_vector
from planner.geometry.vectors import dot, from_to, moved, scaled
from planner.parts import Point
from planner.quick_dataclass import dataclass

CORNER_MM = 20.0
"""Before and behind a corner of the points the tube is taken as turning evenly over this length."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """A place on a tube's middle line.

    distance_mm : along the path from its first point; below 0 or beyond the last point where it lies before or behind
    position_mm : where it is
    along : the way the path runs there, length 1 [no unit]
    """

    distance_mm: float
    position_mm: Point
    along: Point


def path_length_mm(path_mm: tuple[Point, ...]) -> float:
    """How long a tube is from its first point to its last."""
    return sum(dist(a, b) for a, b in pairwise(path_mm))


def station_at(path_mm: tuple[Point, ...], *, distance_mm: float) -> Station:
    """The place so far along a tube; beyond an end the end piece goes on straight.

    Near a corner the tube turns evenly from the one piece's direction to the other's, over no more than half of the
    shorter piece on either side: with two pieces' directions alone a port there would point wrong by up to half the
    corner.

    Raises ImpossibleDimensionError when two points of the path are one.
    """
    starts = _starts_mm(path_mm)
    piece = max((i for i in range(len(path_mm) - 1) if starts[i] <= distance_mm), default=0)
    along = _along(path_mm, piece)
    position_mm = moved(path_mm[piece], along, distance_mm - starts[piece])
    return Station(
        distance_mm=distance_mm, position_mm=position_mm, along=_smoothed(path_mm, starts, piece, distance_mm)
    )


def nearest_station(path_mm: tuple[Point, ...], place_mm: Point) -> Station:
    """The place on a tube that is nearest to a point; no further than its ends.

    Raises ImpossibleDimensionError when two points of the path are one.
    """
    starts = _starts_mm(path_mm)
    best_mm, best_distance_mm = inf, 0.0
    for piece in range(len(path_mm) - 1):
        along = _along(path_mm, piece)
        apart = from_to(path_mm[piece], place_mm)
        on_it_mm = min(max(dot(apart, along), 0.0), starts[piece + 1] - starts[piece])
        off_mm = dist(place_mm, moved(path_mm[piece], along, on_it_mm))
        if off_mm < best_mm:
            best_mm, best_distance_mm = off_mm, starts[piece] + on_it_mm
    return station_at(path_mm, distance_mm=best_distance_mm)


def nearest_stations(first_mm: tuple[Point, ...], second_mm: tuple[Point, ...]) -> tuple[Station, Station]:
    """Where two tubes come nearest to each other: the place on each.

    Raises ImpossibleDimensionError when two points of a path are one.
    """
    pairs = (
        (dist(a, b), a, b)
        for one in pairwise(first_mm)
        for other in pairwise(second_mm)
        for a, b in _near_pairs(one, other)
    )
    _, a, b = min(pairs)
    return nearest_station(first_mm, a), nearest_station(second_mm, b)


def _near_pairs(one: tuple[Point, Point], other: tuple[Point, Point]) -> Iterator[tuple[Point, Point]]:
    """Pairs of places on two straight pieces, the nearest among them: inside both, or at an end of one."""
    for end in one:
        yield end, nearest_station(other, end).position_mm
    for end in other:
        yield nearest_station(one, end).position_mm, end
    (start, along), (start_2, along_2) = (
        (piece[0], unit_vector(from_to(*piece), name="piece of a path")) for piece in (one, other)
    )
    lean, apart = dot(along, along_2), from_to(start, start_2)
    square = 1 - lean * lean
    if square > 0:
        by = (dot(apart, along) - lean * dot(apart, along_2)) / square
        by_2 = (lean * dot(apart, along) - dot(apart, along_2)) / square
        if 0 <= by <= dist(*one) and 0 <= by_2 <= dist(*other):
            yield moved(start, along, by), moved(start_2, along_2, by_2)


def _smoothed(path_mm: tuple[Point, ...], starts: tuple[float, ...], piece: int, distance_mm: float) -> Point:
    """The way the path runs, a corner taken as an even turn."""
    for corner in (piece, piece + 1):
        if 0 < corner < len(path_mm) - 1:
            beside_mm = (starts[corner] - starts[corner - 1], starts[corner + 1] - starts[corner])
            half_mm = min(CORNER_MM, min(beside_mm) / 2)
            share = (distance_mm - starts[corner] + half_mm) / (2 * half_mm)
            if 0 < share < 1:
                before, behind = _along(path_mm, corner - 1), _along(path_mm, corner)
                return unit_vector(moved(scaled(before, 1 - share), behind, share), name="turn of a path")
    return _along(path_mm, piece)


def _starts_mm(path_mm: tuple[Point, ...]) -> tuple[float, ...]:
    return tuple(accumulate((dist(a, b) for a, b in pairwise(path_mm)), initial=0.0))


def _along(path_mm: tuple[Point, ...], piece: int) -> Point:
    return unit_vector(from_to(path_mm[piece], path_mm[piece + 1]), name="piece of a path")
