"""What a line sees of an opening it leans through, with its arcs true.

Every opening with a plain shape, foreshortened and cut off by its second rim, is one and the same figure: a rectangle
with an elliptical arc at each corner. Slots, boxes, ovals and round holes differ only in four numbers. A measured
outline is kept point by point.
"""

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache
from math import cos, inf, radians, sin

from planner.errors import ImpossibleDimensionError
from planner.geometry.openings.outline_slices import Ring, longest_level_line, room_of_all_slices
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening
from planner.quick_dataclass import dataclass


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
    """A measured outline as seen along the line: what all slices of the wall, from rim to rim, leave of it.

    parts_mm : figures by their corners, foreshortened, in the outline's own coordinates; several where the middle of
        the wall closes what the rims leave open; none where nothing is left [mm]
    missing_mm : where nothing is left, how much longer the outline would have to be for anything to be [mm]
    nearest_mm : where that would be; None where something is left [mm]
    """

    parts_mm: tuple[Ring, ...]
    missing_mm: float
    nearest_mm: tuple[float, float] | None


SeenOpening = SeenArcs | SeenOutline


def see_opening(*, opening: Opening, tilt_deg: float, wall_thickness_mm: float) -> SeenOpening:
    """What a line sees of an opening when it leans along the opening's length.

    The outline is foreshortened by the cosine of the tilt. From rim to rim it glides by the wall's thickness times the
    sine of the tilt, and what all slices of the wall leave is seen; of a plain shape that is what the two rims leave.
    Arcs stay arcs: nothing is replaced by chords.

    Returns in coordinates about the opening's middle; an outline keeps its own origin.

    opening : the hole in the wall
    tilt_deg : angle between the line and the hole's axis; its sign does not matter
    wall_thickness_mm : thickness of the wall the hole goes through

    Raises ImpossibleDimensionError when a size is not above zero, an outline crosses itself, the wall is thinner than
        nothing or the tilt reaches 90 degrees.
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
        return _see_outline(opening.points_mm, narrowing, shift_mm)
    flat_x, flat_y, arc_x, arc_y = _flats_and_arcs(opening)
    return SeenArcs(
        flat_x_mm=flat_x * narrowing - shift_mm / 2, flat_y_mm=flat_y, arc_x_mm=arc_x * narrowing, arc_y_mm=arc_y
    )


def vary_opening(*, opening: Opening, changes_mm: Mapping[str, float]) -> Opening:
    """The same opening with some of its sizes changed, each on its own.

    opening : the hole at its nominal size
    changes_mm : how much larger each size becomes, by the names `opening_sizes` gives them; an outline has the one
        size "edge", by which all its edges move out. A corner radius is kept between 0 and half the shorter side, for
        none lies beyond
    """
    more = {name: changes_mm.get(name, 0.0) for name in opening_sizes(opening)}
    match opening:
        case RoundOpening():
            return replace(opening, diameter_mm=opening.diameter_mm + more["diameter"])
        case OutlineOpening():
            return replace(opening, points_mm=_moved_edges(opening.points_mm, more["edge"]))
        case SlotOpening() | OvalOpening():
            return replace(
                opening, length_mm=opening.length_mm + more["length"], width_mm=opening.width_mm + more["width"]
            )
        case BoxOpening():
            length, width = opening.length_mm + more["length"], opening.width_mm + more["width"]
            radius = max(0.0, min(opening.corner_radius_mm + more["corner_radius"], min(length, width) / 2))
            return replace(opening, length_mm=length, width_mm=width, corner_radius_mm=radius)


def opening_sizes(opening: Opening) -> dict[str, float]:
    """What can be measured on an opening, by name.

    Returns diameter, or length and width, and a corner radius; for an outline "edge", 0: where its edge lies. [mm]

    opening : the hole in the wall
    """
    match opening:
        case RoundOpening():
            return {"diameter": opening.diameter_mm}
        case BoxOpening():
            return {
                "length": opening.length_mm,
                "width": opening.width_mm,
                "corner_radius": opening.corner_radius_mm,
            }
        case OutlineOpening():
            return {"edge": 0.0}
        case SlotOpening() | OvalOpening():
            return {"length": opening.length_mm, "width": opening.width_mm}


def opening_at_limit(*, opening: Opening, is_larger: bool) -> Opening:
    """The same opening made as large, or as small, as its tolerance allows.

    A corner radius goes the other way than the sizes, for a rounder corner is a smaller hole. An outline's edges are
    each moved parallel by the tolerance.

    Returns with the limit sizes, and nothing left of its tolerance.

    opening : the hole at its nominal size
    is_larger : whether the roomiest limit is asked for, or the tightest

    Raises ImpossibleDimensionError when the tolerance leaves nothing of the opening.
    """
    _refuse_impossible_sizes(opening)
    change = opening.tolerance_mm if is_larger else -opening.tolerance_mm
    changes = {name: -change if name == "corner_radius" else change for name in opening_sizes(opening)}
    limit = replace(vary_opening(opening=opening, changes_mm=changes), tolerance_mm=0.0)
    if (isinstance(limit, OutlineOpening) and not limit.points_mm) or min(_sizes(limit).values()) <= 0:
        raise ImpossibleDimensionError(
            name="tolerance_mm", value=opening.tolerance_mm, unit="mm", rule="leaves nothing of the opening"
        )
    return limit


@lru_cache(maxsize=1024)
def _see_outline(points_mm: Ring, narrowing: float, glide_mm: float) -> SeenOutline:
    narrowed = tuple((x * narrowing, y) for x, y in points_mm)
    parts = room_of_all_slices(narrowed, glide_mm)
    if parts:
        return SeenOutline(parts_mm=parts, missing_mm=0.0, nearest_mm=None)
    longest = longest_level_line(narrowed)
    return SeenOutline(parts_mm=(), missing_mm=glide_mm - longest.length_mm, nearest_mm=longest.middle_mm)


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
    if isinstance(opening, OutlineOpening) and not _goes_around_once(opening.points_mm):
        raise ImpossibleDimensionError(
            name="points_mm", value=len(opening.points_mm), unit="corners", rule="must go around once, crossing nowhere"
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


@lru_cache(maxsize=512)
def _goes_around_once(points_mm: Ring) -> bool:
    from shapely.geometry import Polygon

    return bool(Polygon(points_mm).is_valid)


def _moved_edges(points: tuple[tuple[float, float], ...], outwards_mm: float) -> tuple[tuple[float, float], ...]:
    from shapely.geometry import Polygon

    if outwards_mm == 0:
        return points
    moved = Polygon(points).buffer(outwards_mm, join_style="mitre")
    if moved.is_empty:
        return ()
    largest = max(getattr(moved, "geoms", (moved,)), key=lambda part: part.area)
    return tuple((float(x), float(y)) for x, y in largest.exterior.coords[:-1])
