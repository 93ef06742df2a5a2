"""How our paper looks: page sizes, type, texts, tables and tick boxes. Nothing is written to disk.

The fonts are shipped with the program, so that accents, Greek, Cyrillic and arrows come out on every machine, and the
same input gives the same bytes. The library for PDF is loaded only when a page is made.

The fonts weigh 1.4 MB; Chinese, Japanese and Korean print as boxes.
"""

from collections.abc import Sequence
from functools import lru_cache
from pathlib import Path
from typing import Any, Literal

from planner.documents.drawings.svg import FAINT, INK, SOFT_INK, TUBE
from planner.documents.words.printable import in_xml

PageSize = Literal["a4", "letter"]

PAGE_SIZES_MM: dict[str, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Width and height: ISO 216 A4, and letter as in ANSI/ASME Y14.1 (8.5 by 11 inches); both from memory."""

MARGIN_MM = 15.0
POINTS_PER_MM = 72 / 25.4
FONT, BOLD_FONT = "DejaVuSans", "DejaVuSans-Bold"
TICK_BOX = "☐"

TYPE_SIZES = {"title": 15.0, "head": 10.5, "body": 8.5, "strong": 8.5, "small": 7.0, "figure": 20.0}
"""Points of type for each use."""

LETTER_MM = 2.0
"""Width of a letter of the body type, on the wide side."""

TALL_LINES = 45
"""Lines that stand on every page beside a table's head, whatever the type."""

Cell = str | tuple[str, str]
"""A text, or a text with the use it is set in."""


@lru_cache(maxsize=1)
def register_fonts() -> None:
    """Make the shipped fonts known to the PDF library and to the one that reads pictures."""
    from reportlab.graphics.shapes import STATE_DEFAULTS
    from reportlab.pdfbase.pdfmetrics import registerFont, registerFontFamily
    from reportlab.pdfbase.ttfonts import TTFont
    from svglib.fonts import register_font

    folder = Path(__file__).parent / "fonts"
    for name, weight in ((FONT, "normal"), (BOLD_FONT, "bold")):
        path = str(folder / f"{name}.ttf")
        registerFont(TTFont(name, path))
        for family in ("DejaVu Sans", "sans-serif"):
            register_font(family, path, weight=weight, rlgFontName=name)
    STATE_DEFAULTS["fontName"] = FONT  # a picture would else begin with a font that no file holds
    registerFontFamily(FONT, normal=FONT, bold=BOLD_FONT, italic=FONT, boldItalic=BOLD_FONT)


def words(text: str, use: str = "body", *, colour: str = INK, is_right: bool = False) -> Any:
    """A paragraph of plain text; what looks like markup in it is printed as it stands.

    text : plain text; what looks like markup is printed as it stands
    use : a key of TYPE_SIZES
    is_right : whether it is set to the right
    """
    from reportlab.platypus import Paragraph

    register_fonts()
    return Paragraph("<br/>".join(map(in_xml, text.split("\n"))), _style(use, colour, is_right))


@lru_cache(maxsize=64)
def _style(use: str, colour: str, is_right: bool) -> Any:
    from reportlab.lib.colors import HexColor
    from reportlab.lib.styles import ParagraphStyle

    size = TYPE_SIZES[use]
    is_bold = use in ("title", "head", "strong", "figure")
    return ParagraphStyle(
        use,
        fontName=BOLD_FONT if is_bold else FONT,
        fontSize=size,
        leading=size * 1.3,
        textColor=HexColor(colour),
        alignment=2 if is_right else 0,
        embeddedHyphenation=1,  # an id breaks behind a hyphen of its own, not in the middle of a word
        spaceBefore=8 if use == "head" else 0,
        spaceAfter=3 if use in ("head", "title") else 0,
    )


def table(
    rows: Sequence[Sequence[Cell]],
    *,
    widths_mm: Sequence[float],
    has_head: bool = True,
    shaded: Sequence[int] = (),
    right: Sequence[int] = (),
) -> Any:
    """A table whose head is repeated on every page; rows may be shaded, columns set to the right.

    rows : texts, or texts with the use they are set in
    has_head : whether the first row is a head, repeated on every page
    shaded : numbers of the rows to shade
    right : numbers of the columns set to the right
    """
    from reportlab.lib.colors import HexColor
    from reportlab.platypus import Table

    cells = [
        [_cell(cell, is_head=has_head and number == 0, is_right=place in right) for place, cell in enumerate(row)]
        for number, row in enumerate(rows)
    ]
    look: list[tuple[Any, ...]] = [
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("FONTNAME", (0, 0), (-1, -1), FONT),
        ("LEFTPADDING", (0, 0), (-1, -1), 2.5),
        ("RIGHTPADDING", (0, 0), (-1, -1), 2.5),
        ("TOPPADDING", (0, 0), (-1, -1), 1.8),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.2),
        ("LINEBELOW", (0, 0), (-1, -1), 0.3, HexColor(FAINT)),
    ]
    if has_head:
        look += [
            ("LINEBELOW", (0, 0), (-1, 0), 0.8, HexColor(INK)),
            ("BACKGROUND", (0, 0), (-1, 0), HexColor(TUBE)),
        ]
    look += [("BACKGROUND", (0, row), (-1, row), HexColor(TUBE)) for row in shaded]
    widths = [width_mm * POINTS_PER_MM for width_mm in widths_mm]
    splits = int(any(_is_tall(cell, width_mm) for row in rows for cell, width_mm in zip(row, widths_mm, strict=True)))
    made = Table(cells, colWidths=widths, repeatRows=1 if has_head else 0, hAlign="LEFT", splitInRow=splits)
    made.setStyle(look)
    return made


def _is_tall(cell: Cell, width_mm: float) -> bool:
    """Whether a text may need more than a page: only then are rows parted, for a rest of a page would part them too."""
    text = cell if isinstance(cell, str) else cell[0]
    lines = sum(len(line) * LETTER_MM // max(width_mm, LETTER_MM) + 1 for line in text.split("\n"))
    return lines > TALL_LINES


def _cell(cell: Cell, *, is_head: bool, is_right: bool) -> Any:
    text, use = cell if isinstance(cell, tuple) else (cell, "strong" if is_head else "body")
    return words(text, use, colour=SOFT_INK if use == "small" else INK, is_right=is_right)


def text_width_mm(page_size: PageSize) -> float:
    """Width between the margins of a page."""
    return PAGE_SIZES_MM[page_size][0] - 2 * MARGIN_MM
