"""The shapes a hole can have, each as it is written down, with what is measured at it."""

from planner.documents.drawings.drawing_marks import dimension_line
from planner.documents.drawings.hole_outline import find_outline
from planner.documents.drawings.svg import INK, METAL, Picture, polyline, sheet, text
from planner.parts import BoxOpening, Opening, OvalOpening, RoundOpening, SlotOpening

HEIGHT_MM = 27.0
_MIDDLE_MM = 14.0
_ROW_MM = 25.5
_SHOWN: tuple[tuple[str, Opening, float, float], ...] = (
    ("round D", RoundOpening(diameter_mm=11, tolerance_mm=0), 11, 11),
    ("slot L x W", SlotOpening(length_mm=20, width_mm=8, tolerance_mm=0), 20, 8),
    ("oval L x W", OvalOpening(length_mm=20, width_mm=9, tolerance_mm=0), 20, 9),
    ("box L x W rR", BoxOpening(length_mm=20, width_mm=9, corner_radius_mm=2, tolerance_mm=0), 20, 9),
)


def draw_shape_key(*, width_mm: float) -> Picture:
    """Round, slot, oval and box in a row, each with its words and dimension lines.

    width_mm : of the paper
    """
    step_mm = width_mm / len(_SHOWN)
    parts: list[str] = []
    for number, shown in enumerate(_SHOWN):
        parts += _shape(step_mm * (number + 0.5), *shown)
    return sheet(parts, width_mm=width_mm, height_mm=HEIGHT_MM, title="Shapes of holes and what is measured")


def _shape(x_mm: float, words: str, opening: Opening, length_mm: float, height_mm: float) -> list[str]:
    left, right = x_mm - length_mm / 2, x_mm + length_mm / 2
    top, low = _MIDDLE_MM - height_mm / 2, _MIDDLE_MM + height_mm / 2
    edge = [(x_mm + x, _MIDDLE_MM - y) for x, y in find_outline(opening)]
    letters = words.split(" ", 1)[1].split(" ")
    drawn = [
        polyline(edge, fill=METAL, is_closed=True),
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
