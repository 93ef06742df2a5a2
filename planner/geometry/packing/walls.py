"""The edge of an opening as straight walls about it: what a search pushes round things against."""

from dataclasses import dataclass
from functools import lru_cache
from math import pi

import numpy as np

from planner.geometry.openings.opening_depth import Array, outline_edges
from planner.geometry.openings.opening_shape import SeenArcs, SeenOpening, SeenOutline


@dataclass(frozen=True, slots=True, kw_only=True)
class Walls:
    """Half planes that hold an opening between them: `normals . point <= reach`.

    normals : unit vectors pointing out of the opening, one row each
    reach_mm : how far each wall is from the origin, along its normal [mm]
    furthest_mm : no coordinate of a point inside is larger than this, either way [mm]
    """

    normals: Array
    reach_mm: Array
    furthest_mm: float


@lru_cache(maxsize=1024)
def walls_about(seen: SeenOpening, per_quarter: int) -> Walls:
    """Walls that touch an opening all round, never cutting into it.

    About an outline they touch its hull, from outside: a dent is not seen. Straight edges are walls themselves.

    Returns whatever lies inside the opening lies inside all of them.

    seen : the opening as the line sees it
    per_quarter : walls for each quarter of a turn, about arcs
    """
    if isinstance(seen, SeenOutline):
        return _walls_about_outline(seen)
    angles = np.arange(4 * per_quarter) * (pi / 2 / per_quarter)
    if seen.arc_x_mm == 0 == seen.arc_y_mm:
        angles = angles[::per_quarter]
    normals = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    normals[np.abs(normals) < 1e-15] = 0.0
    reach = reach_of_arcs(seen=seen, normals=normals)
    return Walls(normals=normals, reach_mm=reach, furthest_mm=float(np.abs(reach).max()))


def reach_of_arcs(*, seen: SeenArcs, normals: Array) -> Array:
    """How far from the middle the tangent with each normal touches an opening with arcs.

    Returns one figure for each. [mm]

    seen : the opening as the line sees it
    normals : unit vectors, one row each
    """
    across = np.abs(normals)
    arcs = np.hypot(seen.arc_x_mm * across[:, 0], seen.arc_y_mm * across[:, 1])
    return np.asarray(seen.flat_x_mm * across[:, 0] + seen.flat_y_mm * across[:, 1] + arcs)


def _walls_about_outline(seen: SeenOutline) -> Walls:
    from shapely.geometry import MultiPoint

    corners = [point for part in seen.parts_mm for point in part]
    hull = MultiPoint(corners).convex_hull
    starts, ends = outline_edges((tuple((float(x), float(y)) for x, y in hull.exterior.coords[:-1]),))
    along = ends - starts
    turn = 1.0 if hull.exterior.is_ccw else -1.0
    normals = turn * np.stack([along[:, 1], -along[:, 0]], axis=1) / np.hypot(along[:, 0], along[:, 1])[:, None]
    reach = (normals * starts).sum(axis=1)
    return Walls(normals=normals, reach_mm=reach, furthest_mm=float(np.abs(np.array(corners)).max()))
