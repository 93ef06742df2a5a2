"""Openings drawn point by point with shapely: a second way to say what lies inside, for the tests to hold against."""

from dataclasses import dataclass
from math import cos, pi, radians, sin
from typing import Any

from shapely import intersection_all
from shapely.affinity import scale, translate
from shapely.geometry import Point, Polygon, box

from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening
from planner.verdicts import Placement

_SLICES = 400
"""How many slices of a wall an outline is drawn in, from rim to rim."""


@dataclass(frozen=True)
class Drawn:
    """An opening as a polygon with its corners on the true edge: of a plain shape never larger than the opening."""

    polygon: Any

    @property
    def is_empty(self) -> bool:
        return bool(self.polygon.is_empty)

    @property
    def area(self) -> float:
        return float(self.polygon.area)

    def depth(self, x: float, y: float) -> float:
        """Distance to the edge, below zero outside."""
        point = Point(x, y)
        distance = float(self.polygon.boundary.distance(point))
        return distance if self.polygon.contains(point) else -distance


def draw_opening(opening: Opening, *, tilt_deg: float, wall_mm: float, points_per_arc: int) -> Drawn:
    """The opening foreshortened, and cut off by its second rim; an outline by many slices between the rims too."""
    flat = scale(_draw(opening, points_per_arc), cos(radians(tilt_deg)), 1, origin=(0, 0))
    half = wall_mm * sin(radians(tilt_deg)) / 2
    if not isinstance(opening, OutlineOpening):
        return Drawn(translate(flat, half).intersection(translate(flat, -half)))
    slices = [translate(flat, half * (2 * k / _SLICES - 1)) for k in range(_SLICES + 1)]
    return Drawn(intersection_all(slices))


def overlap_of(placement: Placement, growth_mm: float, drawn: Drawn) -> float:
    """How much the placed things, grown by so much, overlap each other or stick out of the opening. [mm]"""
    things = list(zip(placement.centres_mm, placement.diameters_mm, strict=True))
    worst = -1e9
    for index, ((x, y), size) in enumerate(things):
        worst = max(worst, (size + growth_mm) / 2 - drawn.depth(x, y))
        for (other_x, other_y), other in things[:index]:
            apart = Point(x, y).distance(Point(other_x, other_y))
            worst = max(worst, (size + other) / 2 + growth_mm - apart)
    return worst


def _draw(opening: Opening, points: int) -> Any:
    match opening:
        case RoundOpening():
            return _ellipse(opening.diameter_mm / 2, opening.diameter_mm / 2, points)
        case OvalOpening():
            return _ellipse(opening.length_mm / 2, opening.width_mm / 2, points)
        case OutlineOpening():
            return Polygon(opening.points_mm)
        case SlotOpening():
            radius = min(opening.length_mm, opening.width_mm) / 2
        case BoxOpening():
            radius = opening.corner_radius_mm
    x, y = opening.length_mm / 2 - radius, opening.width_mm / 2 - radius
    if radius < 1e-9:
        return box(-x, -y, x, y)
    ring = _ellipse(radius, radius, points)
    corners = [translate(ring, sx * x, sy * y) for sx in (1, -1) for sy in (1, -1)]
    return corners[0].union(corners[1]).union(corners[2]).union(corners[3]).convex_hull


def _ellipse(a: float, b: float, points: int) -> Any:
    return Polygon([(a * cos(k * pi / 2 / points), b * sin(k * pi / 2 / points)) for k in range(4 * points)])
