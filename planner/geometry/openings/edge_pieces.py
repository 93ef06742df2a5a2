"""Pieces of a drawn edge as drawing files have them: straight lines, Bézier curves, arcs of ellipses."""

from collections.abc import Callable
from itertools import pairwise
from math import cos, hypot, sin

from planner.quick_dataclass import dataclass

Flat = tuple[float, float]
_NEARBY = 1e-4
"""Share of a piece behind a point at which it stands still, where its direction is looked for."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BezierPiece:
    """A straight line by its two ends, or a curve with one or two control points between them.

    points_mm : first end, control points, last end [mm]
    """

    points_mm: tuple[Flat, ...]

    def at(self, share: float) -> Flat:
        """Where the piece is at a share of it, 0 to 1. [mm]"""
        points = self.points_mm
        while len(points) > 1:
            points = tuple(_between(a, b, share) for a, b in pairwise(points))
        return points[0]

    def along(self, share: float) -> Flat:
        """Which way it goes there; of no length in particular."""
        steps = tuple((b[0] - a[0], b[1] - a[1]) for a, b in pairwise(self.points_mm))
        while len(steps) > 1:
            steps = tuple(_between(a, b, share) for a, b in pairwise(steps))
        return steps[0] if hypot(*steps[0]) > 0 else _way_near(self.at, share)

    def moved(self, move: Callable[[Flat], Flat]) -> "BezierPiece":
        """The same, moved, turned, mirrored or scaled."""
        return BezierPiece(points_mm=tuple(map(move, self.points_mm)))


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcPiece:
    """An arc of a circle or an ellipse.

    centre_mm : its middle [mm]
    first_axis_mm, second_axis_mm : two half axes as ways from the middle; the angle is counted from the first to the
        second [mm]
    start_rad, sweep_rad : where it begins, and how far it goes; below zero the other way round [rad]
    """

    centre_mm: Flat
    first_axis_mm: Flat
    second_axis_mm: Flat
    start_rad: float
    sweep_rad: float

    def at(self, share: float) -> Flat:
        """Where the piece is at a share of it, 0 to 1. [mm]"""
        angle = self.start_rad + share * self.sweep_rad
        x, y = _sum(self.first_axis_mm, cos(angle), self.second_axis_mm, sin(angle))
        return self.centre_mm[0] + x, self.centre_mm[1] + y

    def along(self, share: float) -> Flat:
        """Which way it goes there; of no length in particular."""
        angle, way = self.start_rad + share * self.sweep_rad, 1.0 if self.sweep_rad >= 0 else -1.0
        return _sum(self.first_axis_mm, -way * sin(angle), self.second_axis_mm, way * cos(angle))

    def moved(self, move: Callable[[Flat], Flat]) -> "ArcPiece":
        """The same, moved, turned, mirrored or scaled."""
        centre, (zero_x, zero_y) = move(self.centre_mm), move((0.0, 0.0))
        first, second = ((x - zero_x, y - zero_y) for x, y in (move(self.first_axis_mm), move(self.second_axis_mm)))
        return ArcPiece(
            centre_mm=centre,
            first_axis_mm=first,
            second_axis_mm=second,
            start_rad=self.start_rad,
            sweep_rad=self.sweep_rad,
        )


EdgePiece = BezierPiece | ArcPiece


def _between(a: Flat, b: Flat, share: float) -> Flat:
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def _sum(a: Flat, times_a: float, b: Flat, times_b: float) -> Flat:
    return a[0] * times_a + b[0] * times_b, a[1] * times_a + b[1] * times_b


def _way_near(at: Callable[[float], Flat], share: float) -> Flat:
    before, after = at(max(share - _NEARBY, 0.0)), at(min(share + _NEARBY, 1.0))
    return after[0] - before[0], after[1] - before[1]
