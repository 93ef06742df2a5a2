"""The edge of one opening by itself, square on and to scale, with its length and width."""

from planner.documents.drawings.drawing_marks import dimension_line
from planner.documents.drawings.hole_outline import find_outline
from planner.documents.drawings.svg import INK, METAL, PAPER, SOFT_INK, PaperView, Picture, box, polyline, sheet, text
from planner.parts import Opening

_EDGE_MM = 4.0
_FIGURES_MM = 9.0
_TYPE_MM = 3.0
_TALLEST = 1.1
"""Height of the drawn hole over its room's width, at most."""


def draw_opening(opening: Opening, *, label: str = "", width_mm: float = 80.0) -> Picture:
    """An opening seen square on, its length to the right, as large as the paper allows, its two sizes beside it.

    opening : measured
    label : what to call it; "" for nothing above it
    width_mm : of the paper; the height follows
    """
    edge = find_outline(opening)
    xs, ys = zip(*edge, strict=True)
    length, width = max(xs) - min(xs), max(ys) - min(ys)
    room_mm = width_mm - 2 * _EDGE_MM - 2 * _FIGURES_MM
    scale = min(room_mm / length, room_mm * _TALLEST / width)
    top_mm = _EDGE_MM + (5.0 if label else 0.0)
    left_mm = (width_mm - length * scale) / 2 - _FIGURES_MM / 2
    view = PaperView(left_mm=min(xs), top_mm=max(ys), scale_ratio=scale, origin_mm=(left_mm, top_mm + 3))
    low, right = top_mm + 3 + width * scale, left_mm + length * scale
    height_mm = low + _FIGURES_MM + _EDGE_MM
    plate = box((left_mm - 3, top_mm), width_mm=length * scale + 6, height_mm=width * scale + 6, fill=METAL)
    hole = polyline([view.at(*point) for point in edge], fill=PAPER, width_mm=0.35, is_closed=True)
    parts = [plate, hole]
    parts.append(dimension_line((left_mm, low + 5), (right, low + 5)))
    parts.append(text(((left_mm + right) / 2, low + 9), f"{length:.2f} mm", height_mm=_TYPE_MM, anchor="middle"))
    parts.append(dimension_line((right + 5, top_mm + 3), (right + 5, low)))
    beside = (right + 7, (top_mm + 3 + low) / 2 + 1)
    parts.append(text(beside, f"{width:.2f}", height_mm=_TYPE_MM, fill=INK))
    if label:
        parts.append(text((_EDGE_MM, _EDGE_MM + 1), label, height_mm=_TYPE_MM, fill=SOFT_INK))
    title = f"{label or 'The hole'}: {opening.words}, {length:.2f} by {width:.2f} mm"
    return sheet(parts, width_mm=width_mm, height_mm=height_mm, title=title)
