"""A report on its way to the terminal."""

import sys
from collections.abc import Iterable, Sequence

from rich.cells import cell_len
from rich.console import Console, Group, RenderableType
from rich.segment import Segment, Segments

from planner import printable_line, printable_text
from ui.shared.printable_stream import PrintableStream


def print_report(*parts: RenderableType) -> None:
    """Print the parts one below the other, in colour where somebody looks; what is in them steers no terminal."""
    stream = sys.stdout.as_given if isinstance(sys.stdout, PrintableStream) else sys.stdout
    console = Console(highlight=False, file=stream)
    laid_out = console.render(Group(*parts))
    shown = [Segment(printable_text(text), style, control) for text, style, control in laid_out]
    console.print(Segments(shown), end="", crop=False)


def print_columns(headings: Sequence[str], rows: Iterable[Sequence[str]]) -> None:
    """Print a long list in plain columns, a line for each row: no frame, no colour, nothing broken to fit."""
    lines = [[printable_line(cell) for cell in row] for row in (headings, *rows)]
    widths = [max(cell_len(line[place]) for line in lines) for place in range(len(headings))]
    for line in lines:
        padded = (cell + " " * (width - cell_len(cell)) for cell, width in zip(line, widths, strict=True))
        print("  ".join(padded).rstrip())
