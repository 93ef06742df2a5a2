"""A report on its way to the terminal."""

import sys

from rich.console import Console, Group, RenderableType
from rich.segment import Segment, Segments

from planner import printable_text
from ui.shared.printable_stream import PrintableStream


def print_report(*parts: RenderableType) -> None:
    """Print the parts one below the other, in colour where somebody looks; what is in them steers no terminal."""
    stream = sys.stdout.as_given if isinstance(sys.stdout, PrintableStream) else sys.stdout
    console = Console(highlight=False, file=stream)
    laid_out = console.render(Group(*parts))
    shown = [Segment(printable_text(text), style, control) for text, style, control in laid_out]
    console.print(Segments(shown), end="", crop=False)
