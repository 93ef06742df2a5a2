"""One table in place of a page of reasons: every way of drawing the line in, against the places in their order."""

from collections.abc import Sequence

from planner.documents.drawings.drawing_marks import badge, outcome_mark
from planner.documents.drawings.label_places import wrapped
from planner.documents.drawings.svg import (
    FAINT,
    INK,
    METAL,
    SOFT_INK,
    TUBE,
    Picture,
    box,
    group,
    polyline,
    sheet,
    text,
)
from planner.documents.words.way_table_words import (
    FRAMED,
    UNMADE,
    cell_words,
    place_tag,
    place_words,
    row_remarks,
    row_words,
    table_in_words,
    unmade_in_words,
)
from planner.plan.routing_plan import RoutingPlan
from planner.plan.way_table import TriedWay, WayPlace, WayTable
from planner.quick_dataclass import dataclass
from planner.verdicts import Check

MARGIN_MM = 4.0
TYPE_MM, SMALL_MM = 2.9, 2.7
ROW_MM = 4.0
CELL_MM, CELL_HEIGHT_MM = 13.6, 8.8
"""Room for six letters of a figure, with the mark of its outcome above it: beside each other they would overlap."""
NAMES_MM = 56.0
"""What the names take at the left, where the paper is wide enough to leave as much for the cells."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Paper:
    """How a row lies: its names beside its cells, or above them.

    left_mm : where the cells begin
    count : so many cells lie beside one another
    """

    width_mm: float
    names_mm: float
    left_mm: float
    count: int

    @property
    def is_beside(self) -> bool:
        return self.left_mm > MARGIN_MM


def draw_way_table(table: WayTable, plan: RoutingPlan, *, width_mm: float = 180.0) -> Picture:
    """Every way against every place, what is to spare by figure, sign and shape, the deciding cell framed.

    Below the key of the places, and what cannot be joined at all with its reason.

    table : of this plan
    plan : whose way the places are
    width_mm : of the paper; the height follows
    """
    paper = _paper(width_mm)
    parts, y = [], MARGIN_MM
    if table.ways:
        rows = wrapped(FRAMED, height_mm=TYPE_MM, room_mm=width_mm - 2 * MARGIN_MM)
        parts += _lines(rows, y + TYPE_MM, fill=SOFT_INK)
        y += len(rows) * ROW_MM + 2
    for row in table.ways:
        drawn, y = _row(row, table.places, plan, paper, top_mm=y)
        parts.append(drawn)
    key, y = _key(table.places, plan, top_mm=y + 1, width_mm=width_mm)
    unmade, y = _unmade(table, plan, top_mm=y, width_mm=width_mm)
    told = f"All ways that were tried. {table_in_words(table, plan)}"
    return sheet([*parts, *key, *unmade], width_mm=width_mm, height_mm=y + MARGIN_MM, title=told)


def _paper(width_mm: float) -> _Paper:
    is_beside = width_mm >= 2 * (NAMES_MM + MARGIN_MM)
    left_mm = MARGIN_MM + NAMES_MM if is_beside else MARGIN_MM
    names_mm = NAMES_MM - 8 if is_beside else width_mm - 2 * MARGIN_MM - 6
    count = int((width_mm - left_mm - MARGIN_MM) / CELL_MM)
    return _Paper(width_mm=width_mm, names_mm=names_mm, left_mm=left_mm, count=count)


def _lines(rows: Sequence[str], base_mm: float, *, left_mm: float = MARGIN_MM, fill: str = INK) -> list[str]:
    return [text((left_mm, base_mm + n * ROW_MM), row, height_mm=TYPE_MM, fill=fill) for n, row in enumerate(rows)]


def _row(
    row: TriedWay, places: Sequence[WayPlace], plan: RoutingPlan, paper: _Paper, *, top_mm: float
) -> tuple[str, float]:
    names = wrapped(row_words(row, plan), height_mm=TYPE_MM, room_mm=paper.names_mm)
    parts = [polyline([(MARGIN_MM, top_mm), (paper.width_mm - MARGIN_MM, top_mm)], stroke=METAL, width_mm=0.25)]
    parts.append(outcome_mark((MARGIN_MM + 2, top_mm + 4.2), row.outcome, size_mm=3.6))
    parts += _lines(names, top_mm + 5.2, left_mm=MARGIN_MM + 6)
    below = top_mm + 5.2 + len(names) * ROW_MM
    cells_top = top_mm + 1.5 if paper.is_beside else below - 2.5
    cells, cells_end = _cells(row, places, paper, top_mm=cells_top)
    y = max(below - 2, cells_end)
    for remark in row_remarks(row, plan):
        told = wrapped(remark, height_mm=SMALL_MM, room_mm=paper.width_mm - 2 * MARGIN_MM - 6)
        parts += [
            text((MARGIN_MM + 6, y + 3 + n * ROW_MM), words, height_mm=SMALL_MM, fill=SOFT_INK)
            for n, words in enumerate(told)
        ]
        y += len(told) * ROW_MM + 0.6
    return group([*parts, *cells], role="way", name=row.method_id), y + 1.5


def _cells(row: TriedWay, places: Sequence[WayPlace], paper: _Paper, *, top_mm: float) -> tuple[list[str], float]:
    tall_mm = CELL_HEIGHT_MM + ROW_MM
    parts = []
    for n, (place, check) in enumerate(zip(places, row.cells, strict=True)):
        line, column = divmod(n, paper.count)
        x, y = paper.left_mm + column * CELL_MM, top_mm + line * tall_mm
        tag = text((x + CELL_MM / 2, y + 2.6), place_tag(place), height_mm=SMALL_MM, fill=SOFT_INK, anchor="middle")
        parts += [tag, *_cell(check, (x, y + 3.4), is_framed=n == row.decides_at)]
    return parts, top_mm + -(-len(places) // paper.count) * tall_mm


def _cell(check: Check | None, corner: tuple[float, float], *, is_framed: bool) -> list[str]:
    x, y = corner
    middle_x = x + CELL_MM / 2
    edge = INK if is_framed else FAINT
    frame = box((x + 0.5, y), width_mm=CELL_MM - 1, height_mm=CELL_HEIGHT_MM, fill=TUBE if is_framed else "none")
    corners = [(x + 0.5, y), (x + CELL_MM - 0.5, y)]
    corners += [(px, y + CELL_HEIGHT_MM) for px, _ in reversed(corners)]
    outline = polyline(corners, stroke=edge, width_mm=0.7 if is_framed else 0.15, is_closed=True)
    if check is None:
        base = (middle_x, y + CELL_HEIGHT_MM / 2 + 1)
        return [outline, text(base, "–", height_mm=TYPE_MM, fill=SOFT_INK, anchor="middle")]
    words = cell_words(check)
    mark = outcome_mark((middle_x, y + (2.6 if words else CELL_HEIGHT_MM / 2)), check.outcome, size_mm=3.2)
    told = text((middle_x, y + 7.6), words, height_mm=TYPE_MM, anchor="middle", is_bold=is_framed)
    return [group([frame, outline, mark, told], role="cell" + (" decides" if is_framed else ""))]


def _key(places: Sequence[WayPlace], plan: RoutingPlan, *, top_mm: float, width_mm: float) -> tuple[list[str], float]:
    """Which place each tag is, in two columns where there is room."""
    columns = 2 if width_mm >= 150 else 1
    column_mm = (width_mm - 2 * MARGIN_MM) / columns
    half = -(-len(places) // columns)
    parts, end = [], top_mm
    for column in range(columns):
        y = top_mm
        for place in places[column * half : (column + 1) * half]:
            x = MARGIN_MM + column * column_mm
            if place.is_port:
                parts.append(badge((x + 2, y + 2), place_tag(place), diameter_mm=3.8))
            else:
                parts.append(text((x + 2, y + 3), place_tag(place), height_mm=SMALL_MM, anchor="middle", fill=SOFT_INK))
            rows = wrapped(place_words(place, plan), height_mm=TYPE_MM, room_mm=column_mm - 8)
            parts += _lines(rows, y + 3, left_mm=x + 6)
            y += len(rows) * ROW_MM + 0.6
        end = max(end, y)
    return parts, end


def _unmade(table: WayTable, plan: RoutingPlan, *, top_mm: float, width_mm: float) -> tuple[list[str], float]:
    reasons = unmade_in_words(table, plan)
    if not reasons:
        return [], top_mm
    room_mm = width_mm - 2 * MARGIN_MM - 6
    parts = [text((MARGIN_MM, top_mm + 5), UNMADE, height_mm=TYPE_MM, is_bold=True)]
    y = top_mm + 7
    for sentence, names in reasons.items():
        rows = wrapped(f"{names}: {sentence}.", height_mm=TYPE_MM, room_mm=room_mm)
        parts.append(text((MARGIN_MM + 1, y + 3), "✗", height_mm=TYPE_MM))
        parts += _lines(rows, y + 3, left_mm=MARGIN_MM + 6)
        y += len(rows) * ROW_MM + 0.8
    return parts, y
