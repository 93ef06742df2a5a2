"""Sizes as said at the bench: a number, from..to, plus or minus; a hole by its shape, or by the drill that went in."""

import re
from dataclasses import dataclass
from typing import Any

from catalog import Noted, TraceRefused, asked_field, read_range, trace_points
from ui.shared.dialogue.questions import AnswerRefused
from ui.shared.number_text import read_number
from ui.shared.opening_text import SHAPES

_FROM_TO = re.compile(r"\s*(?:\.\.+|…)\s*")
_PLUS_MINUS = re.compile(r"\s*(?:±|\+/?-)\s*")
_FIELDS = {"corner": "corner_radius"}
"""What a shape's size is called in files, where that is another word than on the form."""

OPENING_ALLOWED = (
    "round 6.4, slot 18x7, oval 12x7, box 12x7 r1, outline 0,0 12,0 6,9, a size 6.5..7, "
    "goes 6.4 for a drill that went in, or -"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """A size that somebody read.

    low, high : the same where only one number was said
    tolerance : plus or minus as said; None where nothing was
    """

    low: float
    high: float
    tolerance: float | None = None

    @property
    def written(self) -> float | str:
        """As a catalog file has it: one number, or from..to."""
        return self.low if self.low == self.high else f"{self.low:g}..{self.high:g}"


def read_size(words: str, *, kind: str, name: str) -> Size:
    """A number with the range of a field, from..to, or with plus or minus behind it.

    kind, name : of the field in the catalog's files, such as "port" and "wall"

    Raises AnswerRefused where it is none, or out of the field's range.
    """
    field = asked_field(kind, name)
    unit = "mm" if field.unit == "mm" else "deg" if field.unit == "degrees" else field.unit
    size, *off = _PLUS_MINUS.split(words)
    ends = [_number(word, unit) for word in _FROM_TO.split(size)]
    if len(ends) > 2 or len(off) > 1 or (off and len(ends) > 1):
        raise AnswerRefused("one size is wanted")
    if ends[0] > ends[-1]:
        raise AnswerRefused(f"from {ends[0]:g} to {ends[-1]:g} runs backwards")
    for number in ends:
        if not field.takes(number):
            raise AnswerRefused(f"{number:g} is not within {field.range}")
    return Size(low=ends[0], high=ends[-1], tolerance=_number(off[0], unit) if off else None)


def read_one(words: str, *, kind: str, name: str) -> float:
    """One number with the range of a field.

    Raises AnswerRefused where it is none, or is told as a range.
    """
    size = read_size(words, kind=kind, name=name)
    if size.high > size.low or size.tolerance is not None:
        raise AnswerRefused("one number is wanted, without a range")
    return size.low


def _number(word: str, unit: str) -> float:
    read = read_number(word, unit=unit)
    if read.value is None:
        raise AnswerRefused(read.problem.rstrip(".") or "a number is wanted")
    return read.value


def read_hole_size(words: str) -> dict[str, Any]:
    """A hole in the fields of a catalog file.

    Raises AnswerRefused where it is none.
    """
    said = re.sub(r"^at least ", "goes ", words.replace("×", "x").casefold())
    said = re.sub(r"^(\d\S*) (round|slot|oval)$", r"\2 \1", said)
    kind, _, rest = said.partition(" ")
    if kind in ("goes", "gauge"):
        return {"at_least": read_one(rest, kind="round", name="diameter")}
    if kind == "outline":
        return _outline(words)
    if kind in SHAPES:
        return _sized(kind, rest)
    if kind[:1].isdigit() and "x" not in said:
        return _sized("round", said)
    if kind[:1].isdigit():
        raise AnswerRefused(f"is it a slot, an oval or a box? Say “slot {said}”")
    raise AnswerRefused(f"“{kind}” is not a shape")


def _sized(shape: str, rest: str) -> dict[str, Any]:
    names = list(SHAPES[shape].asked)
    rest, *off = _PLUS_MINUS.split(rest)
    parts = [part for part in re.split(r"\s*x\s*|\s*\br\s*", rest.strip()) if part]
    if len(parts) != len(names) or len(off) > 1:
        wanted = " and ".join(SHAPES[shape].asked.values()).replace(", mm", "").lower()
        raise AnswerRefused(f"{shape} is told by {wanted}")
    sizes = {
        _FIELDS.get(name, name): read_size(part, kind=shape, name=_FIELDS.get(name, name))
        for name, part in zip(names, parts, strict=True)
    }
    if "corner_radius" in sizes and 2 * sizes["corner_radius"].high > min(sizes["length"].low, sizes["width"].low):
        raise AnswerRefused("the corner radius is at most half the smaller side")
    if off and any(size.high > size.low for size in sizes.values()):
        raise AnswerRefused("a range says how well by itself, without plus or minus")
    tolerance = _number(off[0], "mm") if off else 0.0
    if not asked_field(shape, "tolerance").takes(tolerance):
        raise AnswerRefused(f"plus or minus {tolerance:g} is not within {asked_field(shape, 'tolerance').range}")
    written = {name: size.written for name, size in sizes.items()}
    return {"shape": shape, **written, **({"tolerance": tolerance} if off else {})}


def _outline(words: str) -> dict[str, Any]:
    try:
        traced = trace_points(" ".join(words.split()[1:]))
    except TraceRefused as refused:
        raise AnswerRefused(f"{str(refused)[:1].lower()}{str(refused)[1:].rstrip('.')}") from refused
    return {"shape": "outline", "points": [list(point) for point in traced.points_mm]}


def opening_fields(opening: dict[str, Any] | None) -> dict[str, Any]:
    """A hole as its port has it; the one place that knows how one of unknown size is written."""
    if opening is None:
        return {"opening": Noted(value="unknown", note="not measured: measure it first")}
    return {"opening": opening}


def size_words(opening: Any) -> str:
    """A hole of a catalog file as it is typed; "" where there is none to tell."""
    fields = opening if isinstance(opening, dict) else {}
    if "at_least" in fields:
        return f"goes {as_said(fields['at_least'])}"
    if fields.get("shape") == "outline":
        return "outline " + " ".join(f"{x:g},{y:g}" for x, y in fields["points"])
    shape = SHAPES.get(str(fields.get("shape")))
    if shape is None:
        return ""
    words = shape.text.format(**{name: as_said(fields.get(_FIELDS.get(name, name), 0)) for name in shape.asked})
    return words + (f" ±{fields['tolerance']:g}" if fields.get("tolerance") is not None else "")


def as_said(size: float | str) -> str:
    """A size of a catalog file as it is typed."""
    return size if isinstance(size, str) else f"{size:g}"


def ends_of(size: float | str) -> tuple[float, float]:
    """The smallest and the largest that a size of a catalog file may be."""
    found = read_range(size) if isinstance(size, str) else (size, size)
    assert found is not None, "a size is a number or from..to"
    return found
