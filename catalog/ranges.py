"""Which fields of the files take a range, such as 6.5..7, in place of a number."""

from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from catalog.spreads import RANGE, Spread, read_range


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
