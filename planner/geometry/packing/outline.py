"""Two round things in a measured outline, dents and all: what is ruled out."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

import numpy as np

from planner.geometry.openings.opening_depth import Array
from planner.geometry.openings.opening_shape import SeenOutline
from planner.geometry.packing.work import Work

_CHORDS_PER_QUARTER = 64
_JUST_ABOVE_MM = 5e-4
_GROWTH_STEP_MM = 1e-4
_ROWS_PER_PAIR_OF_EDGES = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class PairInOutline:
    """Two things in a measured outline.

    The outline is set in by either radius; its farthest points must lie far enough apart. Where a dent sets the edge in
    along an arc, chords cut the arc on the dent's side, so the figure is never too small and what is ruled out is.

    seen : the outline as the line sees it; something is left of it
    first_mm, second_mm : diameters of the two things
    """

    seen: SeenOutline
    first_mm: float
    second_mm: float

    def is_ruled_out(self, growth_mm: float, work: Work) -> bool:
        """Whether both cannot grow by so much; False where that is not proven, or the work allowed has run out."""
        edges = sum(len(part) for part in self.seen.parts_mm)
        if work.is_out:
            return False
        work.spend(2 * _ROWS_PER_PAIR_OF_EDGES * edges * edges)
        one, two = (_set_in_corners(self.seen, (size + growth_mm) / 2) for size in (self.first_mm, self.second_mm))
        if not len(one) or not len(two):
            return True
        between = one[:, None] - two
        apart_mm = float(np.hypot(between[..., 0], between[..., 1]).max())
        return apart_mm < (self.first_mm + self.second_mm) / 2 + growth_mm

    def bound_mm(self, *, found_mm: float, single_mm: float, work: Work) -> float:
        """No growth above this; asked just above what was found, and sought only where that stays open.

        Returns within half a thousandth of the true growth, where the work allows.

        found_mm : the growth of the best placement found
        single_mm : a growth that is already ruled out beyond
        work : what the bound may cost

        Source: Minkowski sums, as told above; derived.
        """
        low, high = found_mm + _JUST_ABOVE_MM, single_mm
        if low >= high or self.is_ruled_out(low, work):
            return min(low, high)
        while high - low > _GROWTH_STEP_MM and not work.is_out:
            middle = (low + high) / 2
            low, high = (low, middle) if self.is_ruled_out(middle, work) else (middle, high)
        return high


def _set_in_corners(seen: SeenOutline, inset_mm: float) -> Array:
    inset = _figure(seen).buffer(-inset_mm, quad_segs=_CHORDS_PER_QUARTER)
    if inset.is_empty:
        return np.zeros((0, 2))
    return np.array(inset.convex_hull.exterior.coords if inset.convex_hull.area > 0 else inset.convex_hull.coords)


@lru_cache(maxsize=64)
def _figure(seen: SeenOutline) -> Any:
    from shapely.geometry import MultiPolygon, Polygon

    return MultiPolygon([Polygon(part) for part in seen.parts_mm])
