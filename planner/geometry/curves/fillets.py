"""A line led past given points: straight pieces joined with arcs."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil, cos, dist, inf, radians, sin, tan

from planner.errors import ImpossibleDimensionError
from planner.geometry.curves.bends import turn_between_deg
from planner.geometry.motion.frame_axes import Curve, unit_vector
from planner.parts import Point

_STROKE_RAD = radians(5)
"""How far an arc turns between two drawn points."""

_STRAIGHT_BACK_DEG = 180 - 1e-9
"""A corner that turns this far has no arc: its tangents never meet."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TightCorner:
    """A corner whose arc does not fit between its neighbours.

    corner : its place in the points given, counted from 0
    point_mm : where it is [mm]
    turn_deg : its change of direction [deg]
    radius_wanted_mm, radius_available_mm : what was asked, and what its straight pieces have room for [mm]
    """

    corner: int
    point_mm: Point
    turn_deg: float
    radius_wanted_mm: float
    radius_available_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FilletedPath:
    """A polyline with rounded corners, and the corners that cannot be rounded as asked.

    curve : the path; at a corner too tight it takes the radius that is available there, so the path can be drawn
    corners_too_tight : empty where every arc fits
    """

    curve: Curve
    corners_too_tight: tuple[TightCorner, ...]


def filleted_length_mm(*, points_mm: Sequence[Point], radius_mm: float) -> float | None:
    """How much line a path past given points takes when its corners are rounded.

    Returns length along the centre line ; None where an arc does not fit between its neighbours.

    points_mm : the points, ends included
    radius_mm : radius of the corners, to the centre line

    Examples
    --------
    >>> round(filleted_length_mm(points_mm=[(0, 0, 0), (200, 0, 0), (200, 150, 0), (200, 150, 300)], radius_mm=50), 4)
    607.0796

    Raises ImpossibleDimensionError when there are fewer than two points, two neighbours coincide, or the radius is
        not above zero.

    Source: Elements of a circular curve between two tangents, as in any text on route surveying: tangent r tan(turn /
    2), arc r turn.
    """
    path = round_corners(points_mm=points_mm, radius_mm=radius_mm)
    return None if path.corners_too_tight else path.curve.length_mm


def round_corners(*, points_mm: Sequence[Point], radius_mm: float) -> FilletedPath:
    """The path past given points with its corners rounded.

    Where two arcs want more of a straight piece than it is long, both get a share in proportion to their wants.
    A corner that turns straight back has room for no arc at all: its radius available is 0.

    Returns the curve, and every corner too tight with the radius that would fit.

    points_mm : the points, ends included
    radius_mm : radius of the corners, to the centre line

    Raises ImpossibleDimensionError when there are fewer than two points, two neighbours coincide, or the radius is
        not above zero.

    Source: Elements of a circular curve between two tangents, as in any text on route surveying: tangent r tan(turn /
    2), arc r turn.
    """
    _refuse_impossible(points_mm, radius_mm)
    legs_mm = [dist(a, b) for a, b in pairwise(points_mm)]
    headings = [unit_vector((b[0] - a[0], b[1] - a[1], b[2] - a[2])) for a, b in pairwise(points_mm)]
    turns_deg = [turn_between_deg(first=a, second=b) for a, b in pairwise(headings)]
    radii_mm = _radii_that_fit(legs_mm, turns_deg, radius_mm)
    length_mm = sum(legs_mm)
    points = [points_mm[0]]
    tight = []
    for i, (turn_deg, available_mm) in enumerate(zip(turns_deg, radii_mm, strict=True), start=1):
        length_mm -= _saving_mm(turn_deg, available_mm)
        points += _arc_points(points_mm[i], headings[i - 1], headings[i], radians(turn_deg), available_mm)
        if available_mm < radius_mm:
            tight.append(
                TightCorner(
                    corner=i,
                    point_mm=points_mm[i],
                    turn_deg=turn_deg,
                    radius_wanted_mm=radius_mm,
                    radius_available_mm=available_mm,
                )
            )
    bends_mm = [r for r, turn_deg in zip(radii_mm, turns_deg, strict=True) if turn_deg > 0]
    curve = Curve(
        points_mm=(*points, points_mm[-1]), length_mm=length_mm, tightest_radius_mm=min(bends_mm, default=None)
    )
    return FilletedPath(curve=curve, corners_too_tight=tuple(tight))


def _refuse_impossible(points_mm: Sequence[Point], radius_mm: float) -> None:
    if len(points_mm) < 2:
        raise ImpossibleDimensionError(
            name="points_mm", value=len(points_mm), unit="points", rule="must be two points or more"
        )
    if not 0 < radius_mm < inf:
        raise ImpossibleDimensionError(name="radius_mm", value=radius_mm, unit="mm", rule="must be above zero")
    for a, b in pairwise(points_mm):
        if not dist(a, b) > 0:
            raise ImpossibleDimensionError(
                name="points_mm", value=dist(a, b), unit="mm", rule="must be above zero between neighbouring points"
            )


def _tangent_mm(turn_deg: float, radius_mm: float) -> float:
    return radius_mm * tan(radians(turn_deg) / 2)


def _saving_mm(turn_deg: float, radius_mm: float) -> float:
    return 2 * _tangent_mm(turn_deg, radius_mm) - radius_mm * radians(turn_deg)


def _radii_that_fit(legs_mm: Sequence[float], turns_deg: Sequence[float], radius_mm: float) -> list[float]:
    """The radius wanted, or at a corner short of room the share of it that fits on both of its straight pieces."""
    radii_mm = [0.0 if turn_deg >= _STRAIGHT_BACK_DEG else radius_mm for turn_deg in turns_deg]
    tangents_mm = [0.0, *(_tangent_mm(t, r) for t, r in zip(turns_deg, radii_mm, strict=True)), 0.0]
    shares = [
        _share(leg_mm, before_mm + after_mm)
        for leg_mm, before_mm, after_mm in zip(legs_mm, tangents_mm, tangents_mm[1:], strict=False)
    ]
    return [
        own_mm * min(before, after) if turn_deg > 0 else own_mm
        for before, after, turn_deg, own_mm in zip(shares, shares[1:], turns_deg, radii_mm, strict=False)
    ]


def _share(leg_mm: float, wanted_mm: float) -> float:
    """How much of what is wanted a straight piece can give; a rounding of 1e-12 is no shortage."""
    return 1.0 if wanted_mm <= leg_mm * (1 + 1e-12) else leg_mm / wanted_mm


def _arc_points(corner: Point, before: Point, after: Point, turn_rad: float, radius_mm: float) -> list[Point]:
    if turn_rad == 0 or radius_mm == 0:
        return [corner]
    tangent_mm = radius_mm * tan(turn_rad / 2)
    strokes = max(1, ceil(turn_rad / _STROKE_RAD))
    points = []
    for i in range(strokes + 1):
        # a point of the arc lies in the plane of the two headings: walk `a` along the first and `b` along the second
        angle = turn_rad * i / strokes
        along_second = radius_mm * (1 - cos(angle)) / sin(turn_rad)
        along_first = radius_mm * sin(angle) - along_second * cos(turn_rad) - tangent_mm
        x, y, z = (c + along_first * b + along_second * a for c, b, a in zip(corner, before, after, strict=True))
        points.append((x, y, z))
    return points
