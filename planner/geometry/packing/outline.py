"""One and two round things in a measured outline, dents and all."""

from functools import lru_cache
from typing import Any

import numpy as np

from planner.geometry.openings.opening_depth import Array
from planner.geometry.openings.opening_shape import SeenOutline

_CHORDS_PER_QUARTER = 64
_GROWTH_STEP_MM = 1e-7
_ROUNDS = 60


def pair_bound_in_outline(*, seen: SeenOutline, first_mm: float, second_mm: float, single_mm: float) -> float:
    """No growth of two things above this in an outline.

    The outline is set in by either radius; its farthest points must lie far enough apart. Where a dent sets the edge in
    along an arc, chords cut the arc on the dent's side, so the figure is never too small and the bound holds.

    Returns within a few ten-thousandths of the true growth. [mm]

    seen : the outline as the line sees it
    first_mm, second_mm : diameters of the two things
    single_mm : a growth that is already ruled out beyond

    Source: derived.
    """

    def missing(growth: float) -> float:
        one = _set_in_corners(seen, (first_mm + growth) / 2)
        two = _set_in_corners(seen, (second_mm + growth) / 2)
        if not len(one) or not len(two):
            return np.inf
        between = one[:, None] - two
        return (first_mm + second_mm) / 2 + growth - float(np.hypot(between[..., 0], between[..., 1]).max())

    high = single_mm
    if missing(high) <= 0:
        return high
    step = _GROWTH_STEP_MM * 1e3
    low = high - step
    while missing(low) > 0:
        high, step = low, step * 2
        low = high - step
    for _ in range(_ROUNDS):
        if high - low < _GROWTH_STEP_MM:
            break
        middle = (low + high) / 2
        low, high = (low, middle) if missing(middle) > 0 else (middle, high)
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
