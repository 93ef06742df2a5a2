"""The frame and the line seen from the side: x forward to the right, z up, true to one scale."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import atan2, cos, degrees, hypot, radians, sin

from planner.documents.drawings.drawing_marks import arrow_head
from planner.documents.drawings.frame_shapes import pivots
from planner.documents.drawings.svg import (
    INK,
    NEW_LINE,
    PAPER,
    STOP,
    PaperPoint,
    PaperView,
    group,
    polyline,
)
from planner.parts import OUTSIDE, Frame, Point, Run
from planner.plan.routing_plan import RoutingPlan

MARGIN_MM = 7.0
VIEW_WORDS = "Seen from the right side; forward is to the right"
SCALES = (1, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50)
"""A drawing is 1 to one of these, so that a ruler can be laid on the print."""


def place_position(frame: Frame, place_id: str) -> Point | None:
    """Where a port or an anchor is; None where nobody told it.

    place_id : of a port or an anchor
    """
    place = frame.ports.get(place_id) or frame.anchors[place_id]
    return place.position_mm


def leg_points(plan: RoutingPlan, frame: Frame) -> dict[str, tuple[Point, ...]]:
    """Each run of the route as points in space, from the job's `from` to its `to`.

    The relaxed shape is taken where one was made, then the shortest curve, then a straight line; a run with an end
    without a place is left out.

    plan : with or without lengths
    frame : the frame it was made for
    """
    legs = {leg.run_id: leg for leg in plan.lengths.legs} if plan.lengths else {}
    found: dict[str, tuple[Point, ...]] = {}
    places = places_in_order(plan, frame)
    for run_id, from_place, to_place in zip(plan.runs, places, places[1:], strict=False):
        curve = legs[run_id].relaxed_curve or legs[run_id].curve if run_id in legs else None
        ends = [place_position(frame, place) for place in (from_place, to_place)]
        straight = tuple(end for end in ends if end is not None)
        if curve or len(straight) == len(ends):
            found[run_id] = curve.points_mm if curve else straight
    return found


def places_in_order(plan: RoutingPlan, frame: Frame) -> tuple[str, ...]:
    """The anchor the line starts at, its ports, the anchor it ends at; empty for no plan.

    plan : with or without a route
    frame : the frame it was made for
    """
    if not plan.runs:
        return ()
    first, last = frame.runs[plan.runs[0]].between, frame.runs[plan.runs[-1]].between
    inner = plan.route or ((first[1],) if len(plan.runs) > 1 else ())
    if not inner:
        return first
    start = first[0] if first[1] == inner[0] else first[1]
    end = last[1] if last[0] == inner[-1] else last[0]
    return (start, *inner, end)


def view_that_fits(points: Iterable[tuple[float, float]], *, width_mm: float, height_mm: float) -> PaperView:
    """The largest usual scale at which all points lie on a piece of paper, and where they lie.

    points : what must be seen, as (x, z) of the frame [mm]
    """
    xs, heights = zip(*points, strict=True)
    wide, tall = max(xs) - min(xs), max(heights) - min(heights)
    divisor = next(
        (s for s in SCALES if wide <= width_mm * s and tall <= height_mm * s), max(wide / width_mm, SCALES[-1])
    )
    spare_mm = width_mm - wide / divisor
    return PaperView(left_mm=min(xs), top_mm=max(heights), scale_ratio=1 / divisor, origin_mm=(spare_mm / 2, 0.0))


def view_on_paper(points: Iterable[tuple[float, float]], *, width_mm: float, top_mm: float) -> PaperView:
    """The scale and place at which a side view stands on its sheet.

    points : what must be seen, as (x, z) of the frame [mm]
    width_mm : of the sheet [mm]
    top_mm : where the picture begins [mm]
    """
    room_mm = width_mm - 2 * (MARGIN_MM + 3)
    view = view_that_fits(points, width_mm=room_mm, height_mm=room_mm * 1.2)
    left_mm = view.origin_mm[0] + MARGIN_MM + 3
    return PaperView(
        left_mm=view.left_mm, top_mm=view.top_mm, scale_ratio=view.scale_ratio, origin_mm=(left_mm, top_mm)
    )


def seen_points(frame: Frame, ways: Iterable[Sequence[Point]]) -> list[tuple[float, float]]:
    """Everything that a side view of a frame must show, as (x, z) of the frame [mm].

    ways : points of each piece of line that is drawn
    """
    points = [(x, z) for way in ways for x, _, z in way]
    places = [place_position(frame, place_id) for place_id in (*frame.ports, *frame.anchors)]
    points += [(place[0], place[2]) for place in places if place is not None]
    for zone in frame.zones.values():
        half = (zone.bore_diameter_mm or 0) / 2
        points += [(x + a, z + b) for x, _, z in zone.path_mm for a in (-half, half) for b in (-half, half)]
    return [*points, *pivots(frame), (0.0, -20.0)]


def line_along(run: Run, points: tuple[Point, ...], view: PaperView, *, is_reversed: bool) -> str:
    """One leg of the new line: solid inside the frame, dashed outside, with an arrow the way it is fed.

    points : along it, from the job's `from`
    view : scale and place
    is_reversed : whether the line is fed from the job's `to`
    """
    way = [view.at(x, z) for x, _, z in points]
    dash = (2.2, 1.2) if run.zone_id == OUTSIDE else ()
    guide = ""
    if run.guide:
        guide = polyline(way, stroke=INK, width_mm=1.9, has_round_ends=False)
        guide += polyline(way, stroke=PAPER, width_mm=1.4, has_round_ends=False)
    pen = polyline(way, stroke=PAPER, width_mm=1.5) if not run.guide else ""
    pen += polyline(way, stroke=NEW_LINE, width_mm=0.8, dash_mm=dash)
    tip, towards_deg = _along(list(reversed(way)) if is_reversed else way, share=0.55)
    head = arrow_head(tip, towards_deg=towards_deg, length_mm=2.8, fill=NEW_LINE)
    return group([guide, pen, head], role="leg", name=run.id, title=f"{run.id}, {_zone_words(run)}")


def cut_mark(way: list[PaperPoint]) -> str:
    """Two strokes across the line where the old one is cut.

    way : the leg, starting at the end that is cut
    """
    (x, y), angle_deg = cut_place(way)
    strokes = []
    for turn_deg in (55, 125):
        angle = radians(angle_deg + turn_deg)
        dx, dy = 2.2 * cos(angle), 2.2 * sin(angle)
        strokes.append(polyline([(x - dx, y - dy), (x + dx, y + dy)], stroke=PAPER, width_mm=1.4))
        strokes.append(polyline([(x - dx, y - dy), (x + dx, y + dy)], stroke=STOP, width_mm=0.7))
    return group(strokes, role="cut", title="The old line is cut here")


def cut_place(way: list[PaperPoint]) -> tuple[PaperPoint, float]:
    """Where the cut is marked, a little way along the leg, and the way the line points there, in degrees.

    way : the leg, starting at the end that is cut
    """
    return _along(way, share=0.14)


def middle_of(way: list[PaperPoint], *, share: float = 0.5) -> PaperPoint:
    """A point on a leg, by its share of the length.

    share : 0 for its start, 1 for its end
    """
    return _along(way, share=share)[0]


def _along(way: list[PaperPoint], *, share: float) -> tuple[PaperPoint, float]:
    steps = [hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(way)]
    left = sum(steps) * share
    for (a, b), step in zip(pairwise(way), steps, strict=True):
        if step > 0 and left <= step:
            part = left / step
            at = (a[0] + (b[0] - a[0]) * part, a[1] + (b[1] - a[1]) * part)
            return at, degrees(atan2(b[1] - a[1], b[0] - a[0]))
        left -= step
    return way[-1], 0.0


def _zone_words(run: Run) -> str:
    if run.zone_id == OUTSIDE:
        return "outside the frame"
    return f"inside {run.zone_id}" + (", in a guide" if run.guide else "")
