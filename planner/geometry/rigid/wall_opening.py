"""How long a hole is along its tube for a rigid piece that dips through it: the gap the piece finds at its own width.

A round piece that leans in the hole is as wide as its diameter and ends round: what it needs of the hole is a slot of
its own width, the ends drawn out by the lean. A corner that sticks into the hole counts over the piece's whole width,
so that a nick narrower than the piece lends it nothing.
"""

from functools import lru_cache
from math import radians, sin, sqrt

import numpy as np
from numpy.typing import NDArray

from planner.geometry.openings.opening_shape import SeenArcs, SeenOutline, see_opening
from planner.geometry.openings.outline_slices import Ring, longest_level_line
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.rigid.wall_slices import steepest_lean_deg
from planner.parts import Opening

_ROUNDS = 8
_SAME_MM = 1e-9
_WIDEST_RATIO = 1 - 1e-4
"""A piece nearly as wide as the hole, or wider, is told by its diameter; its gap is that of one a hair thinner."""


def longest_way_across_mm(*, opening: Opening) -> float:
    """The longest way across a hole along its tube, however narrow.

    opening : the hole; its length runs along the tube

    Source: as for `gap_along_tube_mm`, derived.
    """
    return gap_along_tube_mm(opening=opening, piece_diameter_mm=0.0, wall_thickness_mm=0.0)


@lru_cache(maxsize=4096)
def gap_along_tube_mm(*, opening: Opening, piece_diameter_mm: float, wall_thickness_mm: float) -> float:
    """The longest way across a hole along its tube that is as wide as the piece all along.

    The piece's ends count as round, drawn out by the flattest lean at which it slides. Diameter or length of a plain
    shape; less in a long oval, whose ends are too pointed for a thick piece. A piece wider than the hole is told by its
    diameter: its gap is that of the widest that passes.

    opening : the hole; its length runs along the tube
    piece_diameter_mm : largest outer diameter; 0 for the longest way across at all
    wall_thickness_mm : of the tube wall

    Source: plane geometry, derived: in every plane beside the middle the piece is thinner by d - sqrt(d^2 - 4 y^2),
    worth 1/sin(lean) of that along the tube.
    """
    seen = see_opening(opening=opening, tilt_deg=0.0, wall_thickness_mm=0.0)
    if isinstance(seen, SeenArcs) and seen.arc_x_mm == seen.arc_y_mm:
        return 2 * (seen.flat_x_mm + seen.arc_x_mm)
    diameter_mm = min(piece_diameter_mm, _WIDEST_RATIO * find_largest_disc(seen).diameter_mm)
    gap_mm = _gap_at_lean(seen, diameter_mm, 1.0)
    for _ in range(_ROUNDS if diameter_mm > 0 else 0):
        lean_deg = steepest_lean_deg(
            piece_diameter_mm=diameter_mm, opening_length_mm=gap_mm, wall_thickness_mm=wall_thickness_mm
        )
        wider_mm = _gap_at_lean(seen, diameter_mm, sin(radians(lean_deg)))
        if wider_mm < gap_mm + _SAME_MM:
            break
        gap_mm = wider_mm  # a longer gap is met at a flatter lean, which draws the ends out further
    return gap_mm


def _gap_at_lean(seen: SeenArcs | SeenOutline, diameter_mm: float, sine: float) -> float:
    """The same at one lean: squeezed by the sine, the drawn-out ends are round."""
    if isinstance(seen, SeenArcs):
        return _gap_in_oval(seen.arc_x_mm * sine, seen.arc_y_mm, diameter_mm / 2) / sine
    squeezed = tuple((x * sine, y) for x, y in seen.parts_mm[0])
    return _gap_in_outline(squeezed, diameter_mm / 2) / sine


def _gap_in_oval(half_length_mm: float, half_width_mm: float, radius_mm: float) -> float:
    """Both ends of a slot in an ellipse lie on its axis, as far out as their depth allows.

    With half axes a and b a point at x on the long one is b sqrt(1 - x^2 / (a^2 - b^2)) deep where it is deeper than
    b^2 / a, the radius of the ellipse's own ends, which a rounder piece fills to the tip.
    """
    a, b, r = half_length_mm, half_width_mm, radius_mm
    if r * a <= b * b:
        return 2 * a
    if r >= b:
        return 2 * r
    return 2 * (sqrt((a - b) * (a + b) * (1 - r / b) * (1 + r / b)) + r)


def _gap_in_outline(points_mm: Ring, radius_mm: float) -> float:
    """The longest level line that keeps the radius from every edge and, along and across, from corners sticking in."""
    if radius_mm <= 0:
        return longest_level_line(points_mm).length_mm
    import shapely

    inner = np.array(_corners_sticking_in(points_mm)).reshape(-1, 2)
    corners = shapely.box(*(inner - radius_mm).T, *(inner + radius_mm).T)
    room = shapely.Polygon(points_mm).difference(
        shapely.union_all(np.concatenate([corners, _flanks(np.array(points_mm), radius_mm)]))
    )
    parts = [part for part in shapely.get_parts(room).tolist() if part.area > 0]
    lengths = [longest_level_line(tuple(part.exterior.coords[:-1])).length_mm for part in parts]
    return 2 * radius_mm + max(lengths, default=0.0)


def _flanks(points_mm: NDArray[np.float64], radius_mm: float) -> NDArray[np.object_]:
    """Beside every edge a strip as wide as the radius, to both sides."""
    import shapely

    edges = np.roll(points_mm, -1, axis=0) - points_mm
    lengths = np.hypot(*edges.T)
    starts, along = points_mm[lengths > 0], edges[lengths > 0]
    aside = radius_mm / lengths[lengths > 0, None] * along[:, ::-1] * (-1, 1)
    strips: NDArray[np.object_] = shapely.polygons(
        np.stack([starts - aside, starts + along - aside, starts + along + aside, starts + aside], axis=1)
    )
    return strips


def _corners_sticking_in(points_mm: Ring) -> list[tuple[float, float]]:
    following = (*points_mm[1:], points_mm[0])
    doubled_area = sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in zip(points_mm, following, strict=True))
    return [
        (x, y)
        for (x0, y0), (x, y), (x2, y2) in zip((points_mm[-1], *points_mm[:-1]), points_mm, following, strict=True)
        if ((x - x0) * (y2 - y) - (y - y0) * (x2 - x)) * doubled_area < 0
    ]
