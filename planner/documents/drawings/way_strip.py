"""What a way has to spare place by place: at each the thing that passes, drawn in the room it has."""

from collections.abc import Sequence
from math import cos, pi, sin

from planner.documents.drawings.drawing_marks import badge, outcome_mark
from planner.documents.drawings.label_places import wrapped
from planner.documents.drawings.svg import (
    FAINT,
    INK,
    NEW_LINE,
    SOFT_INK,
    TUBE,
    PaperPoint,
    Picture,
    box,
    circle,
    group,
    polyline,
    sheet,
    text,
)
from planner.documents.words.sizes_in_words import NOT_MEASURED, SIZE_WORDS
from planner.documents.words.way_table_words import cell_words, place_tag, place_words, row_words
from planner.plan.routing_plan import RoutingPlan
from planner.plan.way_table import TriedWay, WayPlace, WayTable
from planner.rules import Measure
from planner.verdicts import Check, Outcome

MARGIN_MM = 4.0
TYPE_MM, SMALL_MM, FIGURE_MM = 2.9, 2.7, 3.2
ROW_MM = 3.8
NARROWEST_MM = 25.0
LARGEST_MM = 17.0
"""The largest room is drawn so wide; all are to one scale."""
WIDE_RATIO = 3.0
"""A room so many times what passes it is only begun: drawn to scale it would leave nothing of the others."""
KEY = "Holes and bores to one scale, what passes them filled; dashed: far wider than drawn. Framed: what decides."


def draw_way_strip(table: WayTable, row: TriedWay, plan: RoutingPlan, *, width_mm: float = 180.0) -> Picture:
    """One way of the table along its places: room and thing to one scale, what is to spare below.

    table, row : of this plan, and one of its ways
    width_mm : of the paper; the height follows
    """
    shown = [(place, check) for place, check in zip(table.places, row.cells, strict=True) if check is not None]
    room_mm = width_mm - 2 * MARGIN_MM
    columns = max(1, min(len(shown), int(room_mm / NARROWEST_MM)))
    column_mm = room_mm / columns
    scale = _scale([check for _, check in shown])
    head = wrapped(row_words(row, plan), height_mm=TYPE_MM + 0.4, room_mm=room_mm)
    parts = [
        text((MARGIN_MM, MARGIN_MM + 3 + n * ROW_MM), words, height_mm=TYPE_MM + 0.4, is_bold=True)
        for n, words in enumerate(head)
    ]
    y = MARGIN_MM + len(head) * ROW_MM + 2
    for start in range(0, len(shown), columns):
        line = shown[start : start + columns]
        drawn, y = _line(line, row.decider, plan, scale, top_mm=y, column_mm=column_mm)
        parts += drawn
    key = wrapped(KEY, height_mm=SMALL_MM, room_mm=room_mm)
    parts += [
        text((MARGIN_MM, y + 4 + n * ROW_MM), words, height_mm=SMALL_MM, fill=SOFT_INK) for n, words in enumerate(key)
    ]
    title = f"What is to spare along the way: {row_words(row, plan)}. {_in_words(shown, plan)}"
    return sheet(parts, width_mm=width_mm, height_mm=y + len(key) * ROW_MM + 3, title=title)


def _in_words(shown: Sequence[tuple[WayPlace, Check]], plan: RoutingPlan) -> str:
    return " ".join(f"{place_words(place, plan)}: {cell_words(check) or NOT_MEASURED}." for place, check in shown)


def _is_round(check: Check) -> bool:
    return check.rule.row.measures is Measure.DIAMETER and bool(check.size_mm) and bool(check.available_mm)


def _is_wide(check: Check) -> bool:
    return (check.available_mm or 0.0) > WIDE_RATIO * (check.size_mm or 0.0)


def _scale(checks: Sequence[Check]) -> float:
    widest = [max(check.size_mm or 0.0, 0.0 if _is_wide(check) else check.available_mm or 0.0) for check in checks]
    largest_mm = max((mm for mm, check in zip(widest, checks, strict=True) if _is_round(check)), default=0.0)
    return LARGEST_MM / largest_mm if largest_mm else 1.0


def _line(
    line: Sequence[tuple[WayPlace, Check]],
    decider: Check | None,
    plan: RoutingPlan,
    scale: float,
    *,
    top_mm: float,
    column_mm: float,
) -> tuple[list[str], float]:
    """Places beside one another, the line that goes through them drawn behind."""
    middle_y = top_mm + LARGEST_MM / 2 + 2
    ends = [(MARGIN_MM, middle_y), (MARGIN_MM + len(line) * column_mm, middle_y)]
    parts = [polyline(ends, stroke=FAINT, width_mm=0.3)]
    labels = [wrapped(place_words(place, plan), height_mm=SMALL_MM, room_mm=column_mm - 3) for place, _ in line]
    below = top_mm + LARGEST_MM + 4
    end = below + 10.5 + max(map(len, labels)) * ROW_MM
    for n, ((place, check), label) in enumerate(zip(line, labels, strict=True)):
        x = MARGIN_MM + (n + 0.5) * column_mm
        is_framed = check is decider
        drawn = [_frame((x, top_mm), wide_mm=column_mm - 1, tall_mm=end - top_mm)] if is_framed else []
        drawn += _bead(check, (x, middle_y), scale) if _is_round(check) else _bars(check, (x, middle_y), column_mm)
        words = cell_words(check) or NOT_MEASURED
        drawn.append(outcome_mark((x - 8, below + 1.2), check.outcome, size_mm=3.4))
        height_mm = FIGURE_MM if check.clearance_mm is not None else SMALL_MM
        drawn.append(text((x - 5, below + 2.3), words, height_mm=height_mm, is_bold=True))
        drawn.append(text((x, below + 6.6), _sizes(check), height_mm=SMALL_MM, fill=SOFT_INK, anchor="middle"))
        if place.is_port:
            drawn.append(badge((x - column_mm / 2 + 3.4, top_mm + 3), place_tag(place), diameter_mm=4.0))
        drawn += [
            text((x, below + 10.6 + k * ROW_MM), words, height_mm=SMALL_MM, anchor="middle")
            for k, words in enumerate(label)
        ]
        parts.append(group(drawn, role="place" + (" decides" if is_framed else ""), name=place.id))
    return parts, end + 1


def _frame(top: PaperPoint, *, wide_mm: float, tall_mm: float) -> str:
    x, y = top
    corners = [
        (x - wide_mm / 2, y),
        (x + wide_mm / 2, y),
        (x + wide_mm / 2, y + tall_mm),
        (x - wide_mm / 2, y + tall_mm),
    ]
    return polyline(corners, stroke=INK, width_mm=0.7, is_closed=True)


def _sizes(check: Check) -> str:
    told = SIZE_WORDS[check.rule.row.measures]
    if check.size_mm is None or check.available_mm is None:
        return "" if check.size_mm is None else f"{told(check.size_mm)}"
    return f"{told(check.size_mm).removesuffix(' mm')} in {told(check.available_mm)}"


def _bead(check: Check, middle: PaperPoint, scale: float) -> list[str]:
    size_mm, available_mm = (check.size_mm or 0.0) * scale, (check.available_mm or 0.0) * scale
    if _is_wide(check):
        room = _dashed_round(middle, LARGEST_MM)
    else:
        room = circle(middle, diameter_mm=available_mm, fill=TUBE, stroke=INK, width_mm=0.35)
    if check.outcome is Outcome.NO_FIT:
        thing = circle(middle, diameter_mm=size_mm, fill=NEW_LINE, stroke="none", opacity=0.2)
        return [room, thing, _dashed_round(middle, size_mm, stroke=NEW_LINE)]
    return [room, circle(middle, diameter_mm=size_mm, fill=NEW_LINE, stroke="none", opacity=0.6)]


def _dashed_round(middle: PaperPoint, diameter_mm: float, *, stroke: str = SOFT_INK) -> str:
    points = [
        (middle[0] + cos(pi * n / 30) * diameter_mm / 2, middle[1] + sin(pi * n / 30) * diameter_mm / 2)
        for n in range(60)
    ]
    return polyline(points, stroke=stroke, width_mm=0.3, dash_mm=(1.2, 0.8), is_closed=True)


def _bars(check: Check, middle: PaperPoint, column_mm: float) -> list[str]:
    """What is asked for over what there is, as bars to one scale of their own: radii and lengths are no diameters."""
    size_mm, available_mm = check.size_mm, check.available_mm
    if size_mm is None or available_mm is None:
        return [outcome_mark(middle, check.outcome, size_mm=6.0)]
    scale = (column_mm - 6) / max(size_mm, available_mm, 1e-9)
    x, y = middle[0] - (column_mm - 6) / 2, middle[1]
    room = box((x, y), width_mm=max(available_mm, 0.0) * scale, height_mm=3, fill=TUBE, stroke=INK)
    thing = box((x, y - 4), width_mm=max(size_mm, 0.0) * scale, height_mm=3, fill=NEW_LINE, opacity=0.6)
    words = text((x, y + 6.5), check.rule.row.measures.value, height_mm=SMALL_MM, fill=SOFT_INK)
    return [thing, room, words]
