"""An opening set in by a radius: where the centre of a round thing may lie, told direction by direction.

How far the figure reaches in a direction is all that a pair needs: the farthest two centres lie as far apart as the two
figures together reach in the direction that favours them most. In the first quarter of the circle the edge has at most
three pieces: a corner on the middle line, where two arcs set in have met; the arc itself, set in; and a corner above,
where the arc meets the flat top, the flat side or its mirror image.
"""

from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise
from math import acos, atan2, cos, hypot, inf, pi, sin, sqrt

from planner.geometry.openings.opening_shape import SeenArcs

Point = tuple[float, float]

_ROUNDS = 60
_STEP_RAD = 1e-15
_STEP_MM = 1e-13
_SHARP_MM = 1e-9
_SCANNED = 24


@dataclass(frozen=True, slots=True, kw_only=True)
class SetIn:
    """An opening set in by a radius, in the first quarter.

    seen : the opening as the line sees it
    radius_mm : how far it is set in; below zero, set out [mm]
    tip_x_mm : of the corner on the middle line [mm]
    tip_until_rad : the normals up to here belong to that corner; below zero where there is none [rad]
    top_mm : the corner above [mm]
    top_from_rad : the normals from here on belong to that corner; a right angle where there is none [rad]
    """

    seen: SeenArcs
    radius_mm: float
    tip_x_mm: float
    tip_until_rad: float
    top_mm: Point
    top_from_rad: float

    def furthest_mm(self, angle_rad: float) -> Point:
        """The point that lies furthest in a direction.

        angle_rad : 0 along the opening's length, a right angle across
        """
        if angle_rad >= self.top_from_rad:
            return self.top_mm
        if angle_rad <= self.tip_until_rad:
            return self.tip_x_mm, 0.0
        return _on_arc(self.seen, self.radius_mm, angle_rad)


@dataclass(frozen=True, slots=True, kw_only=True)
class FarthestPair:
    """The farthest two centres; both told in the first quarter, though one of them lies in the opposite one.

    apart_mm : how far apart they lie [mm]
    first_mm, second_mm : where [mm]
    """

    apart_mm: float
    first_mm: Point
    second_mm: Point


def set_in(*, seen: SeenArcs, radius_mm: float) -> SetIn:
    """An opening set in by a radius, no larger than that of the disc it holds.

    seen : the opening; where its arcs are longer than high it has no flat sides, as no plain shape has
    radius_mm : how far; below zero, set out

    Source: offset curves of the ellipse; plane geometry, derived.
    """
    q, a, b, r = seen.flat_y_mm, seen.arc_x_mm, seen.arc_y_mm, radius_mm
    tip_x, tip_until = 0.0, -1.0
    if a > b and q == 0 and r * a > b * b:
        tip_x = seen.flat_x_mm + sqrt((a * a - b * b) * max(0.0, b * b - r * r)) / b
        cosine = b * sqrt(max(0.0, b * b - r * r) / (a * a - b * b)) / r
        tip_until = acos(min(1.0, cosine))
    top, top_from = _top_corner(seen, radius_mm, max(0.0, tip_until))
    return SetIn(
        seen=seen, radius_mm=radius_mm, tip_x_mm=tip_x, tip_until_rad=tip_until, top_mm=top, top_from_rad=top_from
    )


def _top_corner(seen: SeenArcs, r: float, from_rad: float) -> tuple[Point, float]:
    p, q, a, b = seen.flat_x_mm, seen.flat_y_mm, seen.arc_x_mm, seen.arc_y_mm
    if a < _SHARP_MM:
        return (p - r, q - r), 0.0
    if p >= 0 and r * b <= a * a:
        return (p, q + b - r), pi / 2
    turns_back = _where_arc_turns_back(a, b, r)
    if p > 0:
        if r >= b:
            if p + a - r >= 0:
                return (p + a - r, q + b - r), 0.0
            return (0.0, q + b - r), 0.0
        angle = _root(lambda t: sin(t) * (b * b / _width(a, b, t) - r) - (b - r), 0.0, turns_back)
        x, y = _on_arc(seen, r, angle)
        if x >= 0:
            return (x, y), angle
    angle = _root(lambda t: -p - cos(t) * (a * a / _width(a, b, t) - r), from_rad, max(from_rad, turns_back))
    _, y = _on_arc(seen, r, angle)
    return (0.0, y), angle


def _where_arc_turns_back(a: float, b: float, r: float) -> float:
    """The normal at which an arc tighter above than below is just as tight as the radius; a right angle if none is."""
    if a >= b or r * b <= a * a:
        return pi / 2
    # radius of curvature a^2 b^2 / N^3 = r, and N^2 = a^2 + (b^2 - a^2) sin^2
    square = ((a * b) ** 2 / r) ** (2 / 3)
    sine = sqrt(min(1.0, max(0.0, (square - a * a) / (b * b - a * a))))
    return atan2(sine, sqrt(1 - sine * sine))


def _root(value: Callable[[float], float], low: float, high: float) -> float:
    """Where a function that grows turns from below zero to above; the nearer end where it does not."""
    at_low, at_high = value(low), value(high)
    if at_low >= 0:
        return low
    if at_high <= 0:
        return high
    side = 0
    for _ in range(_ROUNDS):
        middle = (low * at_high - high * at_low) / (at_high - at_low)
        if not low < middle < high:
            middle = (low + high) / 2
        here = value(middle)
        if abs(here) < _STEP_MM or high - low < _STEP_RAD:
            return middle
        if here < 0:
            low, at_low = middle, here
            at_high = at_high / 2 if side < 0 else at_high
            side = -1
        else:
            high, at_high = middle, here
            at_low = at_low / 2 if side > 0 else at_low
            side = 1
    return (low + high) / 2


def _width(a: float, b: float, t: float) -> float:
    c, s = cos(t), sin(t)
    return sqrt(a * a * c * c + b * b * s * s)


def _on_arc(seen: SeenArcs, r: float, t: float) -> Point:
    a, b = seen.arc_x_mm, seen.arc_y_mm
    c, s = cos(t), sin(t)
    n = sqrt(a * a * c * c + b * b * s * s)
    if n == 0:
        return seen.flat_x_mm - r * c, seen.flat_y_mm - r * s
    return seen.flat_x_mm + c * (a * a / n - r), seen.flat_y_mm + s * (b * b / n - r)


def find_farthest_pair(one: SetIn, two: SetIn) -> FarthestPair:
    """The farthest two centres, one in each figure.

    one, two : the same opening, set in by either radius
    """
    ends = (one.tip_until_rad, one.top_from_rad, two.tip_until_rad, two.top_from_rad)
    breaks = sorted({0.0, pi / 2, *(end for end in ends if 0 < end < pi / 2)})
    best = FarthestPair(apart_mm=-inf, first_mm=(0.0, 0.0), second_mm=(0.0, 0.0))
    for low, high in pairwise(breaks):
        for angle in (low, *_turning_points(one, two, low, high), high):
            first, second = one.furthest_mm(angle), two.furthest_mm(angle)
            apart = hypot(first[0] + second[0], first[1] + second[1])
            if apart > best.apart_mm:
                best = FarthestPair(apart_mm=apart, first_mm=first, second_mm=second)
    return best


def _turning_points(one: SetIn, two: SetIn, low: float, high: float) -> list[float]:
    """Directions between two breaks in which the figures together may reach further than in their neighbours.

    There the sum of both reaches is n (p cos + q sin + N) + X cos + Y sin, N the width of the arc's ellipse and (X, Y)
    the corners; its slope over sin cos is m / N - A / cos + B / sin, which only falls where A and B are not below zero.
    """
    seen, arcs, x, y = one.seen, 0, 0.0, 0.0
    for figure in (one, two):
        if low >= figure.top_from_rad:
            x, y = x + figure.top_mm[0], y + figure.top_mm[1]
        elif high <= figure.tip_until_rad:
            x += figure.tip_x_mm
        else:
            arcs += 1
    a, b = seen.arc_x_mm, seen.arc_y_mm
    across, up = arcs * seen.flat_x_mm + x, arcs * seen.flat_y_mm + y
    if arcs == 0:
        return [atan2(up, across)] if low < atan2(up, across) < high else []
    bend = arcs * (b * b - a * a)

    def falls(t: float) -> float:
        c, s = cos(t), sin(t)
        if up == 0:  # the slope vanishes at 0 as well: what is left after taking the sine out decides
            return across - bend * c / _width(a, b, t)
        return across * s - up * c - bend * s * c / _width(a, b, t)

    if across >= 0:
        return [_root(falls, low, high)]
    if bend >= 0 or up == 0:
        return []
    places = [low + (high - low) * k / _SCANNED for k in range(_SCANNED + 1)]
    values = [falls(t) for t in places]
    return [_root(falls, places[k], places[k + 1]) for k in range(_SCANNED) if values[k] < 0 <= values[k + 1]]
