"""A number as people type it, with a decimal point or a decimal comma; nothing is ever guessed."""

import re
from dataclasses import dataclass

from catalog import Spread

_ONE = re.compile(r"[+−-]?(?:[0-9]+[.,]?[0-9]*|[.,][0-9]+)", re.ASCII)
_WITH_THOUSANDS = re.compile(r"[+−-]?[0-9]{1,3}(?:[ '’.,][0-9]{3})+(?:[.,][0-9]*)?", re.ASCII)
_SPACES = re.compile(r"[\u00a0\u2007\u202f]")
LONGEST_NUMBER = 20
"""Signs; no measure has more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TypedNumber:
    """What was typed in a field for a number.

    value : in the field's unit; None where the field is empty or does not hold a number
    problem : what is wrong with it, as a sentence; "" where nothing is
    remark : how it was read, where that may surprise; "" where not
    """

    value: float | None = None
    problem: str = ""
    remark: str = ""


def read_measure_typed(typed: str, *, unit: str) -> TypedNumber:
    """The same, or a range such as 6.5..7 with its unit or none behind it.

    unit : what the field counts in, "" for none
    """
    words = _SPACES.sub(" ", typed).strip()
    if ".." not in words:
        return read_number(typed, unit=unit)
    low, high = (read_number(end, unit=unit).value for end in words.split("..", 1))
    if low is None or high is None or low >= high:
        return TypedNumber(problem=f"“{words[:LONGEST_NUMBER]}” is not a range from a smaller to a larger number.")
    told = Spread(low, high)
    return TypedNumber(value=told, remark=f"Read as {told:g} ± {told.half:g} {unit}".rstrip())


def as_typed(value: float) -> str:
    """A number or a range as it is typed."""
    return f"{value.low:g}..{value.high:g}" if isinstance(value, Spread) else f"{value:g}"


def read_number(typed: str, *, unit: str) -> TypedNumber:
    """The number in a field, its unit or none behind it; a comma is a decimal sign, as is a point.

    unit : what the field counts in, "" for none
    """
    words = _SPACES.sub(" ", typed).strip()
    number = words.removesuffix(unit).rstrip() if unit else words
    if not words:
        return TypedNumber()
    if len(number) <= LONGEST_NUMBER and _ONE.fullmatch(number):
        value = float(number.replace(",", ".").replace("−", "-"))
        remark = f"Read as {value:g} {unit}".rstrip() if "," in number else ""
        return TypedNumber(value=value, remark=remark)
    if len(number) <= LONGEST_NUMBER and _WITH_THOUSANDS.fullmatch(number):
        return TypedNumber(problem=f"“{words}” has marks between thousands: write it without them.")
    shown = words if len(words) <= LONGEST_NUMBER else f"{words[:LONGEST_NUMBER]}…"
    return TypedNumber(problem=f"“{shown}” is not a number such as 4.5 or 4,5.")
