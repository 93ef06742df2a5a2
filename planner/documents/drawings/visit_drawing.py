"""All lines of a visit on their frame, seen from the side: told apart by stroke and letter, not by colour alone."""

from collections.abc import Sequence

from planner.documents.drawings.beside_lines import moved_aside, steps_aside_mm
from planner.documents.drawings.drawing_marks import OUTCOME_COLOUR, outcome_mark
from planner.documents.drawings.frame_shapes import fixed_points, tubes
from planner.documents.drawings.label_places import Area, Label, area_around, place_labels, text_width_mm, wrapped
from planner.documents.drawings.side_view import MARGIN_MM, VIEW_WORDS, place_position, seen_points, view_on_paper
from planner.documents.drawings.svg import (
    INK,
    PAPER,
    SOFT_INK,
    STOP,
    WARN,
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
from planner.documents.drawings.visit_key import TYPE_MM, hole_tag, hole_tags, reasons_at, visit_key
from planner.documents.drawings.visit_lines import DrawnLine, find_drawn_lines
from planner.documents.drawings.visit_map import visit_map
from planner.documents.drawings.visit_marks import Ways, line_marks, tag_area, tag_places
from planner.documents.words.outcome_words import OUTCOME_WORDS
from planner.documents.words.visit_words import place_name
from planner.parts import OUTSIDE, Frame, Visit
from planner.verdicts import Outcome
from planner.whole_bike.visit_plan import VisitPlan

ROOMY_MM = 120.0
ABOVE_TAG_MM = 4.8
STEP_MM, NARROW_STEP_MM, WIDEST_MM = 1.9, 1.6, 11.0
INSIDE_MM, OUTSIDE_MM = 0.95, 0.5


def draw_visit(plan: VisitPlan, visit: Visit, *, width_mm: float = 180.0, is_bare: bool = False) -> Picture:
    """The side view of a visit: every line with its letter and stroke, the holes with their sides, and a key.

    The view is from the rider's right. L and R tell on which side of the bicycle a hole lies. Holes that force the
    order, or forbid one, are marked with the lines they concern. Lines that are only taken out are drawn where the job
    says that they lie. Where places were not told, the lines and their holes stand in a table instead.

    plan : an order, or the proof that there is none
    visit : that was planned
    width_mm : of the paper; the height follows
    is_bare : without head, for a screen that tells it beside the picture
    """
    lines = find_drawn_lines(plan, visit)
    title = f"{plan.visit_title}, all lines"
    head, head_mm = ([], 2.0) if is_bare else _head(plan, width_mm)
    tags = hole_tags(lines, visit.frame)
    if not _is_placed(lines, visit.frame):
        drawn, bottom_mm = visit_map(lines, tags, top_mm=head_mm + 4)
    else:
        drawn, bottom_mm = _side_view(plan, visit, lines, tags, top_mm=head_mm, width_mm=width_mm)
    key, height_mm = visit_key(plan, visit, lines, tags, top_mm=bottom_mm + 5, width_mm=width_mm)
    return sheet([*head, *drawn, *key], width_mm=width_mm, height_mm=height_mm, title=title)


def _is_placed(lines: Sequence[DrawnLine], frame: Frame) -> bool:
    """Whether every place of a line was told, and every hole where there is no line to be drawn."""
    places = [place for line in lines for place in line.places] or list(frame.ports)
    return all(place_position(frame, place) is not None for place in places)


def _head(plan: VisitPlan, width_mm: float) -> tuple[list[str], float]:
    words = OUTCOME_WORDS[plan.outcome] if plan.order else "no order found"
    colour = OUTCOME_COLOUR[plan.outcome]
    parts = [
        outcome_mark((MARGIN_MM + 2, 6), plan.outcome, size_mm=4.2),
        text((MARGIN_MM + 6, 7.3), f"All lines: {words}", height_mm=3.8, fill=colour, is_bold=True),
    ]
    y = 12.4
    for row in wrapped(VIEW_WORDS, height_mm=2.8, room_mm=width_mm - 2 * MARGIN_MM):
        parts.append(text((MARGIN_MM, y), row, height_mm=2.8, fill=SOFT_INK))
        y += 3.6
    return parts, y - 2


def _side_view(
    plan: VisitPlan,
    visit: Visit,
    lines: Sequence[DrawnLine],
    tags: dict[str, str],
    *,
    top_mm: float,
    width_mm: float,
) -> tuple[list[str], float]:
    frame = visit.frame
    points = seen_points(frame, [points for line in lines for _, points in line.legs])
    view = view_on_paper(points, width_mm=width_mm, top_mm=top_mm + 7)
    bottom_mm = view.at(0, min(height for _, height in points))[1] + MARGIN_MM
    paper = Area(left_mm=1.5, top_mm=top_mm + 0.5, right_mm=width_mm - 1.5, bottom_mm=bottom_mm + 2)
    strokes = _ways(lines, view, step_mm=STEP_MM if width_mm > ROOMY_MM else NARROW_STEP_MM)
    at_holes = tag_places(frame, tags, view)
    reasons = _reasons(plan, visit, view)
    taken = [tag_area(at, tags[port_id]) for port_id, at in at_holes.items()]
    taken += [area_around(at, size_mm=6) for _, at, _ in reasons]
    marks, taken = line_marks(lines, strokes, taken, is_roomy=width_mm > ROOMY_MM)
    drawn = [tubes(frame, view), fixed_points(frame, view)]
    drawn += [_stroke(line, run_zone, way) for line, ways in zip(lines, strokes, strict=True) for run_zone, way in ways]
    drawn += _anchors(lines, frame, view)
    for port_id, at in at_holes.items():
        title = f"{tags[port_id]}: {place_name(port_id, plan)}"
        drawn.append(group([hole_tag(at, tags[port_id])], role="port", name=port_id, title=title))
    drawn += [mark for _, at, mark in reasons if mark]
    words = _labels(
        lines,
        frame,
        view,
        [(said, at) for said, at, _ in reasons],
        reason_colour=WARN if plan.order else STOP,
        paper=paper,
        taken=taken,
    )
    return [*drawn, *marks, *words], bottom_mm


def _ways(lines: Sequence[DrawnLine], view: PaperView, *, step_mm: float) -> list[Ways]:
    """Where each line lies on the paper, beside those that take the same way."""
    aside = steps_aside_mm(len(lines), step_mm=step_mm, most_mm=WIDEST_MM)
    found: list[Ways] = []
    for line, by_mm in zip(lines, aside, strict=True):
        legs = [[view.at(x, z) for x, _, z in points] for _, points in line.legs]
        chain = moved_aside([point for leg in legs for point in leg], by_mm=by_mm)
        ways: Ways = []
        start, last = 0, None
        for (run, _), leg in zip(line.legs, legs, strict=True):
            first = start - 1 if leg[0] == last else start
            start = first + sum(not n or point != leg[n - 1] for n, point in enumerate(leg))
            ways.append((run.zone_id != OUTSIDE, chain[first:start]))
            last = leg[-1]
        found.append(ways)
    return found


def _stroke(line: DrawnLine, is_inside: bool, way: list[PaperPoint]) -> str:
    pen_mm = INSIDE_MM if is_inside else OUTSIDE_MM
    look = line.strokes
    parts = [polyline(way, stroke=PAPER, width_mm=pen_mm + 0.5)]
    if look.is_double:
        parts.append(polyline(way, stroke=look.colour, width_mm=pen_mm + 0.4, dash_mm=look.dash_mm))
        parts.append(polyline(way, stroke=PAPER, width_mm=0.45 * pen_mm + 0.1, dash_mm=look.dash_mm))
    else:
        parts.append(polyline(way, stroke=look.colour, width_mm=pen_mm, dash_mm=look.dash_mm))
    where = "inside the frame" if is_inside else "outside"
    return group(parts, role="leg", name=line.line_id, title=f"{line.letter} {line.line_id}, {where}")


def _reasons(plan: VisitPlan, visit: Visit, view: PaperView) -> list[tuple[str, PaperPoint, str]]:
    """What forces the order, or forbids one: words, where, and a mark."""
    found = []
    for place_id, words in reasons_at(plan, visit).items():
        at = _middle_of_place(visit.frame, place_id, view)
        if at is None:
            continue
        if plan.order:
            mark = circle(at, diameter_mm=7.2, stroke=WARN, width_mm=0.7)
        else:
            at = (at[0], at[1] - ABOVE_TAG_MM) if place_id in visit.frame.ports else at
            mark = outcome_mark(at, Outcome.NO_FIT, size_mm=4.6)
        found.append((words, at, mark))
    return found


def _middle_of_place(frame: Frame, place_id: str, view: PaperView) -> PaperPoint | None:
    ends = [place_id] if place_id in frame.ports else frame.runs[place_id].between
    places = [place_position(frame, end) for end in ends]
    seen = [view.at(place[0], place[2]) for place in places if place is not None]
    if len(seen) < len(places):
        return None
    return (sum(x for x, _ in seen) / len(seen), sum(y for _, y in seen) / len(seen))


def _anchors(lines: Sequence[DrawnLine], frame: Frame, view: PaperView) -> list[str]:
    used = dict.fromkeys(place for line in lines for place in line.places if place in frame.anchors)
    parts = []
    for anchor_id in used:
        place = place_position(frame, anchor_id)
        if place is not None:
            x, y = view.at(place[0], place[2])
            parts.append(box((x - 1.3, y - 1.3), width_mm=2.6, height_mm=2.6, fill=INK, stroke=PAPER))
    return parts


def _labels(
    lines: Sequence[DrawnLine],
    frame: Frame,
    view: PaperView,
    reasons: Sequence[tuple[str, PaperPoint]],
    *,
    reason_colour: str,
    paper: Area,
    taken: Sequence[Area],
) -> list[str]:
    """The names of the ends and what the places say about the order, none upon another."""
    used = dict.fromkeys(place for line in lines for place in line.places if place in frame.anchors)
    rows = [(words, at, reason_colour) for words, at in reasons]
    by_point: dict[PaperPoint, list[str]] = {}
    for anchor_id in used:
        place = place_position(frame, anchor_id)
        if place is not None:
            by_point.setdefault(view.at(place[0], place[2]), []).append(frame.anchors[anchor_id].label or anchor_id)
    rows += [(", ".join(names), at, INK) for at, names in by_point.items()]
    labels = [Label(words=words, point=at, height_mm=TYPE_MM, is_bold=colour != INK) for words, at, colour in rows]
    parts = []
    for placed, (_, point, colour) in zip(place_labels(labels, paper=paper, taken=taken), rows, strict=True):
        area = placed.area
        wide_mm = min(text_width_mm(placed.label.words, height_mm=TYPE_MM), area.right_mm - area.left_mm)
        middle = ((area.left_mm + area.right_mm) / 2, placed.base[1])
        near = (min(max(point[0], area.left_mm), area.right_mm), min(max(point[1], area.top_mm), area.bottom_mm))
        if abs(near[0] - point[0]) + abs(near[1] - point[1]) > 4:
            parts.append(polyline([point, near], stroke=SOFT_INK, width_mm=0.18))
        corner = (middle[0] - wide_mm / 2, area.top_mm)
        behind = box(corner, width_mm=wide_mm, height_mm=area.bottom_mm - area.top_mm, fill=PAPER, opacity=0.8)
        words = text(middle, placed.label.words, height_mm=TYPE_MM, anchor="middle", fill=colour)
        parts.append(behind + words)
    return parts
