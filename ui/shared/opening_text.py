"""An opening typed in a few words, such as `slot 19x7`, read into its shape."""

import re
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from catalog import Spread, read_range, spread_of
from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening

NUMBER = r"([0-9]*\.?[0-9]+)"
SIZE = r"([0-9]*\.?[0-9]+(?:\.\.[0-9]*\.?[0-9]+)?)"
"""A number, or a range such as 6.5..7."""


class OpeningNotUnderstood(ValueError):  # noqa: N818
    """The words do not describe an opening; the message says what would."""


def read_opening(text: str, *, tolerance_mm: float) -> Opening:
    """The opening described by a few words; a size told as a range brings half of it as the tolerance of all.

    Raises OpeningNotUnderstood with what was given and what is allowed.
    """
    words = " ".join(text.split()).replace("×", "x")
    words = re.sub(r"^(?:at least|goes) ", "gauge ", words, flags=re.IGNORECASE)
    kind = words.split(" ", 1)[0].lower()
    shape = SHAPES.get(kind)
    if shape is None:
        raise OpeningNotUnderstood(f"{text!r} is not a shape; allowed: {ALLOWED}")
    opening = shape.read(words[len(kind) :].strip(), tolerance_mm)
    if opening is None:
        comma = " (write a point, not a comma)" if "," in text and kind != "outline" else ""
        comma += " (a range goes from the smaller to the larger)" if holds_a_range(text) else ""
        raise OpeningNotUnderstood(f"{text!r} does not give sizes above zero for a {kind}{comma}; allowed: {ALLOWED}")
    return opening


def opening_fields(opening: Opening) -> dict[str, Any]:
    """An opening as a catalog file writes it; with a tolerance only where it has one, as of a range."""
    off = {"tolerance": opening.tolerance_mm} if opening.tolerance_mm else {}
    match opening:
        case RoundOpening():
            if opening.is_at_least:
                return {"at_least": opening.diameter_mm}
            return {"shape": "round", "diameter": opening.diameter_mm, **off}
        case BoxOpening():
            sizes = {"length": opening.length_mm, "width": opening.width_mm}
            return {"shape": "box", **sizes, "corner_radius": opening.corner_radius_mm, **off}
        case SlotOpening() | OvalOpening():
            return {"shape": opening.shape, "length": opening.length_mm, "width": opening.width_mm, **off}
        case OutlineOpening():
            return {"shape": "outline", "points": [list(point) for point in opening.points_mm]}


def as_said(text: str) -> str:
    """An opening's words as they are told back: what a gauge went into is at least that wide."""
    return re.sub(r"^\s*(?:goes|gauge)\s+", "at least ", text, flags=re.IGNORECASE)


def holds_a_range(text: str) -> bool:
    """Whether a size in these words is told as a range."""
    return ".." in text


def _numbers(pattern: str, sizes: str) -> list[float] | None:
    match = re.fullmatch(pattern, sizes)
    numbers = [_size(number) for number in match.groups()] if match else None
    if numbers is None or any(number is None for number in numbers):
        return None
    told = [number for number in numbers if number is not None]
    return told if all(number > 0 for number in told[:2]) else None


def _size(text: str) -> float | None:
    """A number or a range from a smaller to a larger one; None for any other."""
    if ".." not in text:
        return float(text)
    ends = read_range(text)
    return None if ends is None or not 0 < ends[0] < ends[1] else Spread(*ends)


def _off_mm(numbers: Sequence[float], tolerance_mm: float) -> float:
    return max(spread_of(number) for number in numbers) or tolerance_mm


def _read_round(sizes: str, tolerance_mm: float) -> Opening | None:
    numbers = _numbers(SIZE, sizes)
    if numbers is None:
        return None
    return RoundOpening(diameter_mm=float(numbers[0]), tolerance_mm=_off_mm(numbers, tolerance_mm))


def _read_gauge(sizes: str, tolerance_mm: float) -> Opening | None:  # noqa: ARG001  # what went in went in
    numbers = _numbers(NUMBER, sizes)
    return None if numbers is None else RoundOpening(diameter_mm=numbers[0], tolerance_mm=0.0, is_at_least=True)


def _read_slot(sizes: str, tolerance_mm: float) -> Opening | None:
    numbers = _numbers(f"{SIZE}x{SIZE}", sizes)
    if numbers is None:
        return None
    length_mm, width_mm = map(float, numbers)
    return SlotOpening(length_mm=length_mm, width_mm=width_mm, tolerance_mm=_off_mm(numbers, tolerance_mm))


def _read_oval(sizes: str, tolerance_mm: float) -> Opening | None:
    numbers = _numbers(f"{SIZE}x{SIZE}", sizes)
    if numbers is None:
        return None
    length_mm, width_mm = map(float, numbers)
    return OvalOpening(length_mm=length_mm, width_mm=width_mm, tolerance_mm=_off_mm(numbers, tolerance_mm))


def _read_box(sizes: str, tolerance_mm: float) -> Opening | None:
    numbers = _numbers(f"{SIZE}x{SIZE} ?r{NUMBER}", sizes)
    if numbers is None or 2 * numbers[2] > min(numbers[:2]):
        return None
    length_mm, width_mm, corner_mm = map(float, numbers)
    off_mm = _off_mm(numbers, tolerance_mm)
    return BoxOpening(length_mm=length_mm, width_mm=width_mm, corner_radius_mm=corner_mm, tolerance_mm=off_mm)


def _read_outline(sizes: str, tolerance_mm: float) -> Opening | None:
    pairs = [re.fullmatch(r"(-?[0-9]*\.?[0-9]+),(-?[0-9]*\.?[0-9]+)", pair) for pair in sizes.split()]
    points = tuple((float(pair[1]), float(pair[2])) for pair in pairs if pair is not None)
    if len(points) < 3 or len(points) < len(pairs):
        return None
    return OutlineOpening(points_mm=points, tolerance_mm=tolerance_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class ShapeInText:
    """How one shape is typed.

    pattern : its sizes in short, after its word
    asked : what a form asks for, by the names its text is made of; a shape without takes its points as typed
    text : the words made of what was asked
    read : the opening of what stands after the shape's word; None where that is none
    """

    pattern: str
    asked: Mapping[str, str]
    text: str
    read: Callable[[str, float], Opening | None]


_LENGTH, _WIDTH = "Length along the tube, mm", "Width, mm"

SHAPES = {
    "round": ShapeInText(pattern="D", asked={"diameter": "Diameter, mm"}, text="round {diameter}", read=_read_round),
    "slot": ShapeInText(
        pattern="LxW", asked={"length": _LENGTH, "width": _WIDTH}, text="slot {length}x{width}", read=_read_slot
    ),
    "oval": ShapeInText(
        pattern="LxW", asked={"length": _LENGTH, "width": _WIDTH}, text="oval {length}x{width}", read=_read_oval
    ),
    "box": ShapeInText(
        pattern="LxW rR",
        asked={"length": _LENGTH, "width": _WIDTH, "corner": "Corner radius, mm"},
        text="box {length}x{width} r{corner}",
        read=_read_box,
    ),
    "gauge": ShapeInText(
        pattern="D",
        asked={"diameter": "What went in, Ø mm"},
        text="at least {diameter}",
        read=_read_gauge,
    ),
    "outline": ShapeInText(pattern="x,y x,y x,y ...", asked={}, text="outline {points}", read=_read_outline),
}
"""Every shape that can be typed, in the order a form offers them."""

_PATTERNS = [f"{shape} {typed.pattern}" for shape, typed in SHAPES.items()]
ALLOWED = f"{', '.join(_PATTERNS[:-1])} or {_PATTERNS[-1]} in mm, such as 'slot 19x7', 'round 6.5..7' or 'goes 6.4'"
