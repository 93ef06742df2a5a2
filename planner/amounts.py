"""A number with its unit, for showing; and the only inch in the project."""

from dataclasses import dataclass

MILLIMETRES_PER_INCH = 25.4
"""Exact since the international yard and pound agreement of 1959."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Amount:
    """A value as a person reads it.

    value : the number
    unit : "mm", "deg", "N", "min" or a currency
    decimals : digits shown behind the point
    """

    value: float
    unit: str
    decimals: int = 1

    def __str__(self) -> str:
        return f"{self.value:.{self.decimals}f} {self.unit}"
