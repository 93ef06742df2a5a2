"""The outline of a hole as points, for drawing: its two rims and what a leaning line sees between them."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import cos, hypot, pi, radians, sin

from shapely.geometry import Point as ShapelyPoint
from shapely.geometry import Polygon

from planner.geometry.openings.opening_shape import SeenArcs, see_opening
from planner.geometry.openings.outline_slices import room_of_all_slices
from planner.parts import Opening
from planner.verdicts import Placement, Room

STEPS_PER_QUARTER = 48
Flat = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class SeenRims:
    """What is drawn of a hole, in its own millimetres about its middle, x along the opening's length.

    near, far : the two rims of the wall, foreshortened; equal where nothing leans
    seen : what every slice of the wall leaves, the largest part of it; empty where nothing is left
    """

    near: tuple[Flat, ...]
    far: tuple[Flat, ...]
    seen: tuple[Flat, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """A distance worth a dimension line.

    start, end : its two ends [mm]
    size_mm : its length; below zero where two things overlap [mm]
    """

    start: Flat
    end: Flat
    size_mm: float


def find_rims(hole: Room, opening: Opening) -> SeenRims:
    """Both rims of a hole and the room between them, as a line that leans in it sees them.

    hole : with its tilt and wall
    opening : its shape, measured
    """
    narrowing = cos(radians(hole.tilt_deg))
    shift_mm = hole.wall_thickness_mm * sin(radians(abs(hole.tilt_deg)))
    outline = find_outline(opening)
    near = tuple((x * narrowing - shift_mm / 2, y) for x, y in outline)
    far = tuple((x * narrowing + shift_mm / 2, y) for x, y in outline)
    rooms = room_of_all_slices(tuple((x * narrowing, y) for x, y in outline), shift_mm)
    return SeenRims(near=near, far=far, seen=max(rooms, key=lambda room: Polygon(room).area, default=()))


def find_gaps(placement: Placement, seen: Sequence[Flat]) -> tuple[Gap, ...]:
    """The gap of every round thing to the edge, where it is smallest, and the gaps between neighbours.

    placement : where the things lie
    seen : the room they lie in
    """
    things = list(zip(placement.centres_mm, placement.diameters_mm, strict=True))
    gaps = [_gap_to_edge(centre, diameter_mm, seen) for centre, diameter_mm in things] if seen else []
    for number, (centre, diameter_mm) in enumerate(things):
        for other, other_mm in things[number + 1 :]:
            gap = _gap_between(centre, diameter_mm / 2, other, other_mm / 2)
            if gap.size_mm < min(diameter_mm, other_mm):
                gaps.append(gap)
    return tuple(gaps)


def find_outline(opening: Opening) -> list[Flat]:
    """The edge of a hole seen square on, as points about its middle, x along its length. [mm]"""
    whole = see_opening(opening=opening, tilt_deg=0.0, wall_thickness_mm=0.0)
    if not isinstance(whole, SeenArcs):
        return list(whole.parts_mm[0])
    corners = ((1, 1, 0.0), (-1, 1, pi / 2), (-1, -1, pi), (1, -1, 3 * pi / 2))
    points = []
    for side_x, side_y, start in corners:
        for step in range(STEPS_PER_QUARTER + 1):
            angle = start + pi / 2 * step / STEPS_PER_QUARTER
            x = side_x * whole.flat_x_mm + whole.arc_x_mm * cos(angle)
            points.append((x, side_y * whole.flat_y_mm + whole.arc_y_mm * sin(angle)))
    return points


def _gap_to_edge(centre: Flat, diameter_mm: float, seen: Sequence[Flat]) -> Gap:
    edge = Polygon(seen).exterior
    here = ShapelyPoint(centre)
    end = edge.interpolate(edge.project(here))
    distance_mm = here.distance(end)
    outside = -1.0 if not Polygon(seen).contains(here) else 1.0
    along = ((end.x - centre[0]) / (distance_mm or 1.0), (end.y - centre[1]) / (distance_mm or 1.0))
    start = (centre[0] + along[0] * outside * diameter_mm / 2, centre[1] + along[1] * outside * diameter_mm / 2)
    return Gap(start=start, end=(end.x, end.y), size_mm=outside * distance_mm - diameter_mm / 2)


def _gap_between(first: Flat, first_radius_mm: float, second: Flat, second_radius_mm: float) -> Gap:
    distance_mm = hypot(second[0] - first[0], second[1] - first[1])
    along = ((second[0] - first[0]) / (distance_mm or 1.0), (second[1] - first[1]) / (distance_mm or 1.0))
    start = (first[0] + along[0] * first_radius_mm, first[1] + along[1] * first_radius_mm)
    end = (second[0] - along[0] * second_radius_mm, second[1] - along[1] * second_radius_mm)
    return Gap(start=start, end=end, size_mm=distance_mm - first_radius_mm - second_radius_mm)
