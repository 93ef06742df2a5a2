"""What is typed after a command, taken without a validator where it plainly is what is wanted.

typer has pydantic look at every word, also at a file's name, and to load that takes longer than to answer many a
question. So words, numbers and names of files are taken here, and all else, every slip among it, is left to typer.
"""

import os
import re
from collections.abc import Callable
from functools import partial
from pathlib import Path
from typing import Any, get_args, get_origin

import typer

_NUMBERS: dict[type, str] = {int: r"-?\d{1,15}", float: r"-?\d{1,15}(?:\.\d{1,15})?"}


class NotPlain(ValueError):  # noqa: N818  (named for what was found)
    """Typer has to say what this is, or what is wrong with it."""


def take_plain_values(command: Any) -> None:
    """Let a command of typer, and those below it, take plain values as they are."""
    for below in getattr(command, "commands", {}).values():
        take_plain_values(below)
    for param in (*command.params, command.get_help_option(typer.Context(command))):
        if hasattr(param, "type_descriptor"):  # else another typer, which is left as it is
            param.process_value = partial(_process_value, param, param.process_value)


def _process_value(param: Any, by_typer: Callable[[Any, Any], Any], ctx: typer.Context, value: Any) -> Any:
    """The value of a parameter, as typer makes it."""
    try:
        taken = _taken(value, param.type_descriptor.annotation, param.type_descriptor.parameter_info)
    except NotPlain:
        return by_typer(ctx, value)
    if param.required and param.value_is_missing(taken):
        return by_typer(ctx, value)
    return taken if param.callback is None else param.callback(ctx, param, taken)


def _taken(value: Any, kind: Any, wanted: Any) -> Any:
    if get_origin(kind) is list:
        if value is not None and not isinstance(value, list | tuple):
            raise NotPlain
        return () if value is None else [_taken(item, get_args(kind)[0], wanted) for item in value]
    if value is None or (isinstance(kind, type) and type(value) is kind and kind is not float):
        return value
    if wanted.parser is not None:
        return wanted.parser(value)
    if kind is Path and isinstance(value, str) and _is_plain_name(value, wanted):
        return Path(value)
    if kind in _NUMBERS:
        return _number(value, kind, wanted)
    raise NotPlain


def _is_plain_name(text: str, wanted: Any) -> bool:
    """Whether no more is asked of a file than its name, and that it can be read if it is there."""
    asks_more = wanted.exists or wanted.writable or wanted.resolve_path or wanted.allow_dash or wanted.path_type
    if asks_more or not (wanted.file_okay and wanted.dir_okay) or "\0" in text:
        return False
    return os.access(text, os.R_OK) or not os.path.exists(text)


def _number(value: Any, kind: type, wanted: Any) -> Any:
    if not re.fullmatch(_NUMBERS[kind], str(value), re.ASCII):
        raise NotPlain
    number = kind(value)
    if (wanted.min is not None and number < wanted.min) or (wanted.max is not None and number > wanted.max):
        raise NotPlain
    return number
