"""An opening typed in a few words, such as `slot 19x7`, read into its shape."""

import re
from collections.abc import Callable

from planner.parts import BoxOpening, Opening, OutlineOpening, OvalOpening, RoundOpening, SlotOpening

NUMBER = r"([0-9]*\.?[0-9]+)"
ALLOWED = "round D, slot LxW, oval LxW, box LxW rR or outline x,y x,y x,y ... in mm, such as 'slot 19x7'"


class OpeningNotUnderstood(ValueError):  # noqa: N818
    """The words do not describe an opening; the message says what would."""


def read_opening(text: str, *, tolerance_mm: float) -> Opening:
    """The opening described by a few words.

    Raises OpeningNotUnderstood with what was given and what is allowed.
    """
    words = " ".join(text.split()).replace("×", "x")
    kind = words.split(" ", 1)[0].lower()
    reader = _READERS.get(kind)
    if reader is None:
        raise OpeningNotUnderstood(f"{text!r} is not a shape; allowed: {ALLOWED}")
    opening = reader(words[len(kind) :].strip(), tolerance_mm)
    if opening is None:
        comma = " (write a point, not a comma)" if "," in text and kind != "outline" else ""
        raise OpeningNotUnderstood(f"{text!r} does not give sizes above zero for a {kind}{comma}; allowed: {ALLOWED}")
    return opening


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


_READERS: dict[str, Callable[[str, float], Opening | None]] = {
    "round": _read_round,
    "slot": _read_slot,
    "oval": _read_oval,
    "box": _read_box,
    "outline": _read_outline,
}
