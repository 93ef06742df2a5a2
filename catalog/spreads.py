"""A number told as a range, such as 6.5..7: the value is its middle, the tolerance half of it."""

import re
from typing import Any

RANGE = r"^\s*([0-9]+(?:\.[0-9]+)?|\.[0-9]+)\s*\.\.\s*([0-9]+(?:\.[0-9]+)?|\.[0-9]+)\s*$"
"""From..to, with points for decimals."""


class Spread(float):
    """A number that was told as a range: it counts as the middle, and knows how far it may be off.

    low, high : its ends, in the field's own unit
    """

    low: float
    high: float

    def __new__(cls, low: float, high: float) -> "Spread":
        """The middle of a range, with its ends."""
        middle = super().__new__(cls, (low + high) / 2)
        middle.low, middle.high = low, high
        return middle

    @property
    def half(self) -> float:
        """Plus or minus on the middle, in the field's own unit."""
        return (self.high - self.low) / 2

    def __reduce__(self) -> tuple[Any, ...]:
        """How it is copied: by its ends."""
        return (Spread, (self.low, self.high))


def spread_of(value: float | None) -> float:
    """Half the range of a measure, in its own unit; 0 where one number was told, or nothing."""
    return value.half if isinstance(value, Spread) else 0.0


def read_range(text: str) -> tuple[float, float] | None:
    """Both ends of a range as it is typed; None where it is none.

    >>> read_range("6.5..7"), read_range("6.5")
    ((6.5, 7.0), None)
    """
    found = re.fullmatch(RANGE, text)
    return None if found is None else (float(found[1]), float(found[2]))
