"""How deep points lie inside an opening as the line sees it: many points at once, arcs and outlines alike."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from planner.geometry.opening_shape import SeenOpening, SeenOutline, corner_depth

Array = NDArray[np.float64]


def depths_mm(*, seen: SeenOpening, points_mm: Array) -> Array:
    """Radius of the largest disc about each point that stays inside the opening.

    Outside the opening the figure is below zero: the distance to it, rim by rim.

    Parameters
    ----------
    seen : SeenOpening
        The opening as the line sees it.
    points_mm : Array
        One row (x, y) for each point. [mm]

    Returns
    -------
    Array
        One figure for each point. [mm]

    References
    ----------
    Plane geometry; no outside source needed.
    """
    if isinstance(seen, SeenOutline):
        starts, ends = outline_edges(seen.points_mm)
        shift = np.array([seen.rim_shift_mm / 2, 0.0])
        one = _signed_distances(points_mm - shift, starts, ends)
        return one if seen.rim_shift_mm == 0 else np.minimum(one, _signed_distances(points_mm + shift, starts, ends))
    p, q, a, b = seen.flat_x_mm, seen.flat_y_mm, seen.arc_x_mm, seen.arc_y_mm
    return np.array([corner_depth(abs(x) - p, abs(y) - q, a, b)[0] for x, y in points_mm.tolist()])


@lru_cache(maxsize=256)
def outline_edges(points_mm: tuple[tuple[float, float], ...]) -> tuple[Array, Array]:
    """Start and end point of each edge of a closed outline, without edges of no length.

    Parameters
    ----------
    points_mm : tuple of points
        Corners in order, the last joined to the first. [mm]

    Returns
    -------
    tuple of two arrays
        One row (x, y) for each edge. [mm]

    References
    ----------
    Plane geometry; no outside source needed.
    """
    starts = np.array(points_mm, dtype=np.float64)
    ends = np.roll(starts, -1, axis=0)
    has_length = np.any(starts != ends, axis=1)
    return starts[has_length], ends[has_length]


def edge_distances(*, seen: SeenOutline, points_mm: Array, margin_mm: float) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Distance from each point to each edge of both rims, and the unit vector from the edge to the point.

    Parameters
    ----------
    seen : SeenOutline
        The outline as the line sees it.
    points_mm : Array
        One row (x, y) for each point. [mm]
    margin_mm : float
        How far about the point an edge's end counts as nearest too. [mm]

    Returns
    -------
    tuple of three arrays
        Distances, points by edges [mm]; vectors, points by edges by two; whether an end of the edge is nearest.

    References
    ----------
    Plane geometry; no outside source needed.
    """
    starts, ends = outline_edges(seen.points_mm)
    along = ends - starts
    length = np.hypot(along[:, 0], along[:, 1])
    shifts = (seen.rim_shift_mm / 2, -seen.rim_shift_mm / 2) if seen.rim_shift_mm else (0.0,)
    parts = [_parts_along(points_mm - np.array([shift, 0.0]), starts, along) for shift in shifts]
    offsets = [offset for offset, _ in parts]
    ratio = np.concatenate([part for _, part in parts], axis=1)
    offset = np.concatenate(offsets, axis=1)
    distance = np.hypot(offset[..., 0], offset[..., 1])
    with np.errstate(divide="ignore", invalid="ignore"):
        normal = np.where(distance[..., None] > 0, offset / distance[..., None], 0.0)
    margin = np.tile(margin_mm / length, len(shifts))
    return distance, normal, (ratio < margin) | (ratio > 1 - margin)


def _parts_along(points: Array, starts: Array, along: Array) -> tuple[Array, Array]:
    """From the nearest point of each edge to each point, and where along the edge that is, unlimited."""
    offset = points[:, None, :] - starts
    part = (offset * along).sum(-1) / (along * along).sum(-1)
    return offset - np.clip(part, 0.0, 1.0)[..., None] * along, part


def _signed_distances(points: Array, starts: Array, ends: Array) -> Array:
    along = ends - starts
    offset, _ = _parts_along(points, starts, along)
    distance = np.hypot(offset[..., 0], offset[..., 1]).min(axis=1)
    y = points[:, None, 1]
    spans = (starts[:, 1] > y) != (ends[:, 1] > y)
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = starts[:, 0] + (y - starts[:, 1]) * along[:, 0] / along[:, 1]
    is_inside = np.count_nonzero(spans & (points[:, None, 0] < crossing), axis=1) % 2 == 1
    return np.asarray(np.where(is_inside, distance, -distance))
