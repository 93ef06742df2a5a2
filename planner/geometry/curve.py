"""A way through space as a list of points, with its length told exactly."""

from dataclasses import dataclass

from planner.parts import Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Curve:
    """A curve, for measuring and for drawing.

    points_mm : points along it, close enough together to draw [mm]
    length_mm : its length, from its formula and not from the points [mm]
    tightest_radius_mm : smallest radius of curvature along it; None for a straight line [mm]
    """

    points_mm: tuple[Point, ...]
    length_mm: float
    tightest_radius_mm: float | None
