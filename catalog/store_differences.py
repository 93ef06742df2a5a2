"""What differs between two versions of a document, in words short enough for a message."""

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

MISSING = object()


_LONGEST = 60
"""Signs of a value that are told."""


def differences(before: Mapping[str, Any], after: Mapping[str, Any]) -> dict[str, tuple[Any, Any]]:
    """Every place that differs, with what stood and what stands there; MISSING for nothing."""
    return dict(_differences(before, after, place=""))


def sentences(changed: Mapping[str, tuple[Any, Any]], *, at_most: int = 6) -> tuple[str, ...]:
    """The differences as `place: before -> after`, the rest counted."""
    said = [f"{place or 'all of it'}: {_shown(a)} -> {_shown(b)}" for place, (a, b) in list(changed.items())[:at_most]]
    rest = len(changed) - at_most
    return (*said, f"and {rest} more") if rest > 0 else tuple(said)


def _differences(before: Any, after: Any, *, place: str) -> Iterator[tuple[str, tuple[Any, Any]]]:
    if isinstance(before, Mapping) and isinstance(after, Mapping):
        for key in dict.fromkeys([*before, *after]):
            inner = f"{place} > {key}" if place else str(key)
            yield from _differences(before.get(key, MISSING), after.get(key, MISSING), place=inner)
    elif _is_list(before) and _is_list(after) and len(before) == len(after):
        for number, (a, b) in enumerate(zip(before, after, strict=True)):
            yield from _differences(a, b, place=f"{place} {_label(a, b) or number + 1}")
    elif (
        before is MISSING or after is MISSING or before != after or isinstance(before, bool) != isinstance(after, bool)
    ):
        yield place, (before, after)


def _is_list(value: Any) -> bool:
    return isinstance(value, Sequence) and not isinstance(value, str)


def _label(before: Any, after: Any) -> str:
    """A list item is named by its id where both sides agree on it."""
    if isinstance(before, Mapping) and isinstance(after, Mapping) and before.get("id") == after.get("id"):
        return str(before.get("id") or "")
    return ""


def _shown(value: Any) -> str:
    if value is MISSING:
        return "nothing"
    if isinstance(value, Mapping):
        text = ", ".join(f"{key} {f'{one:.10g}' if isinstance(one, float) else one}" for key, one in value.items())
    else:
        text = value if isinstance(value, str) else repr(value)
    return text if len(text) <= _LONGEST else text[: _LONGEST - 3] + "..."
