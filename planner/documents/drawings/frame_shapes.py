"""A bare frame seen from the side: its tubes, its fixed points, and the key to the marks."""

from collections.abc import Callable
from itertools import pairwise
from math import hypot

from planner.documents.drawings.svg import (
    FAINT,
    NEW_LINE,
    PAPER,
    SOFT_INK,
    TUBE,
    PaperPoint,
    PaperView,
    circle,
    group,
    polyline,
)
from planner.parts import Bar, Frame

AXIS_DASH_MM = (3, 0.8, 0.6, 0.8)


def tubes(frame: Frame, view: PaperView) -> str:
    """The cavities as tubes: their path with their bore; a cavity nobody measured as a thin line.

    frame : whose zones are drawn
    view : scale and place
    """
    edges, fills = [], []
    for zone in frame.zones.values():
        path = [view.at(x, z) for x, _, z in zone.path_mm]
        if not path:
            continue
        if zone.bore_diameter_mm is None:
            edges.append(polyline(path, stroke=FAINT, width_mm=0.4, dash_mm=(2, 1)))
            continue
        bore_mm = zone.bore_diameter_mm * view.scale_ratio
        edges.append(polyline(path, stroke=FAINT, width_mm=bore_mm + 0.6, has_round_ends=False))
        fills.append(polyline(path, stroke=TUBE, width_mm=bore_mm, has_round_ends=False))
    return group([*edges, *fills], role="tubes")


def fixed_points(frame: Frame, view: PaperView) -> str:
    """What helps to find one's way: the bottom-bracket centre, the steering axis, the pivots of the rear.

    frame : whose fixed points are drawn
    view : scale and place
    """
    middle = view.at(0, 0)
    parts = [circle(middle, diameter_mm=40 * view.scale_ratio, stroke=FAINT, width_mm=0.4, fill=PAPER)]
    parts.append(_cross(middle))
    if frame.bar:
        parts.append(polyline(_steering_axis(frame.bar, view), stroke=SOFT_INK, width_mm=0.25, dash_mm=AXIS_DASH_MM))
    parts += [_pivot(view.at(*pivot)) for pivot in pivots(frame)]
    return group(parts, role="fixed-points")


def fixed_places(frame: Frame, view: PaperView) -> list[PaperPoint]:
    """Where the marks of the fixed points lie on the paper.

    frame : whose fixed points are drawn
    view : scale and place
    """
    return [view.at(0, 0), *(view.at(*pivot) for pivot in pivots(frame))]


def edges(frame: Frame, view: PaperView) -> list[list[PaperPoint]]:
    """Both edges of every tube and the steering axis, for keeping words off them.

    frame : whose tubes are drawn
    view : scale and place
    """
    lines = [_steering_axis(frame.bar, view)] if frame.bar else []
    for zone in frame.zones.values():
        half = (zone.bore_diameter_mm or 0) / 2
        for (x1, _, z1), (x2, _, z2) in pairwise(zone.path_mm):
            size = hypot(x2 - x1, z2 - z1) or 1.0
            aside = (-(z2 - z1) / size * half, (x2 - x1) / size * half)
            for side in (-1, 1):
                ends = ((x1, z1), (x2, z2))
                lines.append([view.at(x + side * aside[0], z + side * aside[1]) for x, z in ends])
    return lines


def key_marks(frame: Frame, *, has_route: bool) -> list[tuple[str, Callable[[PaperPoint], str]]]:
    """What the lines and small marks mean: words, and a drawing of the mark at a place.

    frame : only what it has is told
    has_route : whether a line is drawn
    """

    def stroke(dash_mm: tuple[float, ...], colour: str, pen_mm: float) -> Callable[[PaperPoint], str]:
        return lambda at: polyline([at, (at[0] + 9, at[1])], stroke=colour, width_mm=pen_mm, dash_mm=dash_mm)

    rows: list[tuple[str, Callable[[PaperPoint], str]]] = []
    if has_route:
        rows += [("inside the frame", stroke((), NEW_LINE, 0.8)), ("outside", stroke((2.2, 1.2), NEW_LINE, 0.8))]
    rows.append(("bottom bracket", lambda at: _cross((at[0] + 4.5, at[1]))))
    if frame.bar:
        rows.append(("steering axis", stroke(AXIS_DASH_MM, SOFT_INK, 0.25)))
    if frame.rear:
        rows.append(("pivot", lambda at: _pivot((at[0] + 4.5, at[1]))))
    return rows


def pivots(frame: Frame) -> tuple[tuple[float, float], ...]:
    """The pivots of the rear end that stand still, as (x, z) in mm.

    frame : with a rear of one pivot or of links, or none
    """
    if frame.rear is None:
        return ()
    if hasattr(frame.rear, "pivot_mm"):
        return (frame.rear.pivot_mm,)
    return frame.rear.frame_pivots_mm


def _cross(at: PaperPoint) -> str:
    arms = [[(at[0] - 1.5, at[1]), (at[0] + 1.5, at[1])], [(at[0], at[1] - 1.5), (at[0], at[1] + 1.5)]]
    return "".join(polyline(arm, stroke=SOFT_INK, width_mm=0.25) for arm in arms)


def _pivot(at: PaperPoint) -> str:
    ring = circle(at, diameter_mm=2.2, stroke=SOFT_INK, width_mm=0.4, fill=PAPER)
    return ring + circle(at, diameter_mm=0.7, stroke="none", fill=SOFT_INK)


def _steering_axis(bar: Bar, view: PaperView) -> list[PaperPoint]:
    x, _, z = bar.axis_point_mm
    dx, _, dz = bar.axis
    size = hypot(dx, dz) or 1.0
    return [view.at(x + way_mm * dx / size, z + way_mm * dz / size) for way_mm in (-70, 63)]
