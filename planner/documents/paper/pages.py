"""From a list of parts to the bytes of a PDF: margins, a foot with page numbers, the same bytes every time."""

from collections.abc import Sequence
from io import BytesIO
from typing import Any

from planner.documents.drawings.svg import SOFT_INK
from planner.documents.paper.style import FONT, MARGIN_MM, PAGE_SIZES_MM, POINTS_PER_MM, PageSize, register_fonts
from planner.documents.words.printable import printable_line


def pages_as_pdf(parts: Sequence[Any], *, page_size: PageSize, title: str, foot: str) -> bytes:
    """Lay the parts out on pages.

    parts : what stands on the pages, in order
    title : told by the reader's program, not printed
    foot : printed at the foot of every page, beside its number; "" for neither
    """
    width_mm, height_mm = PAGE_SIZES_MM[page_size]
    return sheets_as_pdf(parts, width_mm=width_mm, height_mm=height_mm, margin_mm=MARGIN_MM, title=title, foot=foot)


def sheets_as_pdf(
    parts: Sequence[Any], *, width_mm: float, height_mm: float, margin_mm: float, title: str, foot: str
) -> bytes:
    """The same on sheets of any size; without a foot there are no page numbers either.

    parts : what stands on the pages, in order
    width_mm : width there is
    height_mm : height there is
    margin_mm : left free on every side
    title : told by the reader's program, not printed
    foot : printed at the foot of every page, beside its number; "" for neither
    """
    from reportlab.platypus import SimpleDocTemplate

    register_fonts()
    written = BytesIO()
    margin = margin_mm * POINTS_PER_MM
    document = SimpleDocTemplate(
        written,
        pagesize=(width_mm * POINTS_PER_MM, height_mm * POINTS_PER_MM),
        leftMargin=margin,
        rightMargin=margin,
        topMargin=margin,
        bottomMargin=margin,
        title=printable_line(title),
        author="",
        invariant=1,  # no date, no random number: the same input gives the same bytes
        lang="en",
        initialFontName=FONT,
    )
    document.build(list(parts), canvasmaker=_numbering_canvas(printable_line(foot)) if foot else _plain_canvas())
    return written.getvalue()


def _plain_canvas() -> Any:
    from reportlab.pdfgen.canvas import Canvas

    return Canvas


def _numbering_canvas(foot: str) -> Any:
    """A canvas that waits for the last page, so that every foot can say how many there are."""
    from reportlab.lib.colors import HexColor
    from reportlab.pdfgen.canvas import Canvas

    class NumberingCanvas(Canvas):  # type: ignore[misc, unused-ignore]
        def __init__(self, *arguments: Any, **named: Any) -> None:
            super().__init__(*arguments, **named)
            self._waiting: list[dict[str, Any]] = []

        def showPage(self) -> None:  # noqa: N802  (the library's name)
            self._waiting.append(dict(self.__dict__))
            self._startPage()

        def save(self) -> None:
            for number, state in enumerate(self._waiting, 1):
                self.__dict__.update(state)
                self.setFont(FONT, 7)
                self.setFillColor(HexColor(SOFT_INK))
                low = MARGIN_MM * POINTS_PER_MM * 0.55
                self.drawString(MARGIN_MM * POINTS_PER_MM, low, foot)
                page = f"page {number} of {len(self._waiting)}"
                self.drawRightString(self._pagesize[0] - MARGIN_MM * POINTS_PER_MM, low, page)
                super().showPage()
            super().save()

    return NumberingCanvas
