"""Parts and answers as plain text, and back: what goes to another process, and what hashes are made of.

Nothing is unpickled: a text names its class, and only the classes of the planner's front doors are known. The same
thing has the same text on every machine: fields in their order, sets sorted.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass, fields, is_dataclass
from decimal import Decimal
from enum import Enum
from typing import Any

from planner import CaseAnswers, Decider, PartsAnswer, WayAnswer, parts
from planner.verdicts import Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused:
    """A case that could not be decided at all.

    why : in a sentence
    """

    case_id: str
    why: str


class NotPlainText(ValueError):  # noqa: N818  (named for what happened)
    """A text that was not made here, or was damaged on the way."""


_KNOWN: dict[str, type] = {name: thing for name in parts.__all__ if isinstance(thing := getattr(parts, name), type)}
_KNOWN |= {each.__name__: each for each in (CaseAnswers, Decider, Outcome, PartsAnswer, Refused, WayAnswer)}


def to_text(thing: Any) -> str:
    """One line of JSON."""
    return json.dumps(_plain(thing), ensure_ascii=False, separators=(",", ":"), allow_nan=False)


def from_text(text: str) -> Any:
    """What a text was made of; what is listed comes back as a tuple.

    Raises NotPlainText for any other text.
    """
    try:
        return _thing(json.loads(text))
    except (ValueError, TypeError, KeyError, ArithmeticError) as error:
        raise NotPlainText(str(error)) from error


def _plain(thing: Any) -> Any:
    if isinstance(thing, Enum):
        return {"enum": [type(thing).__name__, thing.value]}
    if thing is None or isinstance(thing, str | int | float):
        return float(thing) if isinstance(thing, float) else thing  # a measure told as a range is its middle here
    if isinstance(thing, tuple | list):
        return [_plain(each) for each in thing]
    if isinstance(thing, Mapping):
        return {"map": [[_plain(key), _plain(value)] for key, value in thing.items()]}
    if isinstance(thing, frozenset):
        return {"set": sorted((_plain(each) for each in thing), key=json.dumps)}
    if isinstance(thing, Decimal):
        return {"decimal": str(thing)}
    if not is_dataclass(thing) or type(thing).__name__ not in _KNOWN:
        raise TypeError(f"{type(thing).__name__} has no plain text")
    return {"is": type(thing).__name__, "of": [_plain(getattr(thing, each.name)) for each in fields(thing)]}


def _thing(plain: Any) -> Any:
    if isinstance(plain, list):
        return tuple(map(_thing, plain))
    if not isinstance(plain, dict):
        return plain
    if "is" in plain:
        kind = _KNOWN[plain["is"]]
        names = [each.name for each in fields(kind)]
        return kind(**dict(zip(names, map(_thing, plain["of"]), strict=True)))
    if "enum" in plain:
        name, value = plain["enum"]
        return _KNOWN[name](value)
    if "map" in plain:
        return {_thing(key): _thing(value) for key, value in plain["map"]}
    if "set" in plain:
        return frozenset(map(_thing, plain["set"]))
    return Decimal(plain["decimal"])
