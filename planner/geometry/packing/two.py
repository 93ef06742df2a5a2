"""Two round things in one opening: the farthest places in it must lie far enough apart."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from planner.geometry.openings.opening_depth import nearest_edge
from planner.geometry.openings.opening_shape import SeenArcs
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.packing.set_in import Point, find_farthest_pair, set_in

_GROWTH_STEP_MM = 1e-9
_DEFICIT_MM = 1e-12
_ROUNDS = 100


@dataclass(frozen=True, slots=True, kw_only=True)
class PairGrowth:
    """How much two things can grow in an opening; below zero is what is missing.

    growth_mm : exact to 0.000001 mm [mm]
    centres_mm : where they lie then [mm]
    """

    growth_mm: float
    centres_mm: tuple[Point, Point]


@lru_cache(maxsize=8192)
def find_pair_growth(seen: SeenArcs, *, first_mm: float, second_mm: float) -> PairGrowth:
    """The greatest growth of two diameters in an opening with arcs.

    The centres of either thing lie in the opening set in by its radius; how far the two figures together reach tells
    how far apart the centres can lie.

    seen : the opening as the line sees it
    first_mm, second_mm : diameters of the two things
    """
    together = (first_mm + second_mm) / 2
    single = find_largest_disc(seen).diameter_mm - max(first_mm, second_mm)
    row = seen.flat_x_mm + seen.arc_x_mm - together
    if row <= single and _is_row_farthest(seen):
        ends = _row_ends(seen, (first_mm + row) / 2, (second_mm + row) / 2)
        if ends is not None:
            return PairGrowth(growth_mm=row, centres_mm=ends)

    def missing_at(growth: float) -> tuple[float, Point, Point]:
        farthest = find_farthest_pair(
            set_in(seen=seen, radius_mm=(first_mm + growth) / 2), set_in(seen=seen, radius_mm=(second_mm + growth) / 2)
        )
        return together + growth - farthest.apart_mm, farthest.first_mm, farthest.second_mm

    growth, one, two = _growth_up_to(single, missing_at)
    return PairGrowth(growth_mm=growth, centres_mm=((-one[0], -one[1]), two))


def _is_row_farthest(seen: SeenArcs) -> bool:
    """Whether the opening is nowhere longer, tangent to tangent, than along its length: then no pair beats a row."""
    p, q, a, b = seen.flat_x_mm, seen.flat_y_mm, seen.arc_x_mm, seen.arc_y_mm
    if q > 0:
        return False
    if p < 0:
        return b <= a and b <= p + a
    return b <= a or p * a >= b * b - a * a


def _row_ends(seen: SeenArcs, first_radius: float, second_radius: float) -> tuple[Point, Point] | None:
    end = seen.flat_x_mm + seen.arc_x_mm
    for radius in (first_radius, second_radius):
        depth, _, _ = nearest_edge(seen=seen, x_mm=end - radius, y_mm=0.0)
        if depth < radius - _DEFICIT_MM:
            return None
    return (first_radius - end, 0.0), (end - second_radius, 0.0)


def _growth_up_to(
    bound: float, missing_at: Callable[[float], tuple[float, Point, Point]]
) -> tuple[float, Point, Point]:
    """The greatest growth, no more than `bound`, at which nothing is missing.

    What is missing grows by at least one for each mm of growth, so the answer lies within that much of `bound`.
    """
    high, (missing_high, one, two) = bound, missing_at(bound)
    if missing_high <= 0:
        return high, one, two
    low = high - missing_high
    missing_low, one, two = missing_at(low)
    side = 0
    for _ in range(_ROUNDS):
        if high - low < _GROWTH_STEP_MM or missing_low > -_GROWTH_STEP_MM / 10:
            break
        middle = (low * missing_high - high * missing_low) / (missing_high - missing_low)
        if not low < middle < high:
            middle = (low + high) / 2
        missing, one_here, two_here = missing_at(middle)
        if missing <= 0:
            low, missing_low, one, two = middle, missing, one_here, two_here
            missing_high = missing_high / 2 if side < 0 else missing_high
            side = -1
        else:
            high, missing_high = middle, missing
            missing_low = missing_low / 2 if side > 0 else missing_low
            side = 1
    return low, one, two
