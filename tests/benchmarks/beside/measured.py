"""What a comparison measures, and how a list of them becomes the table in DEVELOPERS.md."""

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

Done = TypeVar("Done")

BEGIN, END = "<!-- benchmarks: begin -->", "<!-- benchmarks: end -->"
HEAD = ("benchmark", "the same work", "ours", "beside", "takes", "ratio", "aim", "measured")


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """One comparison, done.

    name : what it goes by in the table and on the command line
    work : what was done, by both
    ours_s, beside_s : CPU seconds, of what somebody waits for seconds of the clock [s]
    beside : what ours is held against
    aim : what was aimed at, in words; empty where nothing was
    on : the day, and the machine
    """

    name: str
    work: str
    ours_s: float
    beside: str
    beside_s: float
    aim: str = ""
    on: str = ""

    @property
    def ratio(self) -> float:
        """How many times longer the other takes."""
        return self.beside_s / self.ours_s

    @property
    def cells(self) -> tuple[str, ...]:
        """The row of the table."""
        return (
            self.name,
            self.work,
            seconds_in_words(self.ours_s),
            self.beside,
            seconds_in_words(self.beside_s),
            f"{self.ratio:.3g}",
            self.aim,
            self.on,
        )


@dataclass(slots=True)
class Stopwatch:
    """CPU time, added up over pieces of work."""

    seconds: float = field(default=0.0)

    def time(self, work: Callable[[], Done]) -> Done:
        """Do a piece of work, and count what it takes."""
        began = time.process_time()
        done = work()
        self.seconds += time.process_time() - began
        return done


def seconds_in_words(seconds: float) -> str:
    """Three figures, in s, ms or us."""
    for unit, scale in (("s", 1.0), ("ms", 1e3)):
        if seconds * scale >= 1:
            return f"{seconds * scale:.3g} {unit}"
    return f"{seconds * 1e6:.3g} us"


def with_rows(text: str, measured: Sequence[Measured], *, order: Sequence[str]) -> str:
    """A text with these rows in the table between its marks; rows of other benchmarks stay, those of none go.

    order : names of all benchmarks, as the rows are to follow each other

    Raises ValueError where the marks are not there, once each and in order.
    """
    if text.count(BEGIN) != 1 or text.count(END) != 1 or text.index(BEGIN) > text.index(END):
        raise ValueError(f"the text must hold {BEGIN} and {END} once each, in this order")
    rows = {**rows_of(text), **{each.name: f"| {' | '.join(each.cells)} |" for each in measured}}
    head = (f"| {' | '.join(HEAD)} |", f"| {' | '.join('---' for _ in HEAD)} |")
    table = "\n".join((BEGIN, *head, *(rows[name] for name in order if name in rows), END))
    return text[: text.index(BEGIN)] + table + text[text.index(END) + len(END) :]


def rows_of(text: str) -> dict[str, str]:
    """The rows between the marks by the benchmark that each names."""
    block = text[text.index(BEGIN) : text.index(END)].splitlines()
    return {line.split("|")[1].strip(): line for line in [line for line in block if line.startswith("| ")][2:]}
