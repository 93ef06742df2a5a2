"""A value of an entry as it is typed in a field, and back; what cannot be read stays as typed, and is told there."""

from collections.abc import Mapping, Sequence
from typing import Any

from catalog import FieldSort
from ui.shared.number_text import read_number

Path = tuple[str | int, ...]


def as_text(value: Any, sort: FieldSort) -> str:
    """A value as it stands in its field."""
    if value is None:
        return ""
    if isinstance(value, list | tuple):
        inner = "; " if sort is FieldSort.POINTS else " " if sort is FieldSort.NUMBERS else ", "
        return inner.join(as_text(one, FieldSort.NUMBERS) for one in value)
    return f"{value:.10g}" if isinstance(value, float) else str(value)


def from_text(text: str, sort: FieldSort, *, unit: str = "") -> Any:
    """What was typed as the value a file would hold; None for an empty field."""
    text = text.strip()
    if not text:
        return None
    match sort:
        case FieldSort.NUMBER:
            return _number(text, unit)
        case FieldSort.NUMBERS:
            return [_number(one, unit) for one in text.split()]
        case FieldSort.POINTS:
            return [[_number(one, "") for one in point.split()] for point in text.split(";") if point.strip()]
        case FieldSort.TEXTS:
            return [one.strip() for one in text.split(",") if one.strip()]
        case FieldSort.MONEY:
            return text.replace(",", ".")
        case _:
            return text


def _number(text: str, unit: str) -> Any:
    """A number, a range as files write it, or the words as they are."""
    if ".." in text:
        low, high = (read_number(end, unit=unit).value for end in text.split("..", 1))
        return text if low is None or high is None else f"{low:.10g}..{high:.10g}"
    value = read_number(text, unit=unit).value
    if value is None:
        return text
    return int(value) if value == int(value) else value


def value_at(value: Any, path: Sequence[str | int]) -> Any:
    """What stands at a path; None where nothing does."""
    for step in path:
        if isinstance(value, Mapping):
            value = value.get(str(step))
        elif isinstance(value, list) and isinstance(step, int) and step < len(value):
            value = value[step]
        else:
            return None
    return value


def with_value(value: Any, path: Sequence[str | int], new: Any) -> Any:
    """A copy in which something else stands at a path; None takes it out."""
    if not path:
        return new
    step, *rest = path
    if isinstance(step, int):
        items = list(value or ())
        if new is None and not rest:
            return items[:step] + items[step + 1 :]
        changed = with_value(items[step] if step < len(items) else None, rest, new)
        return [*items[:step], changed, *items[step + 1 :]]
    fields = dict(value or {})
    changed = with_value(fields.get(step), rest, new)
    if changed is None:
        fields.pop(step, None)
        return fields
    return {**fields, step: changed}
