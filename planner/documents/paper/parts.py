"""What stands on our paper beside texts and tables: headings, pictures, gaps."""

from collections.abc import Sequence
from io import BytesIO
from typing import Any

from planner.documents.drawings.svg import SOFT_INK, Picture
from planner.documents.paper.style import FONT, POINTS_PER_MM, register_fonts, words


def heading(text: str, *, followed_by_mm: float = 20.0) -> list[Any]:
    """A heading that does not stay behind at the foot of a page where what follows has no room.

    text : plain text; what looks like markup is printed as it stands
    followed_by_mm : height of what must stand on the same page
    """
    from reportlab.platypus import CondPageBreak

    return [CondPageBreak((8 + followed_by_mm) * POINTS_PER_MM), words(text, "head")]


def height_of_mm(parts: Sequence[Any]) -> float:
    """Height of pictures and single lines, one under the other."""
    return sum(float(getattr(part, "height", 0) or 10) for part in parts) / POINTS_PER_MM


def picture(drawing: Picture, *, width_mm: float, height_mm: float) -> list[Any]:
    """A picture at its own size; one that does not fit is made smaller, and that is said below it.

    width_mm, height_mm : the room there is

    Raises ValueError where the text is no SVG.
    """
    from svglib.svglib import svg2rlg

    register_fonts()
    drawn = svg2rlg(BytesIO(drawing.svg_on_white().encode("utf-8")))
    if drawn is None:
        raise ValueError("the picture is no SVG")
    ratio = min(1.0, width_mm * POINTS_PER_MM / drawn.width, height_mm * POINTS_PER_MM / drawn.height)
    if ratio > 0.9999:
        return [drawn]
    drawn.scale(ratio, ratio)
    drawn.width, drawn.height = drawn.width * ratio, drawn.height * ratio
    return [drawn, words(f"printed at {100 * ratio:.0f} % of its size", "small", colour=SOFT_INK)]


def side_by_side(left: Sequence[Any], right: Sequence[Any], *, width_mm: float) -> Any:
    """Two parts beside each other, each half as wide as the text.

    width_mm : width there is
    """
    from reportlab.platypus import Table

    row = Table([[list(left), list(right)]], colWidths=[width_mm / 2 * POINTS_PER_MM] * 2, hAlign="LEFT")
    row.setStyle(
        [
            ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ("FONTNAME", (0, 0), (-1, -1), FONT),
            *((side, (0, 0), (-1, -1), 0) for side in _PADDINGS),
        ]
    )
    return row


_PADDINGS = ("LEFTPADDING", "RIGHTPADDING", "TOPPADDING", "BOTTOMPADDING")


def gap(height_mm: float) -> Any:
    """Empty height.

    height_mm : height there is
    """
    from reportlab.platypus import Spacer

    return Spacer(1, height_mm * POINTS_PER_MM)
