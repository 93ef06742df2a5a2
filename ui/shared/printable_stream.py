"""Streams of the terminal: whatever a file, a name or a database says, it steers nothing there."""

import sys
from io import TextIOBase, TextIOWrapper
from typing import TextIO

from planner import printable_text


class PrintableStream(TextIOBase):
    """A stream that tells signs which cannot be printed by their number, and never stumbles over one.

    as_given : the stream itself, for what is known to be printable or is meant to steer the terminal
    """

    def __init__(self, as_given: TextIO) -> None:
        if isinstance(as_given, TextIOWrapper):
            as_given.reconfigure(errors="backslashreplace")
        self.as_given = as_given

    def write(self, text: str) -> int:
        """Write the text made printable; returns how many signs were given."""
        self.as_given.write(printable_text(text))
        return len(text)

    def flush(self) -> None:
        """Pass on what was written."""
        self.as_given.flush()

    def isatty(self) -> bool:
        """Whether somebody looks at it."""
        return self.as_given.isatty()

    def fileno(self) -> int:
        """The number of the file behind it."""
        return self.as_given.fileno()

    @property
    def encoding(self) -> str:  # type: ignore[override]
        """The encoding of the stream behind it."""
        return self.as_given.encoding


def guard_streams() -> None:
    """Let nothing but printable text out of this program, its own colours excepted."""
    sys.stdout, sys.stderr = PrintableStream(sys.stdout), PrintableStream(sys.stderr)
