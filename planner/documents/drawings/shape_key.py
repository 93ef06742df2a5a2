"""The shapes a hole can have, each as it is written down, with what is measured at it."""

from collections.abc import Callable
from math import cos, pi, sin

from planner.documents.drawings.drawing_marks import dimension_line
from planner.documents.drawings.hole_outline import find_outline
from planner.documents.drawings.svg import INK, METAL, SOFT_INK, PaperPoint, Picture, circle, polyline, sheet, text
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening

HEIGHT_MM = 27.0
_MIDDLE_MM = 14.0
_ROW_MM = 25.5
_SHOWN: tuple[tuple[str, Opening, float, float], ...] = (
    ("round D", RoundOpening(diameter_mm=11, tolerance_mm=0), 11, 11),
    ("slot L x W", SlotOpening(length_mm=20, width_mm=8, tolerance_mm=0), 20, 8),
    ("oval L x W", OvalOpening(length_mm=20, width_mm=9, tolerance_mm=0), 20, 9),
    ("box L x W rR", BoxOpening(length_mm=20, width_mm=9, corner_radius_mm=2, tolerance_mm=0), 20, 9),
)
_OUTLINE = OutlineOpening(points_mm=((-9, -3), (-4, 4.5), (3, 3), (9, 4), (7, -4.5), (0, -2.5)), tolerance_mm=0)
_HOLE_MM, _GAUGE_MM = 11.0, 7.5


def draw_shape_key(*, width_mm: float) -> Picture:
    """Round, slot, oval and box in a row, each with its words and dimension lines.

    width_mm : of the paper
    """
    step_mm = width_mm / len(_SHOWN)
    parts: list[str] = []
    for number, shown in enumerate(_SHOWN):
        parts += _shape(step_mm * (number + 0.5), *shown)
    return sheet(parts, width_mm=width_mm, height_mm=HEIGHT_MM, title="Shapes of holes and what is measured")


def _edge(opening: Opening, at: PaperPoint) -> str:
    """The hole in its wall, square on."""
    return polyline([(at[0] + x, at[1] - y) for x, y in find_outline(opening)], fill=METAL, is_closed=True)


def _gauge(at: PaperPoint) -> list[str]:
    """A hole that nobody measured, and the round gauge that went in."""
    turns = [(cos(2 * pi * n / 48), sin(2 * pi * n / 48)) for n in range(48)]
    hole = [(at[0] + x * _HOLE_MM / 2, at[1] + y * _HOLE_MM / 2) for x, y in turns]
    edge = polyline(hole, stroke=SOFT_INK, dash_mm=(1.0, 0.8), is_closed=True)
    return [edge, circle(at, diameter_mm=_GAUGE_MM, fill=METAL)]


def _traced(at: PaperPoint) -> list[str]:
    """A hole measured point by point."""
    dots = [circle((at[0] + x, at[1] - y), diameter_mm=1.1, fill=INK, stroke="none") for x, y in _OUTLINE.points_mm]
    return [_edge(_OUTLINE, at), *dots]


def _square_on(opening: Opening) -> Callable[[PaperPoint], list[str]]:
    return lambda at: [_edge(opening, at)]


SHAPE_SKETCHES: dict[str, Callable[[PaperPoint], list[str]]] = {
    **{opening.shape: _square_on(opening) for _, opening, _, _ in _SHOWN},
    "gauge": _gauge,
    "outline": _traced,
}
"""Each shape as it looks, about its own middle, by its word in the files."""


def _shape(x_mm: float, words: str, opening: Opening, length_mm: float, height_mm: float) -> list[str]:
    left, right = x_mm - length_mm / 2, x_mm + length_mm / 2
    top, low = _MIDDLE_MM - height_mm / 2, _MIDDLE_MM + height_mm / 2
    letters = words.split(" ", 1)[1].split(" ")
    drawn = [
        _edge(opening, (x_mm, _MIDDLE_MM)),
        dimension_line((left, 4.5), (right, 4.5)),
        text((x_mm, 3.6), letters[0], height_mm=2.9, anchor="middle"),
        text((x_mm, _ROW_MM), words, height_mm=2.9, anchor="middle", fill=INK),
    ]
    if "x" in letters:
        drawn += [
            dimension_line((right + 2.5, top), (right + 2.5, low)),
            text((right + 3.6, _MIDDLE_MM + 1), letters[2], height_mm=2.9),
        ]
    return drawn
