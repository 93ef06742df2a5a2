"""How much work questions about holes may cost: counted, not timed, so that the same question ends the same way."""

from collections.abc import Hashable
from dataclasses import dataclass, field

MOST_WORK = 20_000_000
"""The usual allowance, in rows looked at: one thing held against one edge, or one other thing, once. Some two
seconds."""

ROWS_IN_UNIT = 1_000_000
"""Where people read it, work is told in millions of rows."""

ROWS_OF_A_QUESTION = 10_000
"""What a question costs beside the rows it looks at."""


@dataclass(slots=True)
class Work:
    """What is left of an allowance; goes down as it is spent.

    left : rows that may still be looked at
    spent : rows looked at
    """

    left: int
    spent: int = 0

    @property
    def is_out(self) -> bool:
        """Whether the allowance ran out."""
        return self.left <= 0

    def spend(self, rows: int) -> None:
        """Take rows from what is left."""
        self.left -= rows
        self.spent += rows


@dataclass(slots=True, kw_only=True, eq=False)
class Allowance:
    """What all questions about holes of one plan may cost; goes down as they are asked.

    A question costs what it would cost if nothing were remembered, and nothing where the same plan asked it before.

    each_rows : rows that each search for room may look at
    whole_rows : rows that all of them may look at together; None for any number
    spent_rows : looked at so far
    refused_n : questions that were not asked for want of work
    asked : questions that were asked
    """

    each_rows: int = MOST_WORK
    whole_rows: int | None = None
    spent_rows: int = 0
    refused_n: int = 0
    asked: set[Hashable] = field(default_factory=set)

    def may_ask(self, question: Hashable) -> bool:
        """Whether a question may be asked; a no is counted."""
        if self.whole_rows is None or self.spent_rows < self.whole_rows or question in self.asked:
            return True
        self.refused_n += 1
        return False

    def note(self, question: Hashable, rows: int) -> None:
        """What a question cost that was asked."""
        if question not in self.asked:
            self.asked.add(question)
            self.spent_rows += rows + ROWS_OF_A_QUESTION
