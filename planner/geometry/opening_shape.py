"""What a line sees of an opening it leans through: true arcs, and how deep a point lies inside them.

Every opening with a plain shape, foreshortened and cut off by its second rim, is one and the same figure: a rectangle
with an elliptical arc at each corner. Slots, boxes, ovals and round holes differ only in four numbers. A measured
outline is kept point by point.
"""

from dataclasses import dataclass, replace
from math import atan, cbrt, cos, hypot, inf, pi, radians, sin

from planner.errors import ImpossibleDimensionError
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening

_NEWTON_STEPS = 60
_ANGLE_STEP_RAD = 1e-15


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenArcs:
    """An opening as seen along the line: a rectangle about the middle with an elliptical arc at each of its corners.

    flat_x_mm : half of the rectangle along the opening's length; below zero where the second rim cuts the arcs off, so
        that they meet in a point on the middle line [mm]
    flat_y_mm : half of the rectangle across [mm]
    arc_x_mm, arc_y_mm : half axes of the elliptical arcs; both 0 for sharp corners [mm]
    """

    flat_x_mm: float
    flat_y_mm: float
    arc_x_mm: float
    arc_y_mm: float

    @property
    def is_round(self) -> bool:
        """Whether it is a circle, the same whichever way it is turned."""
        return self.flat_x_mm == 0 == self.flat_y_mm and self.arc_x_mm == self.arc_y_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenOutline:
    """A measured outline as seen along the line, with its two rims.

    points_mm : corners in order, foreshortened, in the outline's own coordinates [mm]
    rim_shift_mm : how far the inner rim lies from the outer one; each lies half of it to its side [mm]
    """

    points_mm: tuple[tuple[float, float], ...]
    rim_shift_mm: float


SeenOpening = SeenArcs | SeenOutline


@dataclass(frozen=True, slots=True, kw_only=True)
class Depth:
    """How deep a point lies inside an opening, and which way its nearest edge is.

    depth_mm : radius of the largest disc about the point; below zero outside [mm]
    normal : unit vector from the point's nearest edge outwards
    """

    depth_mm: float
    normal: tuple[float, float]


def see_opening(*, opening: Opening, tilt_deg: float, wall_thickness_mm: float) -> SeenOpening:
    """What a line sees of an opening when it leans along the opening's length.

    The outline is foreshortened by the cosine of the tilt and intersected with itself, shifted by the wall's thickness
    times the sine of the tilt (outer and inner rim). Arcs stay arcs: nothing is replaced by chords.

    Parameters
    ----------
    opening : Opening
        The hole in the wall.
    tilt_deg : float
        Angle between the line and the hole's axis; its sign does not matter. [deg]
    wall_thickness_mm : float
        Thickness of the wall the hole goes through. [mm]

    Returns
    -------
    SeenArcs or SeenOutline
        In coordinates about the opening's middle; an outline keeps its own origin.

    Raises
    ------
    ImpossibleDimensionError
        When a size is not above zero, the wall is thinner than nothing or the tilt reaches 90 degrees.

    References
    ----------
    Plane geometry; no outside source needed.
    """
    if not abs(tilt_deg) < 90:
        raise ImpossibleDimensionError(name="tilt_deg", value=tilt_deg, unit="deg", rule="must be below 90 either way")
    if not 0 <= wall_thickness_mm < inf:
        raise ImpossibleDimensionError(
            name="wall_thickness_mm", value=wall_thickness_mm, unit="mm", rule="must be zero or more"
        )
    _refuse_impossible_sizes(opening)
    narrowing = cos(radians(tilt_deg))
    shift_mm = wall_thickness_mm * sin(radians(abs(tilt_deg)))
    if isinstance(opening, OutlineOpening):
        points = tuple((x * narrowing, y) for x, y in opening.points_mm)
        return SeenOutline(points_mm=points, rim_shift_mm=shift_mm)
    flat_x, flat_y, arc_x, arc_y = _flats_and_arcs(opening)
    return SeenArcs(
        flat_x_mm=flat_x * narrowing - shift_mm / 2, flat_y_mm=flat_y, arc_x_mm=arc_x * narrowing, arc_y_mm=arc_y
    )


def opening_at_limit(*, opening: Opening, is_larger: bool) -> Opening:
    """The same opening made as large, or as small, as its tolerance allows.

    A corner radius goes the other way than the sizes, for a rounder corner is a smaller hole. An outline's edges are
    each moved parallel by the tolerance.

    Parameters
    ----------
    opening : Opening
        The hole at its nominal size.
    is_larger : bool
        Whether the roomiest limit is asked for, or the tightest.

    Returns
    -------
    Opening
        With the limit sizes, and nothing left of its tolerance.

    Raises
    ------
    ImpossibleDimensionError
        When the tolerance leaves nothing of the opening.

    References
    ----------
    Plane geometry; no outside source needed.
    """
    _refuse_impossible_sizes(opening)
    change = opening.tolerance_mm if is_larger else -opening.tolerance_mm
    limit: Opening
    match opening:
        case RoundOpening():
            limit = replace(opening, diameter_mm=opening.diameter_mm + change, tolerance_mm=0.0)
        case BoxOpening():
            limit = _box_at_limit(opening, change)
        case OutlineOpening():
            limit = replace(opening, points_mm=_moved_edges(opening.points_mm, change), tolerance_mm=0.0)
        case SlotOpening() | OvalOpening():
            limit = replace(
                opening, length_mm=opening.length_mm + change, width_mm=opening.width_mm + change, tolerance_mm=0.0
            )
    if (isinstance(limit, OutlineOpening) and not limit.points_mm) or min(_sizes(limit).values()) <= 0:
        raise ImpossibleDimensionError(
            name="tolerance_mm", value=opening.tolerance_mm, unit="mm", rule="leaves nothing of the opening"
        )
    return limit


def depth_in_arcs(*, seen: SeenArcs, x_mm: float, y_mm: float) -> Depth:
    """How deep a point lies inside an opening with arcs.

    Exact everywhere, outside included: the figure is convex.

    Parameters
    ----------
    seen : SeenArcs
        The opening as the line sees it.
    x_mm, y_mm : float
        The point, from the opening's middle; x along the length. [mm]

    Returns
    -------
    Depth
        Radius of the largest disc about the point, and where it would touch.

    References
    ----------
    Plane geometry; no outside source needed.
    """
    depth, nx, ny = corner_depth(abs(x_mm) - seen.flat_x_mm, abs(y_mm) - seen.flat_y_mm, seen.arc_x_mm, seen.arc_y_mm)
    return Depth(depth_mm=depth, normal=(nx if x_mm >= 0 else -nx, ny if y_mm >= 0 else -ny))


def corner_depth(x: float, y: float, a: float, b: float) -> tuple[float, float, float]:
    """Depth under a quarter ellipse and the two straight edges that continue it, with the normal where it is reached.

    `x, y` are measured from the ellipse's centre and `a, b` are its half axes. [mm]

    With the point of the arc at angle t, the point is nearest where F(t) = (b^2 - a^2) sin t cos t + a x sin t - b y
    cos t turns from below zero to above. F / (sin t cos t) has at most one such turn, in a bracket known beforehand.

    Parameters
    ----------
    x, y : float
        The point, from the ellipse's centre.
    a, b : float
        Half axes of the ellipse.

    Returns
    -------
    tuple of three floats
        Depth, and the outward normal (x, y) of the nearest edge.

    References
    ----------
    Plane geometry; no outside source needed.
    """
    best = arc_depth(x, y, a, b)
    if x <= 0 and (best is None or b - y < best[0]):
        best = (b - y, 0.0, 1.0)
    if y <= 0 and (best is None or a - x < best[0]):
        best = (a - x, 1.0, 0.0)
    assert best is not None  # right of and above the centre an arc always has a nearest point
    return best


def arc_depth(x: float, y: float, a: float, b: float) -> tuple[float, float, float] | None:
    """Depth under a quarter ellipse alone, with the normal where it is reached; None where only its ends are near.

    Parameters
    ----------
    x, y : float
        The point, from the ellipse's centre.
    a, b : float
        Half axes of the ellipse.

    Returns
    -------
    tuple of three floats, or None
        Depth, and the outward normal (x, y).

    References
    ----------
    Plane geometry; no outside source needed.
    """
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
    t = (low + high) / 2
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


def _flats_and_arcs(
    opening: RoundOpening | SlotOpening | OvalOpening | BoxOpening,
) -> tuple[float, float, float, float]:
    match opening:
        case RoundOpening():
            return 0.0, 0.0, opening.diameter_mm / 2, opening.diameter_mm / 2
        case OvalOpening():
            return 0.0, 0.0, opening.length_mm / 2, opening.width_mm / 2
        case SlotOpening():
            radius = min(opening.length_mm, opening.width_mm) / 2
        case BoxOpening():
            radius = opening.corner_radius_mm
    return opening.length_mm / 2 - radius, opening.width_mm / 2 - radius, radius, radius


def _sizes(opening: Opening) -> dict[str, float]:
    match opening:
        case RoundOpening():
            return {"diameter_mm": opening.diameter_mm}
        case OutlineOpening():
            xs, ys = [x for x, _ in opening.points_mm], [y for _, y in opening.points_mm]
            return {
                "length_mm": max(xs, default=0) - min(xs, default=0),
                "width_mm": max(ys, default=0) - min(ys, default=0),
            }
        case _:
            return {"length_mm": opening.length_mm, "width_mm": opening.width_mm}


def _refuse_impossible_sizes(opening: Opening) -> None:
    for name, value in _sizes(opening).items():
        if not 0 < value < inf:
            raise ImpossibleDimensionError(name=name, value=value, unit="mm", rule="must be above zero")
    if not 0 <= opening.tolerance_mm < inf:
        raise ImpossibleDimensionError(
            name="tolerance_mm", value=opening.tolerance_mm, unit="mm", rule="must be zero or more"
        )
    if isinstance(opening, BoxOpening) and not (
        0 <= opening.corner_radius_mm <= min(opening.length_mm, opening.width_mm) / 2
    ):
        raise ImpossibleDimensionError(
            name="corner_radius_mm",
            value=opening.corner_radius_mm,
            unit="mm",
            rule="must be 0 to half the shorter side",
        )


def _box_at_limit(opening: BoxOpening, change: float) -> BoxOpening:
    length, width = opening.length_mm + change, opening.width_mm + change
    radius = max(0.0, min(opening.corner_radius_mm - change, min(length, width) / 2))
    return replace(opening, length_mm=length, width_mm=width, corner_radius_mm=radius, tolerance_mm=0.0)


def _moved_edges(points: tuple[tuple[float, float], ...], outwards_mm: float) -> tuple[tuple[float, float], ...]:
    from shapely.geometry import Polygon

    if outwards_mm == 0:
        return points
    moved = Polygon(points).buffer(outwards_mm, join_style="mitre")
    if moved.is_empty:
        return ()
    largest = max(getattr(moved, "geoms", (moved,)), key=lambda part: part.area)
    return tuple((float(x), float(y)) for x, y in largest.exterior.coords[:-1])
