"""The words of a side view: what each port and anchor is called, what decides, where the old line is cut."""

from collections.abc import Sequence
from itertools import pairwise
from math import hypot
from typing import Any

from planner.documents.drawings.frame_shapes import edges, fixed_places
from planner.documents.drawings.label_places import (
    ROW_RATIO,
    Area,
    Label,
    PlacedLabel,
    area_around,
    place_labels,
    text_width_mm,
)
from planner.documents.drawings.route_scene import (
    ROOMY_MM,
    RouteScene,
    cut_leg,
    decides,
    deciding_run_place,
    deciding_words,
    ends_of,
    mark_size_mm,
    numbered_ports,
    seen_places,
    stops_every_way,
)
from planner.documents.drawings.side_view import cut_place
from planner.documents.drawings.svg import INK, NEW_LINE, PAPER, SOFT_INK, STOP, WARN, PaperPoint, box, polyline, text
from planner.parts import JobEnd

TYPE_MM = 3.0
MARK_MM, LARGE_MARK_MM = 4.6, 7.4
"""How wide the mark of a place is on the paper, and that of one that stands out."""

MOST_OF_WIDTH = 0.8
"""A hole's name takes no more of the paper with what is told of it."""


def route_labels(scene: RouteScene, *, paper: Area) -> list[str]:
    """The words of a side view, none upon another.

    scene : what is drawn
    paper : what the words must stay within
    """
    wanted = sorted([*_anchor_labels(scene), *_port_labels(scene)], key=lambda row: row[2] == INK)
    labels = [Label(words=words, point=at, height_mm=TYPE_MM, is_bold=colour != INK) for words, at, colour in wanted]
    ports, anchors = scene.frame.ports.values(), scene.frame.anchors.values()
    taken = [area_around(at, size_mm=mark_size_mm(scene, port.id)) for port, at in seen_places(scene, ports)]
    taken += [area_around(at, size_mm=4.6) for _, at in seen_places(scene, anchors)]
    way = cut_leg(scene)
    taken += [area_around(cut_place(way)[0], size_mm=4.4)] if way else []
    run_at = deciding_run_place(scene)
    taken += [area_around(run_at, size_mm=6)] if run_at else []
    taken += [area_around(point, size_mm=4) for point in fixed_places(scene.frame, scene.view)]
    lines = [[scene.seen(point) for point in leg] for leg in scene.legs.values()] + edges(scene.frame, scene.view)
    avoid = [point for line in lines for point in _thick_set(line)]
    placed = place_labels(labels, paper=paper, taken=taken, avoid=avoid)
    return [_written(label, colour) for label, (_, _, colour) in zip(placed, wanted, strict=True)]


def _called(label: str, what: str, scene: RouteScene) -> str:
    """A place by its label with what is told of it: in two rows on narrow paper, and where one has no room for them.

    Of a label too long for a row of its own as many words stand there as there is room for.
    """
    told, room_mm = label.split(), MOST_OF_WIDTH * scene.width_mm
    is_long = text_width_mm(f"{' '.join(told)}{what}", height_mm=TYPE_MM) > room_mm
    if what and (is_long or scene.width_mm < ROOMY_MM):
        return f"{_called(label, '', scene)}{what.replace(' ', chr(10), 1)}"
    for count in range(len(told), 0, -1):
        rest = "" if count == len(told) else "…"
        words = f"{' '.join(told[:count]).rstrip(',')}{rest}{what}"
        if text_width_mm(words, height_mm=TYPE_MM) <= room_mm:
            return words
    return label


def _port_labels(scene: RouteScene) -> list[tuple[str, PaperPoint, str]]:
    rows = []
    is_crowded, numbered = scene.width_mm < ROOMY_MM, numbered_ports(scene)
    for port, at in seen_places(scene, scene.frame.ports.values()):
        label = port.label or port.id
        words, colour = _called(label, "", scene), INK
        if port.id in numbered:
            words = str(numbered.index(port.id) + 1)
        if decides(scene, port.id):
            words, colour = _called(label, f": {deciding_words(scene)}", scene), WARN
        if stops_every_way(scene, port.id):
            words, colour = _called(label, " stops every way", scene), STOP
        if colour != INK or not is_crowded or not scene.plan.route:
            rows.append((words, at, colour))
    run_at = deciding_run_place(scene)
    if run_at and scene.decider:
        run_id = scene.decider.run_id or ""
        label = scene.frame.runs[run_id].label or run_id
        rows.append((_called(label, f": {deciding_words(scene)}", scene), run_at, WARN))
    way = cut_leg(scene)
    return [*rows, ("cut the old line", cut_place(way)[0], STOP)] if way else rows


def _anchor_labels(scene: RouteScene) -> list[tuple[str, PaperPoint, str]]:
    plan, used = scene.plan, ends_of(scene)
    start = used[0 if plan.feed_from is JobEnd.FROM else -1] if used and plan.feed_from and plan.route else ""
    called = {key: anchor.label or key for key, anchor in scene.frame.anchors.items()}
    at_point: dict[PaperPoint, list[str]] = {}
    for anchor, at in seen_places(scene, scene.frame.anchors.values()):
        at_point.setdefault(at, []).append(anchor.id)
    rows = []
    for at, ids in at_point.items():
        shown = [anchor_id for anchor_id in ids if anchor_id in used] or ids
        words = ", ".join(f"feed from {called[key]}" if key == start else called[key] for key in shown)
        rows.append((words, at, NEW_LINE if start in shown else INK))
    return rows


def _written(placed: PlacedLabel, colour: str) -> str:
    label, area = placed.label, placed.area
    near = (
        min(max(label.point[0], area.left_mm), area.right_mm),
        min(max(label.point[1], area.top_mm), area.bottom_mm),
    )
    gap_mm = abs(near[0] - label.point[0]) + abs(near[1] - label.point[1])
    leader = polyline([_off_the_mark(label, near), near], stroke=SOFT_INK, width_mm=0.18) if gap_mm > 6.5 else ""
    size = (area.right_mm - area.left_mm, area.bottom_mm - area.top_mm)
    behind = box((area.left_mm, area.top_mm), width_mm=size[0], height_mm=size[1], fill=PAPER, opacity=0.7)
    at, anchor = _end_towards_point(placed)
    above_mm = label.height_mm * ROW_RATIO
    look: dict[str, Any] = {"height_mm": label.height_mm, "anchor": anchor, "fill": colour, "is_bold": label.is_bold}
    rows = [text((at[0], at[1] - n * above_mm), row, **look) for n, row in enumerate(reversed(label.rows))]
    return "".join([leader, behind, *reversed(rows)])


def _off_the_mark(label: Label, near: PaperPoint) -> PaperPoint:
    """Where a leader towards its words leaves the mark of the place, whose number it would cross."""
    along = (near[0] - label.point[0], near[1] - label.point[1])
    share = (LARGE_MARK_MM if label.is_bold else MARK_MM) / 2 / hypot(*along)
    return (label.point[0] + share * along[0], label.point[1] + share * along[1])


def _end_towards_point(placed: PlacedLabel) -> tuple[PaperPoint, str]:
    """Words touch the side of their paper that looks at their point; the paper is rather wider than they are."""
    area, (base_left_mm, base_mm) = placed.area, placed.base
    if area.right_mm <= placed.label.point[0]:
        return (area.right_mm, base_mm), "end"
    if area.left_mm >= placed.label.point[0]:
        return (base_left_mm, base_mm), "start"
    return ((area.left_mm + area.right_mm) / 2, base_mm), "middle"


def _thick_set(way: Sequence[PaperPoint]) -> list[PaperPoint]:
    points = []
    for a, b in pairwise(way):
        count = max(1, int((abs(b[0] - a[0]) + abs(b[1] - a[1])) / 1.5))
        points += [(a[0] + (b[0] - a[0]) * k / count, a[1] + (b[1] - a[1]) * k / count) for k in range(count + 1)]
    return points
