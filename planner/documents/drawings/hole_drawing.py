"""One hole enlarged, on paper at true size too, with all that passes it where it was proven to lie, its gaps told."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import cos, pi, sin

from planner.documents.drawings.drawing_marks import OUTCOME_COLOUR, badge, dimension_line, outcome_mark
from planner.documents.drawings.hole_outline import Flat, Gap, SeenRims, find_gaps, find_rims
from planner.documents.drawings.label_places import Area, Label, area_around, place_labels, text_width_mm, wrapped
from planner.documents.drawings.svg import (
    FAINT,
    INK,
    METAL,
    NEW_LINE,
    OTHER_LINE,
    PAPER,
    SOFT_INK,
    PaperPoint,
    PaperView,
    Picture,
    box,
    circle,
    group,
    polyline,
    sheet,
    text,
)
from planner.documents.words.sizes_in_words import give_or_take, millimetres
from planner.parts import Opening, is_gauged
from planner.verdicts import Check, InsertPlace, Outcome, Room, State, ThingKind

MARGIN_MM = 5.0
TYPE_MM = 2.9
ROW_MM = 4.2
HEAD_MM, HEAD_ROW_MM = 3.8, 5.0
ENLARGEMENTS = (20, 15, 10, 8, 6, 5, 4, 3, 2.5, 2, 1.5, 1, 0.5, 0.2, 0.1)
MOVING_WORDS = {
    ThingKind.JOINT: "joint",
    ThingKind.LINE: "new line",
    ThingKind.FITTING: "fitting on the leading end",
}
"""What to call the thing that is asked about; one of another kind goes by its name."""
TRUE_SIZE = "True size 1:1 printed at 100 %"
INSERT_WORDS = {InsertPlace.NONE: "", InsertPlace.IN: "insert in place", InsertPlace.OUT: "insert out"}
STATE_WORDS = {State.DRAWING: "while drawing the line through", State.RIDING: "while riding"}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Thing:
    """A round thing in the hole: its letter, what it is, where it lies."""

    letter: str
    words: str
    centre: Flat | None
    diameter_mm: float


def draw_hole(
    check: Check,
    *,
    label: str = "",
    names: Mapping[str, str] | None = None,
    width_mm: float = 90.0,
    is_on_paper: bool = True,
) -> Picture:
    """A hole as the line sees it: both rims, the insert where it is in, and each round thing at its proven place.

    Drawn enlarged, with the gaps dimensioned; on paper at true size too, to lay the part on.

    check : of a hole, with its placement where there is one
    label : the hole's name for people; "" to call it by its id
    names : what to call the things that share the hole, by id
    width_mm : of the paper; the height follows
    is_on_paper : whether it keeps its size; a screen shows it at any, so that no scale told would be true

    Raises ValueError for a check that is not of a hole.
    """
    hole, name = check.room, label or check.port_id or "hole"
    if hole is None:
        raise ValueError(f"the check {check.rule} is of no hole")
    things = _things(check, names or {})
    parts, y = _head(check, hole, name, width_mm=width_mm)
    if hole.opening is None:
        parts += wrapped_rows("Nobody has measured this hole yet.", y + 3, width_mm=width_mm)
        return sheet(parts, width_mm=width_mm, height_mm=y + 10, title=f"{name}: not measured")
    rims = find_rims(hole, hole.opening)
    large, y = _enlarged(rims, things, check, top_mm=y, width_mm=width_mm, tells_scale=is_on_paper)
    parts += large
    if is_on_paper:
        small, y = _true_size(rims, things, top_mm=y + 2, width_mm=width_mm)
        parts += small
    facts, y = _facts(check, hole, hole.opening, things, top_mm=y + 5, width_mm=width_mm)
    title = f"{name}: the hole as the line sees it"
    return sheet([*parts, *facts], width_mm=width_mm, height_mm=y, title=title)


def wrapped_rows(words: str, top_mm: float, *, width_mm: float, fill: str = INK) -> list[str]:
    """Rows of words from the left margin.

    words : any text
    top_mm : base line of the first row
    """
    rows = wrapped(words, height_mm=TYPE_MM, room_mm=width_mm - 2 * MARGIN_MM)
    return [text((MARGIN_MM, top_mm + k * ROW_MM), row, height_mm=TYPE_MM, fill=fill) for k, row in enumerate(rows)]


def opening_words(opening: Opening) -> str:
    """An opening's shape and sizes as one reads them off the calipers."""
    return opening.words if is_gauged(opening) else f"{opening.words}, ±{opening.tolerance_mm:g} mm"


def _things(check: Check, names: Mapping[str, str]) -> list[_Thing]:
    asked = check.thing
    if asked is None:
        return []
    moving = MOVING_WORDS.get(asked.kind) or names.get(asked.id, asked.id)
    words = [moving, *(names.get(thing_id, thing_id) for thing_id in check.with_ids)]
    if check.placement is None:
        return [_Thing(letter="A", words=moving, centre=None, diameter_mm=asked.diameter_mm)]
    rows = zip(check.placement.centres_mm, check.placement.diameters_mm, strict=True)
    things = []
    for number, (centre, diameter_mm) in enumerate(rows):
        called = words[number] if number < len(words) else "line"
        things.append(_Thing(letter=chr(65 + number), words=called, centre=centre, diameter_mm=diameter_mm))
    return things


def _head(check: Check, hole: Room, name: str, *, width_mm: float) -> tuple[list[str], float]:
    parts, y = outcome_head(check.outcome, name, width_mm=width_mm)
    moment = STATE_WORDS[check.state] if check.state else ""
    told = "; ".join(part for part in (moment, INSERT_WORDS[hole.insert]) if part)
    rows = wrapped_rows(told, y, width_mm=width_mm, fill=SOFT_INK)
    return [*parts, *rows], y + len(rows) * ROW_MM


def outcome_head(outcome: Outcome, name: str, *, width_mm: float) -> tuple[list[str], float]:
    """The mark of an outcome with a name beside it, and the base line of the row below [mm].

    name : in as many rows as it takes
    width_mm : of the paper
    """
    rows = wrapped(name, height_mm=HEAD_MM, room_mm=width_mm - 2 * MARGIN_MM - 6)
    parts = [outcome_mark((MARGIN_MM + 2, 6), outcome, size_mm=4.2)]
    for n, row in enumerate(rows):
        at = (MARGIN_MM + 6, 7.3 + n * HEAD_ROW_MM)
        parts.append(text(at, row, height_mm=HEAD_MM, fill=OUTCOME_COLOUR[outcome], is_bold=True))
    return parts, 13 + (len(rows) - 1) * HEAD_ROW_MM


def _extent(rims: SeenRims, things: Sequence[_Thing]) -> tuple[float, float, float, float]:
    xs = [x for x, _ in (*rims.near, *rims.far)]
    ys = [y for _, y in (*rims.near, *rims.far)]
    for thing in things:
        if thing.centre:
            xs += [thing.centre[0] - thing.diameter_mm / 2, thing.centre[0] + thing.diameter_mm / 2]
            ys += [thing.centre[1] - thing.diameter_mm / 2, thing.centre[1] + thing.diameter_mm / 2]
    return min(xs), max(xs), min(ys), max(ys)


def _enlarged(
    rims: SeenRims, things: Sequence[_Thing], check: Check, *, top_mm: float, width_mm: float, tells_scale: bool
) -> tuple[list[str], float]:
    left, right, low, high = _extent(rims, things)
    room_mm = width_mm - 2 * MARGIN_MM - 24
    scale = next(
        (s for s in ENLARGEMENTS if (right - left) * s <= room_mm and (high - low) * s <= room_mm * 0.85),
        ENLARGEMENTS[-1],
    )
    height_mm = (high - low) * scale + 24
    origin = ((width_mm - (right - left) * scale) / 2, top_mm + 12)
    view = PaperView(left_mm=left, top_mm=high, scale_ratio=scale, origin_mm=origin)
    area = Area(left_mm=MARGIN_MM, top_mm=top_mm, right_mm=width_mm - MARGIN_MM, bottom_mm=top_mm + height_mm)
    plate = box((area.left_mm, area.top_mm), width_mm=width_mm - 2 * MARGIN_MM, height_mm=height_mm, fill=METAL)
    parts = [plate, *_hole(rims, view), *_discs(things, view)]
    parts += [badge(view.at(*thing.centre), thing.letter, diameter_mm=4.4) for thing in things if thing.centre]
    gaps = find_gaps(check.placement, rims.seen) if check.placement and rims.seen else ()
    parts += _dimensions(gaps, things, view, area)
    if not tells_scale:
        return parts, area.bottom_mm + 1
    told = f"Enlarged {scale:g}:1"
    parts.append(text((area.right_mm, area.bottom_mm + 4), told, height_mm=TYPE_MM, anchor="end", fill=SOFT_INK))
    return parts, area.bottom_mm + 5


def _hole(rims: SeenRims, view: PaperView) -> list[str]:
    near, far = ([view.at(*point) for point in rim] for rim in (rims.near, rims.far))
    parts = [polyline(rim, fill=FAINT, stroke="none", is_closed=True) for rim in (near, far)]
    if rims.seen:
        parts.append(polyline([view.at(*p) for p in rims.seen], fill=PAPER, stroke="none", is_closed=True))
    pen_mm = 0.35 if view.scale_ratio > 1 else 0.2
    if rims.far != rims.near:
        parts.append(polyline(far, width_mm=pen_mm, stroke=SOFT_INK, is_closed=True, dash_mm=(1.2, 0.8)))
    return [*parts, polyline(near, width_mm=pen_mm, is_closed=True)]


def _discs(things: Sequence[_Thing], view: PaperView) -> list[str]:
    parts = []
    for number, thing in enumerate(things):
        if thing.centre is None:
            continue
        colour = OTHER_LINE if number else NEW_LINE
        diameter_mm = thing.diameter_mm * view.scale_ratio
        pen_mm = 0.35 if view.scale_ratio > 1 else 0.2
        disc = circle(view.at(*thing.centre), diameter_mm=diameter_mm, fill=colour, stroke="none", opacity=0.22)
        edge = circle(view.at(*thing.centre), diameter_mm=diameter_mm, stroke=colour, width_mm=pen_mm)
        parts.append(group([disc, edge], role="thing", name=thing.letter, title=thing.words))
    return parts


def _dimensions(gaps: Sequence[Gap], things: Sequence[_Thing], view: PaperView, area: Area) -> list[str]:
    parts, labels = [], []
    for gap in gaps:
        start, end = view.at(*gap.start), view.at(*gap.end)
        colour = INK if gap.size_mm >= 0 else OUTCOME_COLOUR[Outcome.NO_FIT]
        parts.append(dimension_line(start, end, stroke=colour))
        middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
        labels.append(Label(words=f"{gap.size_mm:.2f} mm", point=middle, height_mm=TYPE_MM))
    taken = [area_around(view.at(*thing.centre), size_mm=5) for thing in things if thing.centre]
    taken += [area_around(label.point, size_mm=6.5) for label in labels]
    placed = place_labels(labels, paper=area, taken=taken, avoid=_edge_points(things, view))
    for one in placed:
        room = one.area
        wide_mm, tall_mm = room.right_mm - room.left_mm, room.bottom_mm - room.top_mm
        corner = (room.left_mm, room.top_mm)
        behind = box(corner, width_mm=wide_mm, height_mm=tall_mm, fill=PAPER, corner_radius_mm=0.6)
        near = _nearest_point(room, one.label.point)
        parts.append(polyline([one.label.point, near], stroke=SOFT_INK, width_mm=0.15))
        middle = ((room.left_mm + room.right_mm) / 2, one.base[1])
        parts += [behind, text(middle, one.label.words, height_mm=TYPE_MM, anchor="middle")]
    return parts


def _edge_points(things: Sequence[_Thing], view: PaperView) -> list[PaperPoint]:
    """Points all over the things, so that figures stand beside them rather than on them."""
    points = []
    for thing in things:
        if thing.centre is None:
            continue
        x, y = thing.centre
        for share in (1.0, 0.6, 0.3):
            for step in range(24):
                angle, reach_mm = 2 * pi * step / 24, share * thing.diameter_mm / 2
                points.append(view.at(x + reach_mm * cos(angle), y + reach_mm * sin(angle)))
    return points


def _nearest_point(area: Area, point: PaperPoint) -> PaperPoint:
    return (
        min(max(point[0], area.left_mm), area.right_mm),
        min(max(point[1], area.top_mm), area.bottom_mm),
    )


def _true_size(rims: SeenRims, things: Sequence[_Thing], *, top_mm: float, width_mm: float) -> tuple[list[str], float]:
    left, right, low, high = _extent(rims, things)
    border_mm = 2.0
    size_x, size_y = right - left + 2 * border_mm, high - low + 2 * border_mm
    if size_x > width_mm - 2 * MARGIN_MM:
        return wrapped_rows("Too wide for this paper at true size.", top_mm + 4, width_mm=width_mm), top_mm + 6
    corner = (MARGIN_MM, top_mm + 3)
    view = PaperView(
        left_mm=left, top_mm=high, scale_ratio=1.0, origin_mm=(corner[0] + border_mm, corner[1] + border_mm)
    )
    parts = [box(corner, width_mm=size_x, height_mm=size_y, fill=METAL), *_hole(rims, view), *_discs(things, view)]
    beside = (MARGIN_MM + size_x + 2, corner[1] + size_y / 2 + 1)
    below = (MARGIN_MM, corner[1] + size_y + 4)
    fits_beside = beside[0] + text_width_mm(TRUE_SIZE, height_mm=TYPE_MM) < width_mm - 2
    parts.append(text(beside if fits_beside else below, TRUE_SIZE, height_mm=TYPE_MM, fill=SOFT_INK))
    return parts, corner[1] + size_y + (0 if fits_beside else 4)


def _facts(
    check: Check, hole: Room, opening: Opening, things: Sequence[_Thing], *, top_mm: float, width_mm: float
) -> tuple[list[str], float]:
    rows = [f"{thing.letter}: {thing.words}, {thing.diameter_mm:.2f} mm" for thing in things]
    what = "Insert" if hole.insert is InsertPlace.IN else "Hole"
    rows.append(f"{what}: {opening_words(opening)}")
    if hole.tilt_deg:
        wall = f"wall {give_or_take(hole.wall_thickness_mm, half=hole.wall_tolerance_mm)} mm"
        leans = give_or_take(hole.tilt_deg, half=hole.tilt_tolerance_deg)
        rows.append(f"The line leans {leans}° through a {wall}; dashed: the inner rim")
    if check.clearance_mm is not None:
        rows.append(f"Clearance {check.clearance_mm:.2f} mm" + _worst_words(check))
    if check.placement is None:
        rows.append("No way to lie side by side is proven, so nothing is drawn in the hole.")
    parts, y = [], top_mm
    for row in rows:
        told = wrapped_rows(row, y, width_mm=width_mm)
        parts += told
        y += len(told) * ROW_MM
    return parts, y + 1


def _worst_words(check: Check) -> str:
    return "" if check.worst_clearance_mm is None else f", {millimetres(check.worst_clearance_mm)} at worst"
