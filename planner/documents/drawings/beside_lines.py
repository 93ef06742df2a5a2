"""Lines that take one way drawn beside each other: each moved aside on the paper by its own step."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot

from planner.documents.drawings.svg import PaperPoint

SHARPEST_RATIO = 1.6
"""A corner is moved out by no more than this times the step, however sharp it is."""


def steps_aside_mm(count: int, *, step_mm: float, most_mm: float) -> tuple[float, ...]:
    """How far each of several lines is moved aside, so that together they lie about the middle.

    count : of the lines
    step_mm : between two of them
    most_mm : from the first to the last; where it would be more, the steps are smaller
    """
    if count < 2:
        return (0.0,) * count
    step = min(step_mm, most_mm / (count - 1))
    return tuple((n - (count - 1) / 2) * step for n in range(count))


def moved_aside(way: Sequence[PaperPoint], *, by_mm: float) -> list[PaperPoint]:
    """The way moved aside; above the middle and forward are the same side, whichever end it is told from.

    way : points of it
    by_mm : how far; lines moved by different figures do not meet

    Source: derived: every point along the bisector of its two strokes.
    """
    points = [point for n, point in enumerate(way) if not n or point != way[n - 1]]
    if len(points) < 2:
        return points
    side = by_mm if points[0] >= points[-1] else -by_mm
    across = [_across(a, b) for a, b in pairwise(points)]
    pairs = zip([across[0], *across], [*across, across[-1]], strict=True)
    moved = []
    for (x, y), (first, second) in zip(points, pairs, strict=True):
        ax, ay = first[0] + second[0], first[1] + second[1]
        squared = (ax * ax + ay * ay) / 2
        out = min(1 / squared if squared else SHARPEST_RATIO, SHARPEST_RATIO)
        moved.append((x + side * ax * out, y + side * ay * out))
    return moved


def _across(a: PaperPoint, b: PaperPoint) -> PaperPoint:
    long = hypot(b[0] - a[0], b[1] - a[1])
    return (-(b[1] - a[1]) / long, (b[0] - a[0]) / long)
