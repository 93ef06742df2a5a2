"""How deep points lie inside an opening as the line sees it: many points at once, arcs and outlines alike."""

from functools import lru_cache
from math import atan, atan2, cbrt, cos, hypot, pi, sin

import numpy as np
from numpy.typing import NDArray

from planner.geometry.openings.opening_shape import SeenArcs, SeenOpening, SeenOutline
from planner.geometry.openings.outline_slices import Ring

Array = NDArray[np.float64]

_NEWTON_STEPS = 60
_ANGLE_STEP_RAD = 1e-15


def depths_mm(*, seen: SeenOpening, points_mm: Array) -> Array:
    """Radius of the largest disc about each point that stays inside the opening.

    Outside the opening the figure is below zero: the distance to that rim which is further off, or to what all slices
    of an outline leave.

    seen : the opening as the line sees it; something is left of it
    points_mm : one row (x, y) for each point
    """
    if isinstance(seen, SeenOutline):
        return _signed_distances(points_mm, *outline_edges(seen.parts_mm))
    return np.array([nearest_edge(seen=seen, x_mm=x, y_mm=y)[0] for x, y in points_mm.tolist()])


@lru_cache(maxsize=256)
def outline_edges(parts_mm: tuple[Ring, ...]) -> tuple[Array, Array]:
    """Start and end point of each edge of closed figures, without edges of no length.

    Returns one row (x, y) for each edge. [mm]

    parts_mm : corners in order, the last joined to the first
    """
    rings = [np.array(part, dtype=np.float64) for part in parts_mm]
    starts = np.concatenate(rings)
    ends = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings])
    has_length = np.any(starts != ends, axis=1)
    return starts[has_length], ends[has_length]


def edge_distances(*, seen: SeenOutline, points_mm: Array, margin_mm: float) -> tuple[Array, Array, NDArray[np.bool_]]:
    """Distance from each point to each edge of an outline, and the unit vector from the edge to the point.

    Returns distances, points by edges [mm]; vectors, points by edges by two; whether an end of the edge is nearest.

    seen : the outline as the line sees it
    points_mm : one row (x, y) for each point
    margin_mm : how far about the point an edge's end counts as nearest too
    """
    starts, ends = outline_edges(seen.parts_mm)
    along = ends - starts
    length = np.hypot(along[:, 0], along[:, 1])
    offset, ratio = _parts_along(points_mm, starts, along)
    distance = np.hypot(offset[..., 0], offset[..., 1])
    with np.errstate(divide="ignore", invalid="ignore"):
        normal = np.where(distance[..., None] > 0, offset / distance[..., None], 0.0)
    margin = margin_mm / length
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


def nearest_edge(*, seen: SeenArcs, x_mm: float, y_mm: float) -> tuple[float, float, float]:
    """How deep a point lies inside an opening with arcs, and which way its nearest edge is.

    Outside the opening the figure is below zero: the distance to that rim which is further off.

    Returns radius of the largest disc about the point [mm], and the outward normal (x, y) where it touches.

    seen : the opening as the line sees it
    x_mm, y_mm : the point, from the opening's middle; x along its length
    """
    depth, nx, ny = corner_depth(
        x_mm=abs(x_mm) - seen.flat_x_mm,
        y_mm=abs(y_mm) - seen.flat_y_mm,
        arc_x_mm=seen.arc_x_mm,
        arc_y_mm=seen.arc_y_mm,
    )
    return depth, (nx if x_mm >= 0 else -nx), (ny if y_mm >= 0 else -ny)


def corner_depth(*, x_mm: float, y_mm: float, arc_x_mm: float, arc_y_mm: float) -> tuple[float, float, float]:
    """Depth under a quarter ellipse and the two straight edges that continue it, with the normal where it is reached.

    With half axes a and b and the point at (x, y), the arc's point at angle t is nearest where
    F(t) = (b^2 - a^2) sin t cos t + a x sin t - b y cos t turns from below zero to above. F / (sin t cos t) has at most
    one such turn, in a bracket known beforehand.

    Returns depth [mm], and the outward normal (x, y) of the nearest edge.

    x_mm, y_mm : the point, from the ellipse's centre
    arc_x_mm, arc_y_mm : half axes of the ellipse; both 0 for a sharp corner
    """
    x, y, a, b = x_mm, y_mm, arc_x_mm, arc_y_mm
    best = arc_depth(x_mm=x, y_mm=y, arc_x_mm=a, arc_y_mm=b)
    if x <= 0 and (best is None or b - y < best[0]):
        best = (b - y, 0.0, 1.0)
    if y <= 0 and (best is None or a - x < best[0]):
        best = (a - x, 1.0, 0.0)
    assert best is not None  # right of and above the centre an arc always has a nearest point
    return best


def arc_depth(*, x_mm: float, y_mm: float, arc_x_mm: float, arc_y_mm: float) -> tuple[float, float, float] | None:
    """Depth under a quarter ellipse alone, with the normal where it is reached; None where only its ends are near.

    Returns depth [mm], and the outward normal (x, y).

    x_mm, y_mm : the point, from the ellipse's centre
    arc_x_mm, arc_y_mm : half axes of the ellipse; both 0 for a sharp corner
    """
    x, y, a, b = x_mm, y_mm, arc_x_mm, arc_y_mm
    if a == b:
        if x < 0 or y < 0 or x == 0 == y:
            return None
        distance = hypot(x, y)
        return a - distance, x / distance, y / distance
    t = _turning_point(b * b - a * a, a * x, b * y)
    if t is None:
        return None
    nx, ny = b * cos(t), a * sin(t)
    size = hypot(nx, ny)
    nx, ny = nx / size, ny / size
    return (a * cos(t) - x) * nx + (b * sin(t) - y) * ny, nx, ny


def _turning_point(k: float, ax: float, by: float) -> float | None:
    """Where k sin cos + ax sin - by cos turns from below zero to above, between 0 and a right angle."""
    low, high = 0.0, pi / 2
    if ax < 0 < by:
        high = atan(cbrt(by / -ax))
        if k * sin(high) * cos(high) + ax * sin(high) - by * cos(high) <= 0:
            return None
    elif by < 0 < ax:
        low = atan(cbrt(-by / ax))
        if k * sin(low) * cos(low) + ax * sin(low) - by * cos(low) >= 0:
            return None
    elif ax <= 0 and by <= 0:
        return None
    t = atan2(by, ax) if ax > 0 < by else (low + high) / 2  # exact on a circle, near on an ellipse
    for _ in range(_NEWTON_STEPS):
        s, c = sin(t), cos(t)
        value = k * s * c + ax * s - by * c
        low, high = (t, high) if value < 0 else (low, t)
        slope = k * (c * c - s * s) + ax * c + by * s
        step = t - value / slope if slope > 0 else -1.0
        new = step if low < step < high else (low + high) / 2
        if abs(new - t) < _ANGLE_STEP_RAD:
            break
        t = new
    return t
