"""A plan on its frame, seen from the side: where the line goes, from where it is fed, which hole decides."""

from planner.documents.drawings.drawing_marks import OUTCOME_COLOUR, badge, outcome_mark
from planner.documents.drawings.frame_shapes import fixed_points, key_marks, tubes
from planner.documents.drawings.label_places import (
    ROW_RATIO,
    Area,
    text_width_mm,
    wrapped,
)
from planner.documents.drawings.port_marks import port_mark
from planner.documents.drawings.posed_frame import pose_route
from planner.documents.drawings.route_labels import TYPE_MM, route_labels
from planner.documents.drawings.route_scene import (
    ROOMY_MM,
    RouteScene,
    cut_leg,
    deciding_run_place,
    ends_of,
    numbered_ports,
    seen_places,
)
from planner.documents.drawings.side_view import (
    MARGIN_MM,
    VIEW_WORDS,
    cut_mark,
    leg_points,
    line_along,
    seen_points,
    view_on_paper,
)
from planner.documents.drawings.strip_drawing import STRIP_WORDS, is_seen_from_the_side, strip
from planner.documents.drawings.svg import (
    INK,
    PAPER,
    SOFT_INK,
    WARN,
    Picture,
    box,
    circle,
    group,
    sheet,
    text,
)
from planner.documents.words.outcome_words import OUTCOME_WORDS
from planner.documents.words.wording import deciding_check
from planner.parts import Frame, JobEnd, Line
from planner.plan.names import find_frame_names
from planner.plan.routing_plan import RoutingPlan
from planner.verdicts import Outcome


def draw_route(
    plan: RoutingPlan | None,
    frame: Frame,
    *,
    width_mm: float = 180.0,
    picked_port: str = "",
    line: Line | None = None,
    bar_deg: float = 0.0,
    swing_deg: float = 0.0,
    is_bare: bool = False,
) -> Picture:
    """The side view of a frame with its ports, the way of the new line, and the hole that decides.

    The view is from the rider's right: forward is to the right, up is up. What lies to the left or right is not seen.

    Where nobody told the place of a hole on the way, a strip of the places in their order stands for it.

    In its markup one group of class "port" stands for every port, named by its id.

    plan : with a route, or the proof that there is none; None for the bare frame
    frame : the frame it was made for, at rest
    width_mm : of the paper; the height follows
    picked_port : a port to be ringed; "" for none
    line : the new line; needed for drawing it in another posture than at rest
    bar_deg : turn of the bar, right-handed about its axis; 0 straight ahead
    swing_deg : swing of the rear; 0 at rest
    is_bare : without head, list of holes, key and scale, for a screen that tells them beside it; a posture is told, and
        what holes are called that have room for a number only
    """
    told = plan
    plan = plan or _nothing_planned(frame)
    legs, resting = leg_points(plan, frame), seen_points(frame, leg_points(plan, frame).values())
    said = [VIEW_WORDS]
    if bar_deg or swing_deg:
        posed = pose_route(plan, frame, line, bar_deg=bar_deg, swing_deg=swing_deg)
        frame, legs, said = posed.frame, posed.legs, [posed.words]
    is_side_view = is_seen_from_the_side(plan, frame)
    said = said if is_side_view else [STRIP_WORDS]
    head, head_mm = _head(told, frame, said, width_mm=width_mm)
    if is_bare:
        is_posed = is_side_view and (bar_deg or swing_deg)
        head, head_mm = _said(said if is_posed else [], top_mm=5.0, width_mm=width_mm)
    points = [*resting, *seen_points(frame, legs.values())]
    view = view_on_paper(points, width_mm=width_mm, top_mm=head_mm + 9)
    scene = RouteScene(
        plan=plan,
        frame=frame,
        legs=legs,
        view=view,
        width_mm=width_mm,
        picked_port=picked_port,
        decider=deciding_check(plan) if plan.route else None,
    )
    if not is_side_view:
        rows, bottom_mm = strip(scene, top_mm=head_mm + 6)
        title = f"{plan.job_title}, holes in order"
        return sheet([*head, *rows], width_mm=width_mm, height_mm=bottom_mm, title=title)
    bottom_mm = view.at(0, min(height for _, height in points))[1] + MARGIN_MM + _second_row_mm(scene)
    drawn = [tubes(frame, view), fixed_points(frame, view)]
    is_reversed = plan.feed_from is JobEnd.TO
    drawn += [line_along(frame.runs[run_id], way, view, is_reversed=is_reversed) for run_id, way in legs.items()]
    paper = Area(left_mm=1.5, top_mm=head_mm + 1, right_mm=width_mm - 1.5, bottom_mm=bottom_mm)
    drawn += [*_anchor_marks(scene), *_port_marks(scene), *route_labels(scene, paper=paper)]
    legend, height_mm = _named(scene, top_mm=bottom_mm) if is_bare else _legend(scene, top_mm=bottom_mm + 4)
    return sheet([*head, *drawn, *legend], width_mm=width_mm, height_mm=height_mm, title=f"{plan.job_title}, side view")


def _nothing_planned(frame: Frame) -> RoutingPlan:
    return RoutingPlan(
        job_id="",
        job_title=frame.name,
        frame_id=frame.id,
        frame_name=frame.name,
        new_line_name="",
        old_line_name="",
        outcome=Outcome.UNKNOWN,
    )


def _anchor_marks(scene: RouteScene) -> list[str]:
    used = ends_of(scene)
    parts = []
    anchors = sorted(scene.frame.anchors.values(), key=lambda anchor: anchor.id in used)
    for anchor, at in seen_places(scene, anchors):
        is_used = anchor.id in used
        side, colour = (2.6, INK) if is_used else (1.7, SOFT_INK)
        corner = (at[0] - side / 2, at[1] - side / 2)
        parts.append(box(corner, width_mm=side, height_mm=side, fill=colour, stroke=PAPER))
    way = cut_leg(scene)
    return [*parts, cut_mark(way)] if way else parts


def _port_marks(scene: RouteScene) -> list[str]:
    parts, names = [], find_frame_names(scene.frame)
    ports = sorted(scene.frame.ports.values(), key=lambda port: port.id in scene.plan.route)
    for port, at in seen_places(scene, ports):
        mark = port_mark(scene, port.id, at)
        parts.append(group(mark, role="port", name=port.id, title=names.place(port.id)))
    run_at = deciding_run_place(scene)
    return [*parts, circle(run_at, diameter_mm=5, stroke=WARN, width_mm=0.8)] if run_at else parts


def _head(plan: RoutingPlan | None, frame: Frame, said: list[str], *, width_mm: float) -> tuple[list[str], float]:
    if plan is None:
        parts = [text((MARGIN_MM, 7.3), frame.name, height_mm=3.8, is_bold=True)]
    else:
        words = OUTCOME_WORDS[plan.outcome] if plan.runs else "no way through"
        parts = [
            outcome_mark((MARGIN_MM + 2, 6), plan.outcome, size_mm=4.2),
            text((MARGIN_MM + 6, 7.3), words, height_mm=3.8, fill=OUTCOME_COLOUR[plan.outcome], is_bold=True),
        ]
    rows, y = _said(said, top_mm=12.8, width_mm=width_mm)
    return [*parts, *rows], y


def _said(said: list[str], *, top_mm: float, width_mm: float) -> tuple[list[str], float]:
    """Rows of soft words, and where they end."""
    parts, y = [], top_mm
    for row in [row for words in said for row in wrapped(words, height_mm=2.8, room_mm=width_mm - 12)]:
        parts.append(text((MARGIN_MM, y), row, height_mm=2.8, fill=SOFT_INK))
        y += 3.6
    return parts, y - 2


def _second_row_mm(scene: RouteScene) -> float:
    """Room below for the second row that the name of what decides takes on narrow paper."""
    return TYPE_MM * ROW_RATIO if scene.decider and scene.width_mm < ROOMY_MM else 0.0


def _named(scene: RouteScene, *, top_mm: float) -> tuple[list[str], float]:
    """The names of the ports that stand in the picture by number alone, and where they end."""
    parts, y, names = [], top_mm, find_frame_names(scene.frame)
    for number, port_id in enumerate(numbered_ports(scene), 1):
        parts.append(text((MARGIN_MM + 4, y + 4), str(number), height_mm=TYPE_MM, anchor="end"))
        for row in wrapped(names.place(port_id), height_mm=TYPE_MM, room_mm=scene.width_mm - 2 * MARGIN_MM - 6):
            parts.append(text((MARGIN_MM + 6, y + 4), row, height_mm=TYPE_MM))
            y += 4.3
    return parts, y + (3 if parts else 0)


def _legend(scene: RouteScene, *, top_mm: float) -> tuple[list[str], float]:
    parts, y = [], top_mm
    for number, port_id in enumerate(scene.plan.route, 1):
        parts.append(badge((MARGIN_MM + 2, y), str(number), diameter_mm=4.2))
        words = f"{port_id}: {scene.frame.ports[port_id].label}"
        for row in wrapped(words, height_mm=TYPE_MM, room_mm=scene.width_mm - 2 * MARGIN_MM - 6):
            parts.append(text((MARGIN_MM + 6, y + 1.1), row, height_mm=TYPE_MM))
            y += 4.3
        y += 0.9
    x = MARGIN_MM
    for words, mark in key_marks(scene.frame, has_route=bool(scene.plan.route)):
        needed_mm = 12 + text_width_mm(words, height_mm=2.8)
        if x > MARGIN_MM and x + needed_mm > scene.width_mm - 3:
            x, y = MARGIN_MM, y + 4.6
        parts += [mark((x, y)), text((x + 10.5, y + 1), words, height_mm=2.8, fill=SOFT_INK)]
        x += needed_mm + 4
    y += 5.2
    parts.append(text((MARGIN_MM, y), f"Scale 1:{1 / scene.view.scale_ratio:g}", height_mm=2.8, fill=SOFT_INK))
    return parts, y + 3.5
