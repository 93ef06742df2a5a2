"""A measure told as a range, such as 6.5..7: the value is its middle, the tolerance half of it."""

import re
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

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


class MayBeRange:
    """Marks a field type that takes from..to beside a number; both ends must lie in the type's own limits."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        """The number's own checks, asked of both ends of a range."""
        return core_schema.no_info_wrap_validator_function(
            _range_or_number,
            handler(source),
            serialization=core_schema.plain_serializer_function_ser_schema(_as_written, when_used="always"),
        )

    def __get_pydantic_json_schema__(self, schema: CoreSchema, handler: GetJsonSchemaHandler) -> dict[str, Any]:
        """A number, or text of the range's form."""
        return {"anyOf": [handler(schema), {"type": "string", "pattern": RANGE}]}


def read_range(text: str) -> tuple[float, float] | None:
    """Both ends of a range as it is typed; None where it is none.

    >>> read_range("6.5..7"), read_range("6.5")
    ((6.5, 7.0), None)
    """
    found = re.fullmatch(RANGE, text)
    return None if found is None else (float(found[1]), float(found[2]))


def _range_or_number(value: Any, handler: core_schema.ValidatorFunctionWrapHandler) -> Any:
    if isinstance(value, Spread):
        return value
    if not isinstance(value, str) or ".." not in value:
        return handler(value)
    ends = read_range(value)
    if ends is None or ends[0] >= ends[1]:
        raise PydanticCustomError("range", "not a range from a smaller to a larger number")
    return Spread(handler(ends[0]), handler(ends[1]))


def _as_written(value: float) -> float | str:
    return f"{value.low:g}..{value.high:g}" if isinstance(value, Spread) else value
