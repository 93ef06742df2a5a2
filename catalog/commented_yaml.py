"""A new file in YAML with a comment behind each value that somebody should look at again."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import yaml

from catalog.yaml_text import read_yaml

WIDEST = 1_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Noted:
    """A value and what is to be said of it."""

    value: Any
    note: str


def commented_text(value: Mapping[str, Any], *, head: Sequence[str] = ()) -> str:
    """The text of a file that says `value`, whose inner values may be Noted.

    head : comments above everything
    """
    lines = [*(f"# {line}" for line in head), *_map_lines(value, indent=0)]
    text = "\n".join(lines) + "\n"
    read = read_yaml(text.encode("utf-8"))
    assert not read.slips, "what is written can be read"
    assert read.value == without_notes(value), "what is written is what was told"
    return text


def without_notes(value: Any) -> Any:
    """The value alone."""
    if isinstance(value, Noted):
        return without_notes(value.value)
    if isinstance(value, Mapping):
        return {name: without_notes(inner) for name, inner in value.items()}
    if isinstance(value, list | tuple):
        return [without_notes(inner) for inner in value]
    return value


def _map_lines(value: Mapping[str, Any], *, indent: int) -> Iterator[str]:
    for name, inner in value.items():
        yield from _field_lines(f"{' ' * indent}{name}:", inner, indent=indent + 2)


def _field_lines(start: str, inner: Any, *, indent: int) -> Iterator[str]:
    bare, note = (inner.value, f"   # {_one_line(inner.note)}") if isinstance(inner, Noted) else (inner, "")
    if isinstance(bare, Mapping) and _has_notes(bare):
        yield start + note
        yield from _map_lines(bare, indent=indent)
    elif isinstance(bare, list | tuple) and any(isinstance(item, Mapping) for item in bare):
        yield start + note
        for item in bare:
            yield from _item_lines(item, indent=indent)
    else:
        yield f"{start} {_in_one_line(bare)}{note}"


def _item_lines(item: Any, *, indent: int) -> Iterator[str]:
    if not (isinstance(item, Mapping) and (_has_notes(item) or _is_deep(item))):
        yield f"{' ' * indent}- {_in_one_line(item)}"
        return
    first, *rest = _map_lines(item, indent=indent + 2)
    yield f"{' ' * indent}- {first.lstrip()}"
    yield from rest


def _has_notes(value: Any) -> bool:
    if isinstance(value, Noted):
        return True
    inner = value.values() if isinstance(value, Mapping) else value if isinstance(value, list | tuple) else ()
    return any(_has_notes(one) for one in inner)


def _is_deep(item: Mapping[str, Any]) -> bool:
    """Whether it holds lists of things, as a frame does."""
    return any(isinstance(one, list | tuple) and one and isinstance(one[0], Mapping) for one in item.values())


def _in_one_line(value: Any) -> str:
    """The value as a program for YAML writes it, so that nothing in it is read as something else."""
    dumped = yaml.safe_dump(
        [_as_written(without_notes(value))], default_flow_style=True, width=WIDEST, sort_keys=False, allow_unicode=True
    )
    return str(dumped).strip()[1:-1]


def _as_written(value: Any) -> Any:
    """The same with whole numbers as people write them."""
    if isinstance(value, float) and value.is_integer():
        return int(value)
    if isinstance(value, Mapping):
        return {name: _as_written(inner) for name, inner in value.items()}
    return [_as_written(inner) for inner in value] if isinstance(value, list | tuple) else value


def _one_line(words: str) -> str:
    return " ".join(words.split())
