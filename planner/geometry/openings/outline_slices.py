"""What is left of a measured outline when a line leans through a thick wall: the room that every slice of it leaves.

From one rim to the other the outline glides along the line's lean. Of an outline with dents the middle of the wall may
leave less than its two rims together, so all slices count: a point is free where the whole way the outline glides past
it, a level line as long as the glide, lies inside the outline.
"""

from functools import lru_cache
from itertools import pairwise
from typing import Any

import numpy as np

from planner.quick_dataclass import dataclass

Ring = tuple[tuple[float, float], ...]

_SAME_POINT_MM = 1e-9
_NOTHING_MM2 = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class LevelLine:
    """A straight line along the tube that stays inside an outline.

    length_mm : of the line [mm]
    middle_mm : where its middle lies [mm]
    """

    length_mm: float
    middle_mm: tuple[float, float]


@lru_cache(maxsize=512)
def room_of_all_slices(points_mm: Ring, glide_mm: float) -> tuple[Ring, ...]:
    """The figures inside which a point is free in every slice of the wall.

    Returns none where no level line of the outline is as long as the glide.

    points_mm : the outline's corners in order, foreshortened, at the middle of the wall
    glide_mm : how far the inner rim lies from the outer one, along x

    Source: Erosion of a figure by a line; plane geometry, derived.
    """
    if glide_mm == 0:
        return (points_mm,)
    import shapely
    from shapely.affinity import translate
    from shapely.geometry import Polygon

    outline = Polygon(points_mm)
    half = glide_mm / 2
    if is_without_dents(points_mm):
        left = translate(outline, half).intersection(translate(outline, -half))
    else:
        left = outline.difference(shapely.union_all(_swept_edges(points_mm, half)))
    parts = [part for part in shapely.get_parts(left).tolist() if part.area > _NOTHING_MM2]
    rings = (_without_doubles(part.exterior.coords[:-1]) for part in parts)
    return tuple(sorted(ring for ring in rings if len(ring) > 2))


def longest_level_line(points_mm: Ring) -> LevelLine:
    """The longest straight line along the tube inside an outline.

    Between two levels of corners every level line's length changes evenly, so that just above and just below the
    corners' levels are looked at.

    points_mm : corners in order, the last joined to the first
    """
    best = LevelLine(length_mm=0.0, middle_mm=points_mm[0])
    edges = list(zip(points_mm, (*points_mm[1:], points_mm[0]), strict=True))
    for low, high in pairwise(sorted({y for _, y in points_mm})):
        middle = (low + high) / 2
        crossing = sorted(
            (_x_at(edge, middle), edge) for edge in edges if (edge[0][1] > middle) != (edge[1][1] > middle)
        )
        for (_, left), (_, right) in zip(crossing[::2], crossing[1::2], strict=True):
            for y in (low, high):
                start, end = _x_at(left, y), _x_at(right, y)
                if end - start > best.length_mm:
                    best = LevelLine(length_mm=end - start, middle_mm=((start + end) / 2, y))
    return best


@lru_cache(maxsize=512)
def is_without_dents(points_mm: Ring) -> bool:
    """Whether an outline is the same as its hull.

    True where it turns the same way at every corner.

    points_mm : corners in order, the last joined to the first
    """
    corners = [
        point for point, following in zip(points_mm, (*points_mm[1:], points_mm[0]), strict=True) if point != following
    ]
    along = [(x2 - x1, y2 - y1) for (x1, y1), (x2, y2) in zip(corners, (*corners[1:], corners[0]), strict=True)]
    turns = [ux * vy - uy * vx for (ux, uy), (vx, vy) in zip(along, (*along[1:], along[0]), strict=True)]
    return all(turn >= 0 for turn in turns) or all(turn <= 0 for turn in turns)


def _swept_edges(points_mm: Ring, half: float) -> Any:
    """What the edge runs over while the outline glides by `half` either way, a rising or falling stretch at a time.

    Returns an array of polygons, made at once: one by one, making them costs more than joining them.
    """
    import shapely

    rings = [
        [*((x - half, y) for x, y in stretch), *((x + half, y) for x, y in reversed(stretch))]
        for stretch in _slopes_of(points_mm)
    ]
    closed = [(*point, number) for number, ring in enumerate(rings) for point in (*ring, ring[0])]
    corners = np.array(closed)
    return shapely.polygons(shapely.linearrings(corners[:, :2], indices=corners[:, 2].astype(int)))


def _slopes_of(points_mm: Ring) -> list[list[tuple[float, float]]]:
    """The edge in stretches that only rise or only fall; level edges are left out, for they sweep nothing."""
    stretches: list[list[tuple[float, float]]] = []
    rises_before: bool | None = None
    for start, end in zip(points_mm, (*points_mm[1:], points_mm[0]), strict=True):
        rises = None if start[1] == end[1] else end[1] > start[1]
        if rises is not None and rises is rises_before:
            stretches[-1].append(end)
        elif rises is not None:
            stretches.append([start, end])
        rises_before = rises
    return stretches


def _without_doubles(ring: list[tuple[float, ...]]) -> Ring:
    kept: list[tuple[float, float]] = []
    for x, y in ring:
        if not kept or max(abs(x - kept[-1][0]), abs(y - kept[-1][1])) > _SAME_POINT_MM:
            kept.append((float(x), float(y)))
    if len(kept) > 1 and max(abs(kept[0][0] - kept[-1][0]), abs(kept[0][1] - kept[-1][1])) <= _SAME_POINT_MM:
        kept.pop()
    return tuple(kept)


def _x_at(edge: tuple[tuple[float, float], tuple[float, float]], y: float) -> float:
    (x1, y1), (x2, y2) = edge
    return x1 + (y - y1) / (y2 - y1) * (x2 - x1)
