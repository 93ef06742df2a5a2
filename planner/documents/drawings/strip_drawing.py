"""The holes in their order as a strip, for a frame whose places nobody told: a way can be read, not measured."""

from itertools import pairwise

from planner.documents.drawings.drawing_marks import arrow_head
from planner.documents.drawings.label_places import BOLD_RATIO, wrapped
from planner.documents.drawings.port_marks import port_mark
from planner.documents.drawings.route_scene import RouteScene, deciding_words, stops_every_way
from planner.documents.drawings.side_view import cut_mark, place_position, places_in_order
from planner.documents.drawings.svg import (
    INK,
    NEW_LINE,
    PAPER,
    SOFT_INK,
    STOP,
    WARN,
    PaperPoint,
    box,
    group,
    polyline,
    text,
)
from planner.documents.words.sizes_in_words import NOT_MEASURED, give_or_take
from planner.parts import OUTSIDE, Frame, JobEnd, Port, Run
from planner.plan.names import find_frame_names
from planner.plan.routing_plan import RoutingPlan

STRIP_WORDS = "The holes in their order; nobody told where they lie, so this is no picture of the frame"
LEFT_MM, TEXT_MM = 12.0, 20.0
TYPE_MM, SMALL_MM = 3.0, 2.6
ROW_MM, LEG_MM = 4.2, 9.0


def is_seen_from_the_side(plan: RoutingPlan, frame: Frame) -> bool:
    """Whether every place of the way, or every hole where there is none, was told, so that a side view can be drawn.

    plan : with or without a route
    frame : the frame it was made for
    """
    places = places_in_order(plan, frame) or tuple(frame.ports)
    return all(place_position(frame, place) is not None for place in places)


def strip(scene: RouteScene, *, top_mm: float) -> tuple[list[str], float]:
    """Every place of the way, one under the other, with what is known of it and of the leg to the next.

    Without a way, every hole of the frame. One group of class "port" stands for every port, as in the side view.

    Returns the parts and where they end. [mm]

    scene : what is drawn; its view is not asked
    """
    plan, frame = scene.plan, scene.frame
    places = places_in_order(plan, frame) or tuple(frame.ports)
    rows: list[tuple[str, PaperPoint, list[str]]] = []
    y = top_mm
    for number, place in enumerate(places):
        words = _words_of(scene, place)
        rows.append((place, (LEFT_MM, y), words))
        y += ROW_MM * len(words)
        if plan.runs and number < len(plan.runs):
            y += LEG_MM + ROW_MM * (len(_leg_rows(scene, plan.runs[number])) - 1)
        else:
            y += 1.5
    legs = [part for i, ends in enumerate(pairwise(rows)) for part in _leg(scene, i, ends[0], ends[1])]
    marks = [part for place, at, words in rows for part in _place(scene, place, at, words)]
    return [*legs, *marks, *_cut(scene, [at for _, at, _ in rows])], y


def _words_of(scene: RouteScene, place: str) -> list[str]:
    """A place's label and what is known of it, as rows that fit the paper."""
    frame, room_mm = scene.frame, scene.width_mm - TEXT_MM - 3
    port = frame.ports.get(place)
    if port is None:
        label = frame.anchors[place].label or place
        start = places_in_order(scene.plan, frame)
        fed = (
            start[0 if scene.plan.feed_from is JobEnd.FROM else -1]
            if start and scene.plan.feed_from and scene.plan.route
            else ""
        )
        return wrapped(f"feed from {label}" if place == fed else label, height_mm=TYPE_MM, room_mm=room_mm)
    rows = _name_rows(scene, place)
    rows += wrapped(_hole_words(port), height_mm=TYPE_MM, room_mm=room_mm)
    if scene.decider is not None and scene.decider.port_id == place:
        rows += wrapped(deciding_words(scene), height_mm=TYPE_MM, room_mm=room_mm)
    if stops_every_way(scene, place):
        rows += ["stops every way"]
    return rows


def _name_rows(scene: RouteScene, place: str) -> list[str]:
    """What a hole is called, in bold letters that are a little wider."""
    room_mm = (scene.width_mm - TEXT_MM - 3) / BOLD_RATIO
    return wrapped(find_frame_names(scene.frame).place(place), height_mm=TYPE_MM, room_mm=room_mm)


def _hole_words(port: Port) -> str:
    opening = NOT_MEASURED if port.opening is None else port.opening.words
    insert = "" if port.insert is None else f", insert {port.insert.opening.words}"
    tilt = f", tilt {give_or_take(port.tilt_deg, half=port.tilt_tolerance_deg)}°" if port.tilt_deg else ""
    return f"{opening}{insert}{tilt}, wall {give_or_take(port.wall_thickness_mm, half=port.wall_tolerance_mm)}"


def _leg_rows(scene: RouteScene, run_id: str) -> list[str]:
    """Where a leg lies and how long it is."""
    legs = {leg.run_id: leg for leg in scene.plan.lengths.legs} if scene.plan.lengths else {}
    high_mm = legs[run_id].high_mm if run_id in legs else None
    size = "length not known" if high_mm is None else f"up to {high_mm:.0f} mm"
    return wrapped(f"{_zone_words(scene.frame.runs[run_id])}, {size}", height_mm=SMALL_MM, room_mm=_leg_room_mm(scene))


def _leg_room_mm(scene: RouteScene) -> float:
    return scene.width_mm - TEXT_MM - 3


def _zone_words(run: Run) -> str:
    if run.zone_id == OUTSIDE:
        return "outside"
    guide = "" if run.guide is None else f", in a guide of {run.guide.bore_diameter_mm:g}"
    return f"inside {run.zone_id.replace('_', ' ')}{guide}"


def _leg(
    scene: RouteScene,
    number: int,
    start: tuple[str, PaperPoint, list[str]],
    end: tuple[str, PaperPoint, list[str]],
) -> list[str]:
    if number >= len(scene.plan.runs):
        return []
    run = scene.frame.runs[scene.plan.runs[number]]
    way = [start[1], end[1]]
    dash = (2.2, 1.2) if run.zone_id == OUTSIDE else ()
    parts = []
    if run.guide is not None:
        parts += [polyline(way, stroke=INK, width_mm=1.9, has_round_ends=False)]
        parts += [polyline(way, stroke=PAPER, width_mm=1.4, has_round_ends=False)]
    parts.append(polyline(way, stroke=NEW_LINE, width_mm=0.8, dash_mm=dash))
    is_reversed = scene.plan.feed_from is JobEnd.TO
    middle = (LEFT_MM, (way[0][1] + way[1][1]) / 2 + (-1.4 if is_reversed else 1.4))
    parts.append(arrow_head(middle, towards_deg=-90 if is_reversed else 90, length_mm=2.8, fill=NEW_LINE))
    y = start[1][1] + ROW_MM * (len(start[2]) - 1) + 5.5
    for row in _leg_rows(scene, run.id):
        parts.append(text((TEXT_MM, y), row, height_mm=SMALL_MM, fill=SOFT_INK))
        y += ROW_MM
    return [
        group(parts, role="leg", name=run.id, title=f"{find_frame_names(scene.frame).run(run.id)}, {_zone_words(run)}")
    ]


def _place(scene: RouteScene, place: str, at: PaperPoint, words: list[str]) -> list[str]:
    port = scene.frame.ports.get(place)
    is_decider = scene.decider is not None and scene.decider.port_id == place
    colour = STOP if stops_every_way(scene, place) else WARN if is_decider else INK
    name_rows_n = len(words) if port is None else len(_name_rows(scene, place))
    written = [
        text(
            (TEXT_MM, at[1] + 1.1 + ROW_MM * i),
            row,
            height_mm=TYPE_MM,
            fill=INK if i < name_rows_n else colour,
            is_bold=i < name_rows_n,
        )
        for i, row in enumerate(words)
    ]
    if port is None:
        side = 2.6
        corner = (at[0] - side / 2, at[1] - side / 2)
        return [box(corner, width_mm=side, height_mm=side, fill=INK, stroke=PAPER), *written]
    return [
        group(
            [*port_mark(scene, place, at), *written],
            role="port",
            name=place,
            title=find_frame_names(scene.frame).place(place),
        )
    ]


def _cut(scene: RouteScene, points: list[PaperPoint]) -> list[str]:
    if scene.plan.cut_old_at is None or len(points) < 2 or not scene.plan.outcome.lets_work_begin:
        return []
    ends = points[:2] if scene.plan.cut_old_at is JobEnd.FROM else [points[-1], points[-2]]
    return [cut_mark(ends)]
