"""Validation errors in words a mechanic can use: what was given, what is allowed, what the likely slip is."""

import math
import re
from bisect import bisect_left
from collections.abc import Callable, Iterable, Mapping
from difflib import get_close_matches
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from catalog.errors import MOST_PROBLEMS
from catalog.field_help import DISCRIMINATORS, IMPLIED, FieldHelp, fields_of, help_at, model_at, words_at
from catalog.yaml_text import Path
from planner.amounts import MILLIMETRES_PER_INCH

MOST_COMPARED = 100
"""Known words on each side of an unknown one, by the alphabet, that are held against it."""

LONGEST_COMPARED = 100

Complaint = tuple[Path, str, str]
"""Where, what was given, what is allowed."""


def complaints_of(error: ValidationError, *, annotation: Any, value: object) -> list[Complaint]:
    """Every complaint of a validation, in the order of the file's fields; of too many the first ones."""
    details = error.errors(include_url=False)[:MOST_PROBLEMS]
    return [_complaint(detail, annotation, value) for detail in details]


def did_you_mean(word: str, known: Iterable[str]) -> str:
    """A hint at the nearest known words, or else all of them when they are few."""
    known = sorted(known)
    place = bisect_left(known, word)
    beside = known[max(place - MOST_COMPARED, 0) : place + MOST_COMPARED]
    near = get_close_matches(word[:LONGEST_COMPARED], beside, n=3, cutoff=0.6)
    if near:
        return f"did you mean {' or '.join(near)}?"
    if not known:
        return "the catalog has none"
    listed = ", ".join(known[:12]) + (", ..." if len(known) > 12 else "")
    return f"known here: {listed}"


def shown(value: object) -> str:
    """A value as the mechanic typed it, shortened."""
    if value is None:
        return "nothing"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return "'" + (value if len(value) <= 60 else value[:57] + "...") + "'"
    if isinstance(value, int) and abs(value) > 10**15:
        return f"a number of {len(str(abs(value))) if abs(value) < 10**4000 else 'thousands of'} digits"
    if isinstance(value, int | float):
        return f"{value:g}" if abs(value) < 1e6 else str(value)
    return "a list" if isinstance(value, list | tuple) else "a mapping"


def _complaint(detail: ErrorDetails, annotation: Any, value: object) -> Complaint:
    path = _path_in_file(detail["loc"], value)
    kind, given = detail["type"], detail["input"]
    if kind == "missing" and path and isinstance(path[-1], int):
        return _too_few(path[:-1], given, annotation, value)
    field = help_at(annotation, value, path)
    if kind == "missing":
        return path, "nothing was given", _wanted(field)
    if kind == "extra_forbidden":
        model = model_at(annotation, value, path[:-1])
        known = fields_of(model) if model else {}
        moved = getattr(model, "MOVED", {}).get(str(path[-1]))
        return path, f"{path[-1]} is not a field here", moved or did_you_mean(str(path[-1]), known)
    if kind in ("union_tag_invalid", "union_tag_not_found"):
        word = str(detail.get("ctx", {}).get("discriminator", "kind")).strip("'")
        return _tag_complaint(path, given, word, words_at(annotation, value, path, word))
    sentence = _SENTENCES.get(kind)
    if sentence is not None:
        return path, *sentence(given, field, detail.get("ctx", {}))
    return path, f"{shown(given)} was given", detail["msg"].lower()


def _too_few(path: Path, given: object, annotation: Any, value: object) -> Complaint:
    """A place or a pair with a number or a name too few."""
    field = help_at(annotation, value, path)
    count = len(given) if isinstance(given, list | tuple) else 0
    return path, f"only {count} in the list", _lower_first(field.help) if field and field.help else "more are needed"


def _path_in_file(loc: tuple[str | int, ...], value: object) -> Path:
    """The validator's path without the shape and kind words it puts in between."""
    path: list[str | int] = []
    for step in loc:
        if isinstance(value, Mapping):
            if step not in value and any(value.get(word) == step for word in DISCRIMINATORS):
                continue
            if step in IMPLIED.values() and any(field in value for field in IMPLIED):
                continue
            value = value.get(step)
        elif isinstance(value, list | tuple) and isinstance(step, int) and step < len(value):
            value = value[step]
        else:
            value = None
        path.append(step)
    return tuple(path)


def _wanted(field: FieldHelp | None) -> str:
    if field is not None and field.is_number:
        return f"{field.range} must be given"
    if field is not None and field.choices:
        return f"one of {', '.join(field.choices)} must be given"
    return "it must be given" + (f": {_lower_first(field.help)}" if field and field.help else "")


def _lower_first(sentence: str) -> str:
    return sentence[:1].lower() + sentence[1:].rstrip(".")


def _tag_complaint(path: Path, given: object, word: str, choices: list[str]) -> Complaint:
    if isinstance(given, Mapping) and word not in given:
        return (*path, word), "nothing was given", f"one of {', '.join(choices)} must be given"
    found = given.get(word) if isinstance(given, Mapping) else given
    return (*path, word), f"{shown(found)} was given", _one_of(str(found), choices)


def _one_of(given: str, choices: Iterable[str]) -> str:
    choices = list(choices)
    near = get_close_matches(given, choices, n=1, cutoff=0.6)
    hint = f"; did you mean {near[0]}?" if near else ""
    return f"one of {', '.join(choices)} is allowed{hint}"


def _number_text(given: object, field: FieldHelp | None, ctx: Mapping[str, Any]) -> tuple[str, str]:  # noqa: ARG001
    allowed = f"a number is allowed, {field.range}" if field and field.is_number else "a number is allowed"
    if not isinstance(given, str):
        return f"{shown(given)} was given", allowed
    if re.fullmatch(r"\s*[-+]?\d*,\d+\s*", given):
        return f"{given.strip()} was given", f"{allowed}; write a point, not a comma: {given.strip().replace(',', '.')}"
    if re.fullmatch(r"\s*[-+]?(\d+\.?\d*|\.\d+)\s*", given):
        return f"the text '{given}' was given", f"{allowed}, without quotes"
    if unit := re.fullmatch(r"\s*([-+]?\d+[.,]?\d*)\s*(\"|''|[a-zA-Z°]+)\s*", given):
        number = unit[1].replace(",", ".")
        hint = (
            _inches_hint(float(number), field)
            if unit[2] in ('"', "''", "in", "inch")
            else f"; write {number} without unit"
        )
        return f"{shown(given)} was given", allowed + hint
    return f"{shown(given)} was given", allowed


def _out_of_range(given: object, field: FieldHelp | None, ctx: Mapping[str, Any]) -> tuple[str, str]:
    if not isinstance(given, int | float) or field is None or not field.is_number:
        limit = next((f"{word} {ctx[key]}" for key, word in _LIMIT_WORDS.items() if key in ctx), "less or more")
        return f"{shown(given)} was given", f"{limit} is allowed"
    unit = f" {field.unit}" if field.unit else ""
    return f"{shown(given)}{unit} was given", f"{field.range} is allowed{_unit_hint(given, field)}"


_LIMIT_WORDS = {"ge": "at least", "le": "at most", "gt": "more than", "lt": "less than"}


def _inches_hint(given: float, field: FieldHelp | None) -> str:
    return _hint(
        given * MILLIMETRES_PER_INCH, field, f"; if that was inches, it is {given * MILLIMETRES_PER_INCH:.1f} mm"
    )


def _unit_hint(given: float, field: FieldHelp | None) -> str:
    in_cm = f"; if that was centimetres, it is {given * 10:g} mm"
    return _inches_hint(given, field) or _hint(given * 10, field, in_cm)


def _hint(in_mm: float, field: FieldHelp | None, words: str) -> str:
    """What a number may have been meant as, where that would be allowed."""
    is_length = field is not None and field.unit == "mm" and math.isfinite(in_mm) and in_mm > 0
    return words if is_length and field is not None and field.takes(in_mm) else ""


def _not_finite(given: object, field: FieldHelp | None, ctx: Mapping[str, Any]) -> tuple[str, str]:  # noqa: ARG001
    word = "not a number (NaN)" if isinstance(given, float) and math.isnan(given) else "an endless number"
    return f"{word} was given", f"{field.range if field and field.is_number else 'a finite number'} is allowed"


def _choice(given: object, field: FieldHelp | None, ctx: Mapping[str, Any]) -> tuple[str, str]:
    choices = field.choices if field and field.choices else re.findall(r"'([^']*)'", str(ctx.get("expected", "")))
    if not choices:
        return f"{shown(given)} was given", f"{ctx.get('expected', 'something else')} is allowed"
    return f"{shown(given)} was given", _one_of(str(given), choices)


def _plain(allowed: str) -> Callable[[object, FieldHelp | None, Mapping[str, Any]], tuple[str, str]]:
    def sentence(given: object, field: FieldHelp | None, ctx: Mapping[str, Any]) -> tuple[str, str]:  # noqa: ARG001
        return f"{shown(given)} was given", allowed

    return sentence


def _text_wanted(given: object, field: FieldHelp | None, ctx: Mapping[str, Any]) -> tuple[str, str]:  # noqa: ARG001
    if field is not None and "decimal text" in field.help.lower():
        hint = f' such as "{given:.2f}"' if isinstance(given, float) and math.isfinite(given) else ', such as "1.20"'
        return f"the number {shown(given)} was given", f"money is decimal text in quotes{hint}"
    hint = f': "{given}"' if isinstance(given, int | float) and abs(given) < 10**15 else ""
    return f"{shown(given)} was given", f"text is allowed; put it in quotes{hint}"


def _bad_text(given: object, field: FieldHelp | None, ctx: Mapping[str, Any]) -> tuple[str, str]:  # noqa: ARG001
    allowed = _lower_first(field.help) if field and field.help else "other letters are allowed"
    if isinstance(given, str) and re.fullmatch(r"\d+,\d+", given):
        allowed += f"; write a point, not a comma: {given.replace(',', '.')}"
    return f"{shown(given)} was given", allowed


def _wrong_count(given: object, field: FieldHelp | None, ctx: Mapping[str, Any]) -> tuple[str, str]:  # noqa: ARG001
    most, least = ctx.get("max_length"), ctx.get("min_length")
    count = f"{ctx.get('actual_length') or 'too many'} values were given"
    wanted = f"at least {least}" if most is None else f"at most {most}"
    return count, f"{wanted} are allowed" + (f": {field.help.rstrip('.')}" if field and field.help else "")


_SENTENCES: dict[str, Callable[[object, FieldHelp | None, Mapping[str, Any]], tuple[str, str]]] = {
    "float_type": _number_text,
    "int_type": _number_text,
    "greater_than_equal": _out_of_range,
    "less_than_equal": _out_of_range,
    "greater_than": _out_of_range,
    "less_than": _out_of_range,
    "finite_number": _not_finite,
    "enum": _choice,
    "literal_error": _choice,
    "string_type": _text_wanted,
    "string_pattern_mismatch": _bad_text,
    "string_too_long": lambda given, field, ctx: (  # noqa: ARG005
        f"{len(str(given))} characters were given",
        f"at most {ctx.get('max_length')} are allowed",
    ),
    "bool_type": _plain("true or false is allowed"),
    "tuple_type": _plain("a list in brackets is allowed"),
    "list_type": _plain("a list in brackets is allowed"),
    "model_type": _plain("a mapping of fields is allowed, such as {id: ...}"),
    "model_attributes_type": _plain("a mapping of fields is allowed, such as {id: ...}"),
    "too_short": _wrong_count,
    "too_long": _wrong_count,
    "range": _plain("one number is allowed, or a range from the smaller to the larger such as 6.5..7"),
    "side": _plain("left, right, top, bottom, front, back or an hour of the clock from 0 to 12 by halves is allowed"),
    "outer": _plain("4 to 300 mm is allowed, or [across, up] for a tube that is not round"),
    "on_tube": _plain("window, or a place such as {from_start: 35, side: left} is allowed"),
    "blank": _plain("words are allowed"),
    "money": _plain("less than a million is allowed"),
    "tax": _plain('a part of the price up to "1" is allowed, such as "0.20" for 20 %'),
    "time_zone": _plain("a name of the IANA list is allowed, such as Europe/Lisbon"),
    "coin": _plain('more than "0" is allowed, such as "0.05"'),
    "no_direction": lambda given, field, ctx: (  # noqa: ARG005
        "a direction of length zero was given",
        "at least one of x, y, z must differ from 0",
    ),
    "not_in_order": lambda given, field, ctx: (  # noqa: ARG005
        f"{', '.join(shown(number) for number in given)} was given" if isinstance(given, list) else "no order",
        "least, likely, most must not fall",
    ),
}
