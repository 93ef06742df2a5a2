"""Frozen dataclasses that are made in a third of the time: a command loads some two hundred of them before it answers.

The standard decorator writes and compiles six methods for each class. Here one is, `__init__`; the others are the same
few functions for every class. What comes of it is a dataclass to `replace`, `fields` and everybody else.
"""

import dataclasses
from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from dataclasses import dataclass as dataclass
else:

    def dataclass(*, frozen: bool, slots: bool, kw_only: bool) -> Callable[[type], type]:
        """The decorator, for what it stands for: frozen, with slots, its fields given by name."""
        assert frozen
        assert slots
        assert kw_only
        return _made


def _made(cls: type) -> Any:
    cls.__doc__ = cls.__doc__ or cls.__name__  # else the standard decorator looks for a signature to tell
    made: Any = dataclasses.dataclass(init=False, repr=False, eq=False, slots=True, kw_only=True)(cls)
    fields = dataclasses.fields(made)
    told = tuple(field.name for field in fields if field.repr)
    compared = _values_of([field.name for field in fields if field.compare])

    def as_words(self: Any) -> str:
        return f"{made.__qualname__}({', '.join(f'{name}={getattr(self, name)!r}' for name in told)})"

    def is_equal(self: Any, other: Any) -> Any:
        return compared(self) == compared(other) if other.__class__ is made else NotImplemented

    def as_hash(self: Any) -> int:
        return hash(compared(self))

    methods = {"__init__": _init(made, fields), "__repr__": as_words, "__eq__": is_equal, "__hash__": as_hash}
    methods |= {"__setattr__": _refuse, "__delattr__": _refuse, "__getstate__": _state, "__setstate__": _put_state}
    for name, method in methods.items():
        if name not in cls.__dict__:
            setattr(made, name, method)
    return made


def _values_of(names: list[str]) -> Callable[[Any], Any]:
    return attrgetter(*names) if names else lambda _: ()


def _init(made: Any, fields: tuple[Any, ...]) -> Any:
    """The one method that is written out, for it is called most."""
    known: dict[str, Any] = {}
    words, lines = [], []
    for field in fields:
        name = field.name
        known[f"set_{name}"] = getattr(made, name).__set__
        if field.default_factory is not dataclasses.MISSING:
            known[f"make_{name}"], known["MISSING"] = field.default_factory, dataclasses.MISSING
            words.append(f"{name}=MISSING")
            lines.append(f" set_{name}(self, make_{name}() if {name} is MISSING else {name})")
            continue
        if field.default is not dataclasses.MISSING:
            known[f"default_{name}"] = field.default
        words.append(name if field.default is dataclasses.MISSING else f"{name}=default_{name}")
        lines.append(f" set_{name}(self, {name})")
    if hasattr(made, "__post_init__"):
        lines.append(" self.__post_init__()")
    exec(f"def __init__(self, *, {', '.join(words)}):\n" + "\n".join(lines), known)
    return known["__init__"]


def _refuse(_self: Any, name: str, *_: Any) -> None:
    raise dataclasses.FrozenInstanceError(f"cannot assign to field {name!r}")


def _state(self: Any) -> list[Any]:
    return [getattr(self, field.name) for field in dataclasses.fields(self)]


def _put_state(self: Any, state: list[Any]) -> None:
    for field, value in zip(dataclasses.fields(self), state, strict=True):
        object.__setattr__(self, field.name, value)
