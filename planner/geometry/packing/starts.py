"""Where the search for a placement begins: spread evenly over an opening, the same each time."""

from functools import lru_cache

import numpy as np

from planner.geometry.openings.opening_depth import Array, depths_mm, outline_edges
from planner.geometry.openings.opening_shape import SeenArcs, SeenOpening, SeenOutline
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.packing.walls import walls_about

BESIDE_MM = 1e-4
"""How far beside each other things are put that would start in one place."""

_STARTS_FOR_COUNT = {1: 8, 2: 24, 3: 20, 4: 24}
_STARTS_FOR_MORE = 32
_STARTS_OF_THREE_IN_OUTLINE = 60
"""Between the dents of a traced hole three things have more ways to lie: with 20 starts one in ten was up to 0.27 mm
short of the best."""
_FURTHER_STARTS_FOR_COUNT = {3: 40}
_FURTHER_STARTS_OF_THREE_IN_OUTLINE = 60
_SPREAD_RATIO = 0.8
_POINTS_TO_CHOOSE_FROM = 512


def starts_for(seen: SeenOpening, count: int) -> tuple[int, int]:
    """How many starts are tried at first, and how many more where the room found is near nothing.

    count : how many things
    """
    if count == 3 and isinstance(seen, SeenOutline):
        return _STARTS_OF_THREE_IN_OUTLINE, _FURTHER_STARTS_OF_THREE_IN_OUTLINE
    return _STARTS_FOR_COUNT.get(count, _STARTS_FOR_MORE), _FURTHER_STARTS_FOR_COUNT.get(count, 0)


def even_starts(seen: SeenOpening, *, count: int, starts: int) -> Array:
    """So many starts, evenly spread; the first of them are the same however many are asked for.

    Returns starts by things by (x, y). [mm]

    count : how many things
    starts : how many starts
    """
    if isinstance(seen, SeenArcs):
        walls = walls_about(seen, 1)
        half = walls.reach_mm[:2]
        return (
            (even_points(count=starts, dimensions=2 * count).reshape(starts, count, 2) - 0.5) * 2 * half * _SPREAD_RATIO
        )
    corners, _ = outline_edges(seen.parts_mm)
    low, high = corners.min(axis=0), corners.max(axis=0)
    points = low + even_points(count=_POINTS_TO_CHOOSE_FROM, dimensions=2) * (high - low)
    inside = points[depths_mm(seen=seen, points_mm=points) > 0]
    if len(inside) < count:
        inside = np.array(find_largest_disc(seen).centre_mm) + (even_points(count=64, dimensions=2) - 0.5) * 1e-3
    inside = inside[np.lexsort((inside[:, 1], inside[:, 0]))]
    chosen = (even_points(count=starts, dimensions=count) * len(inside)).astype(np.intp)
    # no two things may start in one place: the second of two is put a little beside
    return np.asarray(
        inside[chosen] + even_points(count=starts * count, dimensions=2).reshape(starts, count, 2) * BESIDE_MM
    )


@lru_cache(maxsize=256)
def even_points(*, count: int, dimensions: int) -> Array:
    """Points stepped through a box of side 1, coordinate by coordinate, by powers of 1/x where x^(d+1) = x + 1.

    Returns points by coordinates, 0 to 1.

    count : how many points
    """
    ratio = 2.0
    for _ in range(40):
        ratio = (1 + ratio) ** (1 / (dimensions + 1))
    points: Array = (0.5 + np.outer(np.arange(1, count + 1), ratio ** -np.arange(1.0, dimensions + 1))) % 1
    points.flags.writeable = False  # the same for whoever asks
    return points
