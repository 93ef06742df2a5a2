"""How much work one question about a hole may cost: counted, not timed, so that the same question ends the same way."""

from dataclasses import dataclass

MOST_WORK = 20_000_000
"""The usual allowance, in rows looked at: one thing held against one edge, or one other thing, once. Some two
seconds."""


@dataclass(slots=True)
class Work:
    """What is left of an allowance; goes down as it is spent.

    left : rows that may still be looked at
    """

    left: int

    @property
    def is_out(self) -> bool:
        """Whether the allowance ran out."""
        return self.left <= 0

    def spend(self, rows: int) -> None:
        """Take rows from what is left."""
        self.left -= rows
