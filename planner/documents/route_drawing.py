"""A plan on its frame, seen from the side: where the line goes, from where it is fed, which hole decides."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from planner.documents.drawing_marks import OUTCOME_COLOUR, badge, outcome_mark
from planner.documents.frame_shapes import edges, fixed_places, fixed_points, key_marks, pivots, tubes
from planner.documents.label_places import (
    Area,
    Label,
    PlacedLabel,
    area_around,
    place_labels,
    text_width_mm,
    wrapped,
)
from planner.documents.side_view import (
    cut_mark,
    cut_place,
    leg_points,
    line_along,
    middle_of,
    place_position,
    places_in_order,
    view_that_fits,
)
from planner.documents.svg import (
    INK,
    NEW_LINE,
    PAPER,
    SOFT_INK,
    STOP,
    WARN,
    PaperPoint,
    PaperView,
    box,
    circle,
    group,
    polyline,
    sheet,
    text,
)
from planner.documents.wording import OUTCOME_WORDS, deciding_check
from planner.parts import Frame, Point
from planner.plan.routing_plan import JobEnd, RoutingPlan
from planner.verdicts import Check, Outcome

MARGIN_MM = 7.0
TYPE_MM = 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class _Scene:
    """What is drawn and how it lies on the paper."""

    plan: RoutingPlan
    frame: Frame
    legs: dict[str, tuple[Point, ...]]
    view: PaperView
    width_mm: float
    picked_port: str
    decider: Check | None

    def seen(self, point: Point) -> PaperPoint:
        return self.view.at(point[0], point[2])


def draw_route(plan: RoutingPlan | None, frame: Frame, *, width_mm: float = 180.0, picked_port: str = "") -> str:
    """The side view of a frame with its ports, the way of the new line, and the hole that decides.

    The view is from the rider's right: forward is to the right, up is up. What lies to the left or right is not seen.

    Parameters
    ----------
    plan : RoutingPlan or None
        With a route, or the proof that there is none; None for the bare frame.
    frame : Frame
        The frame it was made for, in the posture to be shown.
    width_mm : float
        Of the paper; the height follows. [mm]
    picked_port : str
        A port to be ringed; "" for none.

    Returns
    -------
    str
        SVG, with one group of class "port" for every port, named by its id.

    References
    ----------
    None needed; a picture.
    """
    head, head_mm = _head(plan, frame, width_mm=width_mm)
    plan = plan or _nothing_planned(frame)
    legs = leg_points(plan, frame)
    points = _seen_points(frame, legs)
    view = _view(points, width_mm=width_mm, top_mm=head_mm + 6)
    scene = _Scene(
        plan=plan,
        frame=frame,
        legs=legs,
        view=view,
        width_mm=width_mm,
        picked_port=picked_port,
        decider=deciding_check(plan) if plan.route else None,
    )
    bottom_mm = view.at(0, min(height for _, height in points))[1] + MARGIN_MM
    drawn = [tubes(frame, view), fixed_points(frame, view)]
    is_reversed = plan.feed_from is JobEnd.TO
    drawn += [line_along(frame.runs[run_id], way, view, is_reversed=is_reversed) for run_id, way in legs.items()]
    paper = Area(left_mm=1.5, top_mm=head_mm + 1, right_mm=width_mm - 1.5, bottom_mm=bottom_mm)
    drawn += [*_anchor_marks(scene), *_port_marks(scene), *_labels(scene, paper=paper)]
    legend, height_mm = _legend(scene, top_mm=bottom_mm + 4)
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


def _view(points: list[tuple[float, float]], *, width_mm: float, top_mm: float) -> PaperView:
    room_mm = width_mm - 2 * (MARGIN_MM + 3)
    view = view_that_fits(points, width_mm=room_mm, height_mm=room_mm * 1.2)
    left_mm = view.origin_mm[0] + MARGIN_MM + 3
    return PaperView(
        left_mm=view.left_mm, top_mm=view.top_mm, scale_ratio=view.scale_ratio, origin_mm=(left_mm, top_mm)
    )


def _seen_points(frame: Frame, legs: dict[str, tuple[Point, ...]]) -> list[tuple[float, float]]:
    points = [(x, z) for way in legs.values() for x, _, z in way]
    places = [place_position(frame, place_id) for place_id in (*frame.ports, *frame.anchors)]
    points += [(x, z) for x, _, z in places]
    for zone in frame.zones.values():
        half = (zone.bore_diameter_mm or 0) / 2
        points += [(x + a, z + b) for x, _, z in zone.path_mm for a in (-half, half) for b in (-half, half)]
    return [*points, *pivots(frame), (0.0, -20.0)]


def _anchor_marks(scene: _Scene) -> list[str]:
    used = _ends(scene)
    parts = []
    for anchor in sorted(scene.frame.anchors.values(), key=lambda anchor: anchor.id in used):
        at, is_used = scene.seen(anchor.position_mm), anchor.id in used
        side, colour = (2.6, INK) if is_used else (1.7, SOFT_INK)
        corner = (at[0] - side / 2, at[1] - side / 2)
        parts.append(box(corner, width_mm=side, height_mm=side, fill=colour, stroke=PAPER))
    way = _cut_leg(scene)
    return [*parts, cut_mark(way)] if way else parts


def _ends(scene: _Scene) -> tuple[str, ...]:
    """Ids of the two anchors of the job; none for a bare frame."""
    places = places_in_order(scene.plan, scene.frame)
    if places:
        return (places[0], places[-1])
    return tuple(one for one in (scene.plan.from_anchor_id, scene.plan.to_anchor_id) if one)


def _port_marks(scene: _Scene) -> list[str]:
    parts = []
    for port in scene.frame.ports.values():
        mark = _port_mark(scene, port.id, scene.seen(port.position_mm))
        parts.append(group(mark, role="port", name=port.id, title=f"{port.id}: {port.label}"))
    run_at = _deciding_run_place(scene)
    return [*parts, circle(run_at, diameter_mm=5, stroke=WARN, width_mm=0.8)] if run_at else parts


def _port_mark(scene: _Scene, port_id: str, at: PaperPoint) -> list[str]:
    parts = [circle(at, diameter_mm=_mark_size_mm(scene, port_id), fill="transparent", stroke="none")]
    if port_id == scene.picked_port:
        parts.append(circle(at, diameter_mm=8.6, stroke=NEW_LINE, width_mm=0.9))
    if _stops_every_way(scene, port_id):
        return [*parts, outcome_mark(at, Outcome.NO_FIT, size_mm=4.4)]
    if _decides(scene, port_id):
        parts.append(circle(at, diameter_mm=6.6, stroke=WARN, width_mm=0.8, fill=PAPER))
    if port_id in scene.plan.route:
        number = str(scene.plan.route.index(port_id) + 1)
        return [*parts, badge(at, number, diameter_mm=4.6, fill=WARN if _decides(scene, port_id) else INK)]
    return [*parts, circle(at, diameter_mm=2.4, fill=PAPER, stroke=INK, width_mm=0.5)]


def _decides(scene: _Scene, port_id: str) -> bool:
    return scene.decider is not None and scene.decider.port_id == port_id


def _deciding_run_place(scene: _Scene) -> PaperPoint | None:
    """Middle of the run that decides, where no port does."""
    decider = scene.decider
    if decider is None or decider.port_id or decider.run_id not in scene.legs:
        return None
    return middle_of([scene.seen(point) for point in scene.legs[decider.run_id]], share=0.4)


def _stops_every_way(scene: _Scene, port_id: str) -> bool:
    return scene.plan.no_route is not None and port_id in scene.plan.no_route.ports


def _mark_size_mm(scene: _Scene, port_id: str) -> float:
    if port_id == scene.picked_port:
        return 9.8
    return 8.0 if _decides(scene, port_id) else 5.6


def _cut_leg(scene: _Scene) -> list[PaperPoint]:
    if scene.plan.cut_old_at is None or not scene.legs:
        return []
    ways = list(scene.legs.values())
    points = ways[0] if scene.plan.cut_old_at is JobEnd.FROM else tuple(reversed(ways[-1]))
    return [scene.seen(point) for point in points]


def _labels(scene: _Scene, *, paper: Area) -> list[str]:
    wanted = [*_port_labels(scene), *_anchor_labels(scene)]
    labels = [Label(words=words, point=at, height_mm=TYPE_MM, is_bold=colour != INK) for words, at, colour in wanted]
    ports, anchors = scene.frame.ports.values(), scene.frame.anchors.values()
    taken = [area_around(scene.seen(port.position_mm), size_mm=_mark_size_mm(scene, port.id)) for port in ports]
    taken += [area_around(scene.seen(anchor.position_mm), size_mm=4.6) for anchor in anchors]
    way = _cut_leg(scene)
    taken += [area_around(cut_place(way)[0], size_mm=4.4)] if way else []
    run_at = _deciding_run_place(scene)
    taken += [area_around(run_at, size_mm=6)] if run_at else []
    taken += [area_around(point, size_mm=4) for point in fixed_places(scene.frame, scene.view)]
    lines = [[scene.seen(point) for point in leg] for leg in scene.legs.values()] + edges(scene.frame, scene.view)
    avoid = [point for line in lines for point in _thick_set(line)]
    placed = place_labels(labels, paper=paper, taken=taken, avoid=avoid)
    return [_written(label, colour) for label, (_, _, colour) in zip(placed, wanted, strict=True)]


def _port_labels(scene: _Scene) -> list[tuple[str, PaperPoint, str]]:
    rows = []
    for port in scene.frame.ports.values():
        words, colour = port.id, INK
        if _decides(scene, port.id):
            words, colour = f"{port.id}: {_worst_words(scene)}", WARN
        if _stops_every_way(scene, port.id):
            words, colour = f"{port.id} stops every way", STOP
        rows.append((words, scene.seen(port.position_mm), colour))
    run_at = _deciding_run_place(scene)
    if run_at and scene.decider:
        rows.append((f"{scene.decider.run_id}: {_worst_words(scene)}", run_at, WARN))
    way = _cut_leg(scene)
    return [*rows, ("cut the old line", cut_place(way)[0], STOP)] if way else rows


def _worst_words(scene: _Scene) -> str:
    worst_mm = scene.decider.worst_clearance_mm if scene.decider else None
    return "not measured" if worst_mm is None else f"{worst_mm:.2f} mm at worst"


def _anchor_labels(scene: _Scene) -> list[tuple[str, PaperPoint, str]]:
    plan, used = scene.plan, _ends(scene)
    start = used[0 if plan.feed_from is JobEnd.FROM else -1] if used and plan.feed_from else ""
    at_point: dict[PaperPoint, list[str]] = {}
    for anchor in scene.frame.anchors.values():
        at_point.setdefault(scene.seen(anchor.position_mm), []).append(anchor.id)
    rows = []
    for at, ids in at_point.items():
        shown = [anchor_id for anchor_id in ids if anchor_id in used] or ids
        words = ", ".join(f"feed from {name}" if name == start else name for name in shown)
        rows.append((words, at, NEW_LINE if start in shown else INK))
    return rows


def _written(placed: PlacedLabel, colour: str) -> str:
    label, area = placed.label, placed.area
    near = (
        min(max(label.point[0], area.left_mm), area.right_mm),
        min(max(label.point[1], area.top_mm), area.bottom_mm),
    )
    gap_mm = abs(near[0] - label.point[0]) + abs(near[1] - label.point[1])
    leader = polyline([label.point, near], stroke=SOFT_INK, width_mm=0.18) if gap_mm > 6.5 else ""
    return leader + text(placed.base, label.words, height_mm=label.height_mm, fill=colour, is_bold=label.is_bold)


def _thick_set(way: Sequence[PaperPoint]) -> list[PaperPoint]:
    points = []
    for a, b in pairwise(way):
        count = max(1, int((abs(b[0] - a[0]) + abs(b[1] - a[1])) / 1.5))
        points += [(a[0] + (b[0] - a[0]) * k / count, a[1] + (b[1] - a[1]) * k / count) for k in range(count + 1)]
    return points


def _head(plan: RoutingPlan | None, frame: Frame, *, width_mm: float) -> tuple[list[str], float]:
    if plan is None:
        parts = [text((MARGIN_MM, 7.3), frame.name, height_mm=3.8, is_bold=True)]
    else:
        words = OUTCOME_WORDS[plan.outcome] if plan.route else "no way through"
        parts = [
            outcome_mark((MARGIN_MM + 2, 6), plan.outcome, size_mm=4.2),
            text((MARGIN_MM + 6, 7.3), words, height_mm=3.8, fill=OUTCOME_COLOUR[plan.outcome], is_bold=True),
        ]
    y = 12.8
    for row in wrapped("Seen from the right side; forward is to the right", height_mm=2.8, room_mm=width_mm - 12):
        parts.append(text((MARGIN_MM, y), row, height_mm=2.8, fill=SOFT_INK))
        y += 3.6
    return parts, y - 2


def _legend(scene: _Scene, *, top_mm: float) -> tuple[list[str], float]:
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
