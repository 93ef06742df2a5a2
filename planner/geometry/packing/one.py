"""The largest disc that an opening holds."""

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt

import numpy as np

from planner.geometry.openings.opening_depth import Array, depths_mm, edge_distances, nearest_edge, outline_edges
from planner.geometry.openings.opening_shape import SeenArcs, SeenOpening, SeenOutline
from planner.geometry.packing.growth import grow_from_starts
from planner.geometry.packing.work import MOST_WORK, Work

_DEPTH_STEP_MM = 1e-6
_ROUNDS = 60
_STARTS = 6
_HOPELESS_MM = 0.04
_QUARTERS = np.array([(-0.5, -0.5), (-0.5, 0.5), (0.5, -0.5), (0.5, 0.5)])


@dataclass(frozen=True, slots=True, kw_only=True)
class LargestDisc:
    """The largest disc inside an opening.

    diameter_mm : found; below zero, the slices of the wall leave nothing and this much is missing [mm]
    bound_mm : proven: none is larger [mm]
    centre_mm : where it lies [mm]
    work_rows : what finding it cost
    """

    diameter_mm: float
    bound_mm: float
    centre_mm: tuple[float, float]
    work_rows: int = 0


@lru_cache(maxsize=4096)
def find_largest_disc(seen: SeenOpening, *, most_work: int = MOST_WORK) -> LargestDisc:
    """The largest disc that fits into an opening as the line sees it.

    Openings with arcs are symmetric and convex, so the disc sits in the middle. In an outline, squares that cannot
    hold a deeper point are thrown away and the others quartered, for depth changes by no more than the way gone.

    Returns exact for openings with arcs; within 0.000002 mm for outlines of any ordinary kind, and it says how near
    it came.

    seen : the opening as the line sees it
    most_work : rows that may be looked at; where they run out, how near it came is told
    """
    if isinstance(seen, SeenArcs):
        depth, _, _ = nearest_edge(seen=seen, x_mm=0.0, y_mm=0.0)
        return LargestDisc(diameter_mm=2 * depth, bound_mm=2 * depth, centre_mm=(0.0, 0.0))
    return _largest_disc_in_outline(seen, Work(most_work))


def _largest_disc_in_outline(seen: SeenOutline, work: Work) -> LargestDisc:
    if seen.nearest_mm is not None:
        return LargestDisc(diameter_mm=-seen.missing_mm, bound_mm=-seen.missing_mm, centre_mm=seen.nearest_mm)
    corners, _ = outline_edges(seen.parts_mm)
    low, high = corners.min(axis=0), corners.max(axis=0)
    half = float(max(high - low)) / 16
    steps = (np.arange(8) + 0.5) * 2 * half
    squares = np.stack(np.meshgrid(low[0] + steps, low[1] + steps), axis=-1).reshape(-1, 2)
    best, best_centre = _grown_disc(seen, squares, work)
    bound = np.inf
    for _ in range(_ROUNDS):
        depth = depths_mm(seen=seen, points_mm=squares)
        deepest = int(depth.argmax())
        if depth[deepest] > best:
            best, best_centre = float(depth[deepest]), squares[deepest]
        reach = np.minimum(depth + half * sqrt(2), _reach_between_two_edges(seen, squares, half))
        bound = min(bound, max(best, float(reach.max())))
        work.spend(len(squares) * len(corners))
        squares = (squares[reach > best + _DEPTH_STEP_MM, None, :] + half * _QUARTERS).reshape(-1, 2)
        half /= 2
        if bound - best < _DEPTH_STEP_MM or not len(squares) or len(squares) * len(corners) > work.left:
            break
    return LargestDisc(
        diameter_mm=2 * best,
        bound_mm=2 * bound,
        centre_mm=(float(best_centre[0]), float(best_centre[1])),
        work_rows=work.spent,
    )


def _grown_disc(seen: SeenOutline, squares: Array, work: Work) -> tuple[float, Array]:
    """A disc grown from the deepest few of some points, or no better than the deepest where none lies inside."""
    depth = depths_mm(seen=seen, points_mm=squares)
    deepest = np.argsort(-depth, kind="stable")[:_STARTS]
    starts = squares[deepest[depth[deepest] > 0]]
    if not len(starts):
        return float(depth.max()), squares[deepest[0]]
    state = grow_from_starts(
        seen=seen,
        is_hull=False,
        diameters_mm=np.zeros(1),
        starts_mm=starts[:, None],
        gap_mm=_DEPTH_STEP_MM / 10,
        walls_per_quarter=1,
        hopeless_mm=_HOPELESS_MM,
        work=work,
    )
    centre = state.centres_mm[state.growth_mm.argmax(), 0]
    return float(depths_mm(seen=seen, points_mm=centre[None])[0]), centre


def _reach_between_two_edges(seen: SeenOutline, squares: Array, half: float) -> Array:
    """No point of a square lies deeper than the mean of its distances to two edges.

    Between parallel edges that mean stays the same all along, where the nearest edge alone would leave every square
    open. Where a corner is what is near, the distance bends, by no more than it would about a point.
    """
    distance, normal, is_corner = edge_distances(seen=seen, points_mm=squares, margin_mm=half * sqrt(2))
    reach = half * sqrt(2)
    with np.errstate(divide="ignore", invalid="ignore"):
        bend = np.where(is_corner, np.where(distance > reach, reach * reach / (2 * (distance - reach)), np.inf), 0.0)
    nearest = distance.argmin(axis=1)[:, None]
    towards = np.take_along_axis(normal, nearest[..., None], axis=1)
    mean = distance + np.take_along_axis(distance, nearest, axis=1) + half * np.abs(normal + towards).sum(axis=-1)
    return np.asarray((mean + bend + np.take_along_axis(bend, nearest, axis=1)).min(axis=1) / 2)
