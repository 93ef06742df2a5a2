"""How far a table is, and how long it will take, in one line that is written over."""

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TextIO

EVERY_S = 0.5
"""Seconds between two looks at the clock's hands; more often nobody reads it."""


@dataclass(slots=True, kw_only=True)
class Progress:
    """Told on a stream that somebody watches; silent on any other.

    whole_n : how many cases there are
    clock : seconds, from anywhere
    """

    whole_n: int
    stream: TextIO
    clock: Callable[[], float]
    begun_s: float = field(init=False)
    told_s: float = field(init=False)
    kept_n: int | None = None

    def __post_init__(self) -> None:
        self.begun_s = self.told_s = self.clock()

    def tell(self, done_n: int) -> None:
        """Say how many cases are done, if it was not just said.

        done_n : with those that an earlier run had done, which is what is told first
        """
        self.kept_n = done_n if self.kept_n is None else self.kept_n
        now_s = self.clock()
        if self.stream.isatty() and (done_n == self.whole_n or now_s - self.told_s >= EVERY_S):
            self.told_s = now_s
            left = left_words(done_n=done_n - self.kept_n, left_n=self.whole_n - done_n, spent_s=now_s - self.begun_s)
            self.stream.write(f"\r{done_n} of {self.whole_n} frames{left}\x1b[K")
            self.stream.flush()

    def end(self) -> None:
        """Leave the line to what comes next."""
        if self.stream.isatty():
            self.stream.write("\r\x1b[K")
            self.stream.flush()


def left_words(*, done_n: int, left_n: int, spent_s: float) -> str:
    """The time left if it goes on as so far; nothing before anything was done, or at the end.

    >>> left_words(done_n=10, left_n=50, spent_s=20.0)
    ', about 2 min left'
    """
    if done_n <= 0 or left_n <= 0:
        return ""
    left_s = spent_s / done_n * left_n
    return f", about {left_s:.0f} s left" if left_s < 60 else f", about {left_s / 60:.0f} min left"
