"""The planner's parts as plain values, to be kept and read back without asking again whether they are sound.

A part is `{"class": its class, field: value, ...}` (no field can be called class), without the fields that say what
they say by default. Nothing but classes of `planner.parts` is ever made of what is read.
"""

from collections.abc import Mapping
from dataclasses import MISSING, fields, is_dataclass
from decimal import Decimal, InvalidOperation
from enum import Enum
from functools import cache
from typing import Any

from planner import parts

_CLASSES: dict[str, Any] = {name: found for name, found in vars(parts).items() if isinstance(found, type)}


class NotPlainParts(ValueError):  # noqa: N818  (named for what was found)
    """Values that are no parts as `as_plain` tells them."""


def as_plain(value: Any) -> Any:
    """A part, or anything that a part holds, as values that JSON has."""
    if isinstance(value, Enum):
        return {"enum": type(value).__name__, "value": value.value}
    if value is None or isinstance(value, str | bool | int | float):
        return value
    if isinstance(value, tuple):
        return [as_plain(item) for item in value]
    if is_dataclass(value):
        return _part_as_plain(value, type(value))
    if isinstance(value, Mapping):
        return {"map": [[as_plain(key), as_plain(item)] for key, item in value.items()]}
    if isinstance(value, frozenset):
        return {"set": sorted((as_plain(item) for item in value), key=str)}
    if isinstance(value, Decimal):
        return {"decimal": str(value)}
    raise TypeError(f"{type(value).__name__} is nothing that a part holds")


def _part_as_plain(part: Any, kind: Any) -> dict[str, Any]:
    told = [(name, getattr(part, name), default) for name, default in _defaults_of(kind).items()]
    changed = {name: as_plain(item) for name, item, default in told if not _is_same(item, default)}
    return {"class": kind.__name__, **changed}


def from_plain(value: Any) -> Any:
    """What `as_plain` was given.

    Raises NotPlainParts where it did not make the value.
    """
    try:
        return _made_of(value)
    except (KeyError, TypeError, ValueError, InvalidOperation) as problem:
        raise NotPlainParts(str(problem)) from problem


def _made_of(value: Any) -> Any:
    if isinstance(value, list):
        return tuple([_made_of(item) for item in value])
    if not isinstance(value, dict):
        return value
    if "class" in value:
        told = {name: _made_of(item) for name, item in value.items() if name != "class"}
        return _CLASSES[value["class"]](**told)
    if "enum" in value:
        return _CLASSES[value["enum"]](value["value"])
    if "map" in value:
        return {_made_of(key): _made_of(item) for key, item in value["map"]}
    if "set" in value:
        return frozenset(map(_made_of, value["set"]))
    return Decimal(value["decimal"])


@cache
def _defaults_of(kind: Any) -> dict[str, Any]:
    """Every field of a class, with what it says where nothing is told; MISSING where it must be told."""
    return {one.name: one.default if one.default_factory is MISSING else one.default_factory() for one in fields(kind)}


def _is_same(told: object, by_default: object) -> bool:
    """Whether reading it back gives the same, as the same sort of number too."""
    return type(told) is type(by_default) and told == by_default
