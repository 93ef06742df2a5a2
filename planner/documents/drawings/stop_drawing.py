"""What stops a way, to scale: the place as it is, the thing that does not pass, and how large it would have to be."""

from collections.abc import Callable, Sequence
from math import cos, pi, sin

from planner.documents.drawings.drawing_marks import dimension_line, outcome_mark
from planner.documents.drawings.hole_drawing import MOVING_WORDS
from planner.documents.drawings.hole_outline import Flat, find_outline, find_rims
from planner.documents.drawings.label_places import wrapped
from planner.documents.drawings.svg import (
    FAINT,
    GOOD,
    INK,
    NEW_LINE,
    PAPER,
    SOFT_INK,
    STOP,
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
from planner.documents.words.check_words import sentence_for
from planner.documents.words.sizes_in_words import SIZE_WORDS
from planner.parts import Opening
from planner.plan.names import NO_NAMES, Names
from planner.quick_dataclass import dataclass
from planner.rules import Measure
from planner.verdicts import Check

MARGIN_MM = 5.0
TYPE_MM, ROW_MM = 2.9, 4.2
TALLEST_MM = 42.0
LARGEST_SCALE = 12.0
ARC_STEPS = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class _Shape:
    """One thing of the figure: closed outlines about its own middle, and the words below it. [mm]

    size_mm : how far it reaches about its middle, across and down
    """

    words: str
    size_mm: tuple[float, float]
    draw: Callable[[PaperPoint, float], list[str]]


def can_draw_stop(check: Check) -> bool:
    """Whether a figure can be drawn of it: it has two sizes that are diameters, lengths or radii."""
    drawn = (Measure.DIAMETER, Measure.STIFF_LENGTH, Measure.LENGTH, Measure.RADIUS)
    sizes = (check.size_mm, check.available_mm)
    return check.rule.row.measures in drawn and all(size is not None and size > 0 for size in sizes)


def draw_stop(
    check: Check, *, names: Names = NO_NAMES, needed: Opening | None = None, width_mm: float = 90.0
) -> Picture:
    """The place with the thing drawn dashed in it, the thing beside it, and what would let it pass; all to one scale.

    check : of a place that stops a way, with its sizes
    names : what people call the places and things
    needed : the smallest opening that would do for this thing, where it is known
    width_mm : of the paper; the height follows

    Raises ValueError for a check of which no figure can be drawn.
    """
    if not can_draw_stop(check) or check.size_mm is None or check.available_mm is None:
        raise ValueError(f"the check {check.rule} has no two sizes to draw")
    shapes = _shapes(check, check.size_mm, check.available_mm, needed)
    told = wrapped(f"{sentence_for(check, names=names)}.", height_mm=TYPE_MM, room_mm=width_mm - 2 * MARGIN_MM - 6)
    parts = [outcome_mark((MARGIN_MM + 2, 6), check.outcome, size_mm=4.0)]
    parts += [text((MARGIN_MM + 6, 7.2 + n * ROW_MM), row, height_mm=TYPE_MM) for n, row in enumerate(told)]
    top_mm = 7.2 + len(told) * ROW_MM
    column_mm = (width_mm - 2 * MARGIN_MM) / len(shapes)
    widest, tallest = (max(shape.size_mm[axis] for shape in shapes) for axis in (0, 1))
    scale = min(LARGEST_SCALE, (column_mm - 5) / widest, TALLEST_MM / tallest)
    below = top_mm + tallest * scale + 4
    rows = [wrapped(shape.words, height_mm=TYPE_MM, room_mm=column_mm - 2) for shape in shapes]
    for n, (shape, words) in enumerate(zip(shapes, rows, strict=True)):
        middle = (MARGIN_MM + (n + 0.5) * column_mm, top_mm + tallest * scale / 2 + 1)
        drawn = shape.draw(middle, scale)
        drawn += [
            text((middle[0], below + 3 + k * ROW_MM), row, height_mm=TYPE_MM, anchor="middle")
            for k, row in enumerate(words)
        ]
        parts.append(group(drawn, role="shape", title=shape.words))
    height_mm = below + max(map(len, rows)) * ROW_MM + 4
    return sheet(
        parts, width_mm=width_mm, height_mm=height_mm, title=f"What stops it: {sentence_for(check, names=names)}"
    )


def _shapes(check: Check, size_mm: float, available_mm: float, needed: Opening | None) -> list[_Shape]:
    told = SIZE_WORDS[check.rule.row.measures]
    missing = f"{told(size_mm - available_mm)} missing"
    if check.rule.row.measures is Measure.RADIUS:
        return [
            _bend(f"the bend there: {told(available_mm)}", available_mm, STOP),
            _bend(f"needs {told(size_mm)} or more: {missing}", size_mm, GOOD),
        ]
    if check.rule.row.measures is not Measure.DIAMETER:
        return [_bars(f"{told(size_mm)} long, {told(available_mm)} would pass: {missing}", size_mm, available_mm)]
    called = "line" if check.thing is None else MOVING_WORDS.get(check.thing.kind, "line")
    free = "free beside what lies there" if check.with_ids else "free"
    place = _place(check, size_mm, available_mm, f"{free}: {told(available_mm)}")
    return [
        place,
        _round(f"{called}: {told(size_mm)}", size_mm, NEW_LINE),
        _enough(needed, size_mm, f"{missing}: needs {_needs(needed, size_mm)}"),
    ]


def _needs(needed: Opening | None, size_mm: float) -> str:
    return f"{SIZE_WORDS[Measure.DIAMETER](size_mm)} free" if needed is None else needed.words


def _place(check: Check, size_mm: float, available_mm: float, words: str) -> _Shape:
    """The hole as the line sees it, or the bore; the thing dashed over it."""
    room = check.room
    if room is None or room.opening is None or check.with_ids:
        outline = _ring(available_mm)
        seen: Sequence[Flat] = outline
    else:
        rims = find_rims(room, room.opening)
        outline, seen = list(rims.near), rims.seen or rims.near
    reach = [max(size_mm, *(2 * abs(point[axis]) for point in outline)) for axis in (0, 1)]
    x, y = (sum(point[axis] for point in seen) / len(seen) for axis in (0, 1))

    def draw(middle: PaperPoint, scale: float) -> list[str]:
        return [
            polyline(_at(outline, middle, scale), fill=FAINT, stroke=INK, width_mm=0.4, is_closed=True),
            polyline(_at(seen, middle, scale), fill=PAPER, stroke="none", is_closed=True),
            polyline(
                _at(_ring(size_mm, about=(x, y)), middle, scale),
                stroke=STOP,
                width_mm=0.5,
                dash_mm=(1.4, 0.9),
                is_closed=True,
            ),
        ]

    return _Shape(words=words, size_mm=(reach[0], reach[1]), draw=draw)


def _round(words: str, size_mm: float, colour: str) -> _Shape:
    def draw(middle: PaperPoint, scale: float) -> list[str]:
        area = circle(middle, diameter_mm=size_mm * scale, fill=colour, stroke="none", opacity=0.35)
        return [area, circle(middle, diameter_mm=size_mm * scale, stroke=colour, width_mm=0.4)]

    return _Shape(words=words, size_mm=(size_mm, size_mm), draw=draw)


def _enough(needed: Opening | None, size_mm: float, words: str) -> _Shape:
    """The opening that would do, seen square on, with the thing in it."""
    outline = _ring(size_mm) if needed is None else find_outline(needed)
    reach = [max(size_mm, *(2 * abs(point[axis]) for point in outline)) for axis in (0, 1)]

    def draw(middle: PaperPoint, scale: float) -> list[str]:
        thing = circle(middle, diameter_mm=size_mm * scale, fill=NEW_LINE, stroke="none", opacity=0.25)
        return [thing, polyline(_at(outline, middle, scale), stroke=GOOD, width_mm=0.6, is_closed=True)]

    return _Shape(words=words, size_mm=(reach[0], reach[1]), draw=draw)


def _bend(words: str, radius_mm: float, colour: str) -> _Shape:
    """A quarter of a round with its radius."""

    def draw(middle: PaperPoint, scale: float) -> list[str]:
        r = radius_mm * scale
        corner = (middle[0] - r / 2, middle[1] + r / 2)
        arc = [
            (corner[0] + r * cos(pi * n / 2 / ARC_STEPS), corner[1] - r * sin(pi * n / 2 / ARC_STEPS))
            for n in range(ARC_STEPS + 1)
        ]
        slant = (corner[0] + r * cos(pi / 4), corner[1] - r * sin(pi / 4))
        return [
            polyline(arc, stroke=colour, width_mm=1.4),
            polyline([corner, slant], stroke=SOFT_INK, width_mm=0.2),
            circle(corner, diameter_mm=1.2, fill=SOFT_INK, stroke="none"),
        ]

    return _Shape(words=words, size_mm=(radius_mm, radius_mm), draw=draw)


def _bars(words: str, size_mm: float, available_mm: float) -> _Shape:
    """A stiff piece over the longest that would pass."""
    tall_mm = max(size_mm, available_mm) / 10

    def draw(middle: PaperPoint, scale: float) -> list[str]:
        left, tall = middle[0] - size_mm * scale / 2, max(tall_mm * scale, 3.0)
        end = left + available_mm * scale
        piece = box((left, middle[1] - tall - 1), width_mm=size_mm * scale, height_mm=tall, fill=NEW_LINE, stroke=INK)
        most = box((left, middle[1] + 1), width_mm=available_mm * scale, height_mm=tall, fill=TUBE, stroke=GOOD)
        over = dimension_line(
            (end, middle[1] + 1 + tall / 2), (left + size_mm * scale, middle[1] + 1 + tall / 2), stroke=STOP
        )
        return [piece, most, over]

    return _Shape(words=words, size_mm=(max(size_mm, available_mm), 4 * tall_mm), draw=draw)


def _ring(diameter_mm: float, *, about: Flat = (0.0, 0.0)) -> list[Flat]:
    return [
        (about[0] + cos(pi * n / 36) * diameter_mm / 2, about[1] + sin(pi * n / 36) * diameter_mm / 2)
        for n in range(72)
    ]


def _at(points: Sequence[Flat], middle: PaperPoint, scale: float) -> list[PaperPoint]:
    return [(middle[0] + x * scale, middle[1] - y * scale) for x, y in points]
