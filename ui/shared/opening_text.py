"""An opening typed in a few words, such as `slot 19x7`, read into its shape."""

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening

NUMBER = r"([0-9]*\.?[0-9]+)"


class OpeningNotUnderstood(ValueError):  # noqa: N818
    """The words do not describe an opening; the message says what would."""


def read_opening(text: str, *, tolerance_mm: float) -> Opening:
    """The opening described by a few words.

    Raises OpeningNotUnderstood with what was given and what is allowed.
    """
    words = " ".join(text.split()).replace("×", "x")
    kind = words.split(" ", 1)[0].lower()
    shape = SHAPES.get(kind)
    if shape is None:
        raise OpeningNotUnderstood(f"{text!r} is not a shape; allowed: {ALLOWED}")
    opening = shape.read(words[len(kind) :].strip(), tolerance_mm)
    if opening is None:
        comma = " (write a point, not a comma)" if "," in text and kind != "outline" else ""
        raise OpeningNotUnderstood(f"{text!r} does not give sizes above zero for a {kind}{comma}; allowed: {ALLOWED}")
    return opening


def opening_fields(opening: Opening) -> dict[str, Any]:
    """An opening as a catalog file writes it, its tolerance left out."""
    match opening:
        case RoundOpening():
            return {"shape": "round", "diameter": opening.diameter_mm}
        case BoxOpening():
            sizes = {"length": opening.length_mm, "width": opening.width_mm}
            return {"shape": "box", **sizes, "corner_radius": opening.corner_radius_mm}
        case SlotOpening() | OvalOpening():
            return {"shape": opening.shape, "length": opening.length_mm, "width": opening.width_mm}
        case OutlineOpening():
            return {"shape": "outline", "points": [list(point) for point in opening.points_mm]}


def _numbers(pattern: str, sizes: str) -> list[float] | None:
    match = re.fullmatch(pattern, sizes)
    numbers = [float(number) for number in match.groups()] if match else None
    return numbers if numbers is not None and all(number > 0 for number in numbers[:2]) else None


def _read_round(sizes: str, tolerance_mm: float) -> Opening | None:
    numbers = _numbers(NUMBER, sizes)
    return None if numbers is None else RoundOpening(diameter_mm=numbers[0], tolerance_mm=tolerance_mm)


def _read_slot(sizes: str, tolerance_mm: float) -> Opening | None:
    numbers = _numbers(f"{NUMBER}x{NUMBER}", sizes)
    if numbers is None:
        return None
    length_mm, width_mm = numbers
    return SlotOpening(length_mm=length_mm, width_mm=width_mm, tolerance_mm=tolerance_mm)


def _read_oval(sizes: str, tolerance_mm: float) -> Opening | None:
    numbers = _numbers(f"{NUMBER}x{NUMBER}", sizes)
    if numbers is None:
        return None
    return OvalOpening(length_mm=numbers[0], width_mm=numbers[1], tolerance_mm=tolerance_mm)


def _read_box(sizes: str, tolerance_mm: float) -> Opening | None:
    numbers = _numbers(f"{NUMBER}x{NUMBER} ?r{NUMBER}", sizes)
    if numbers is None or 2 * numbers[2] > min(numbers[:2]):
        return None
    return BoxOpening(length_mm=numbers[0], width_mm=numbers[1], corner_radius_mm=numbers[2], tolerance_mm=tolerance_mm)


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
    "round": ShapeInText(pattern="D", asked={"diameter": "Diameter, mm"}, text="round {diameter:g}", read=_read_round),
    "slot": ShapeInText(
        pattern="LxW", asked={"length": _LENGTH, "width": _WIDTH}, text="slot {length:g}x{width:g}", read=_read_slot
    ),
    "oval": ShapeInText(
        pattern="LxW", asked={"length": _LENGTH, "width": _WIDTH}, text="oval {length:g}x{width:g}", read=_read_oval
    ),
    "box": ShapeInText(
        pattern="LxW rR",
        asked={"length": _LENGTH, "width": _WIDTH, "corner": "Corner radius, mm"},
        text="box {length:g}x{width:g} r{corner:g}",
        read=_read_box,
    ),
    "outline": ShapeInText(pattern="x,y x,y x,y ...", asked={}, text="outline {points}", read=_read_outline),
}
"""Every shape that can be typed, in the order a form offers them."""

_PATTERNS = [f"{shape} {typed.pattern}" for shape, typed in SHAPES.items()]
ALLOWED = f"{', '.join(_PATTERNS[:-1])} or {_PATTERNS[-1]} in mm, such as 'slot 19x7'"
