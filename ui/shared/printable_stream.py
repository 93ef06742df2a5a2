"""Streams of the terminal: whatever a file, a name or a database says, it steers nothing there."""

import os
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


STANDARD_OUTPUT = 1
"""The number under which libraries that are not Python write their own remarks."""


def guard_streams() -> None:
    """Let nothing but printable text out of this program, its own colours excepted, and to standard output nothing but
    what the program itself says: a solver's remarks lead nowhere.
    """
    sys.stdout, sys.stderr = PrintableStream(_kept_for_answers(sys.stdout)), PrintableStream(sys.stderr)


def open_to_libraries() -> None:
    """Lead standard output out again, for another program that takes this one's place."""
    sys.stdout.flush()
    os.dup2(sys.stdout.fileno(), STANDARD_OUTPUT)


def _kept_for_answers(stream: TextIO) -> TextIO:
    """The same stream under a number of its own; what is written to its old number is lost."""
    if not isinstance(stream, TextIOWrapper) or stream.fileno() != STANDARD_OUTPUT:
        return stream
    stream.flush()
    kept = TextIOWrapper(
        os.fdopen(os.dup(STANDARD_OUTPUT), "wb"),
        encoding=stream.encoding,
        errors=stream.errors,
        line_buffering=stream.line_buffering,
        write_through=stream.write_through,
    )
    _lose(STANDARD_OUTPUT)
    return kept


def lead_nowhere(stream: TextIO) -> None:
    """Lose what nobody reads any more, so that closing the stream is no failure."""
    _lose(stream.fileno())


def _lose(number: int) -> None:
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, number)
    os.close(nowhere)
