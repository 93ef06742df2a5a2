"""Short proofs that round things cannot grow further: by area, by how many a figure holds, by three in a ring."""

from collections.abc import Callable
from functools import lru_cache
from math import acos, pi, sqrt

from planner.geometry.openings.opening_shape import SeenArcs, SeenOpening, SeenOutline

_HALVINGS = 60
_LEAST_COUNT_FOR_SPREAD = 2
_DENSEST_SQUARE = 2 * sqrt(3)
_EXTRA_THINGS = 2 / sqrt(3) + pi / (2 * sqrt(3)) - 2
"""How many things' worth of room the edge takes beside the things themselves."""


def growth_bound_by_area(*, seen: SeenOpening, diameters_mm: tuple[float, ...]) -> float:
    """No growth above this, for the things would cover more than the opening.

    Returns the lower of two bounds: all areas together; and the densest possible spread of as many things as small as
    the smallest of them. [mm]

    seen : the opening as the line sees it; an outline is taken as its hull
    diameters_mm : outer diameters, largest first

    Source: N. Oler, "An inequality in the geometry of numbers", Acta Math. 105 (1961) 19-48, for how many points at a
    distance from each other a convex figure holds; from memory.
    """
    area = area_mm2(seen)
    bound = _growth_that_covers(area * 4 / pi, diameters_mm)
    for count in range(_LEAST_COUNT_FOR_SPREAD, len(diameters_mm) + 1):
        widest = sqrt(area / (_DENSEST_SQUARE * (count + _EXTRA_THINGS)))
        bound = min(bound, 2 * widest - diameters_mm[count - 1])
    return bound


def _growth_that_covers(squares: float, diameters_mm: tuple[float, ...]) -> float:
    """The growth at which the squares of the diameters add up to this; things grown to less than nothing count none.

    diameters_mm : largest first
    """
    total, total_of_squares, growth = 0.0, 0.0, 0.0
    for count, size in enumerate(diameters_mm, start=1):
        if count > 1 and growth <= -size:
            break
        total, total_of_squares = total + size, total_of_squares + size * size
        growth = (sqrt(max(0.0, total * total - count * (total_of_squares - squares))) - total) / count
    return growth


def growth_of_three_in_ring(*, ring_mm: float, diameters_mm: tuple[float, float, float]) -> float:
    """The greatest growth of three things in a round hole met squarely.

    Either the two largest lie on a diameter and the third drops into the gap beside them, or all three touch each other
    and the hole.

    Returns exact; below zero is what is missing. [mm]

    ring_mm : diameter of the hole
    diameters_mm : outer diameters, largest first

    Source: R. Descartes, letter to Elisabeth of Bohemia, November 1643 (four circles that touch each other); from
    memory.
    """

    def is_too_large(growth: float) -> bool:
        large, middle, small = ((size + growth) / 2 for size in diameters_mm)
        return _ring_about_three(large, middle, small) > ring_mm / 2

    return _turning_point(is_too_large, -diameters_mm[0], ring_mm)


@lru_cache(maxsize=1024)
def area_mm2(seen: SeenOpening) -> float:
    """Area of an opening as the line sees it.

    Returns 0 where the two rims do not overlap. [mm2]

    seen : the opening as the line sees it; an outline is taken as its hull, so that it is never too small

    Source: circle segments and the polygon's area by its corners (shoelace formula); plane geometry, derived.
    """
    if isinstance(seen, SeenOutline):
        return _hull_area(seen)
    return _area_in_arcs(seen)


def _ring_about_three(large: float, middle: float, small: float) -> float:
    if middle <= 0:
        return large
    if small <= large * middle * (large + middle) / (large * large + large * middle + middle * middle):
        return large + middle
    one, two, three = 1 / large, 1 / middle, 1 / small
    return -1 / (one + two + three - 2 * sqrt(one * two + two * three + three * one))


def _turning_point(is_over: Callable[[float], bool], low: float, high: float) -> float:
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if is_over(middle) else (middle, high)
    return high


def _area_in_arcs(seen: SeenArcs) -> float:
    p, q, a, b = seen.flat_x_mm, seen.flat_y_mm, seen.arc_x_mm, seen.arc_y_mm
    if p >= 0:
        return 4 * (p * q + p * b + q * a) + pi * a * b
    if p + a <= 0:
        return 0.0
    cut = -p / a
    return 4 * q * (p + a) + 2 * a * b * (acos(cut) - cut * sqrt(1 - cut * cut))


def _hull_area(seen: SeenOutline) -> float:
    from shapely.geometry import MultiPoint

    return float(MultiPoint([point for part in seen.parts_mm for point in part]).convex_hull.area)
