"""Lines that stay, as said at the bench: `gear housing: neck`."""

from collections.abc import Sequence
from typing import Any

from catalog import Catalog, Noted
from planner.parts import Frame, Line
from ui.shared.dialogue.questions import AnswerRefused

STAYING_ALLOWED = (
    "nothing, or line: holes, such as “gear housing: neck” or “wire 2.5: neck, boss; gear housing 4.0: neck”"
)


def read_staying(words: str, *, catalog: Catalog, frame: Frame) -> list[dict[str, Any]]:
    """Every line that stays, with the holes it shares, in the fields of a job file.

    Raises AnswerRefused where a line or a hole is not known.
    """
    if words.casefold() in ("nothing", "none", "no"):
        return []
    return [_one(part, catalog, frame) for part in words.split(";") if part.strip()]


def _one(part: str, catalog: Catalog, frame: Frame) -> dict[str, Any]:
    line_words, colon, hole_words = part.partition(":")
    if not colon or not hole_words.strip():
        raise AnswerRefused("a line, a colon and its holes are wanted")
    lines = _lines_called(line_words.casefold().split(), catalog)
    if not lines:
        raise AnswerRefused(f"no line is called “{line_words.strip()}”")
    thickest = max(lines, key=lambda line: line.outer_diameter_mm)
    through = [_hole(hole.strip(), frame) for hole in hole_words.split(",") if hole.strip()]
    note = "" if len(lines) == 1 else "the thickest of those called so, to be safe: measure it"
    line = Noted(value=thickest.id, note=note) if note else thickest.id
    return {"line": line, "through": list(dict.fromkeys(through))}


def _lines_called(words: Sequence[str], catalog: Catalog) -> list[Line]:
    exact = [line for line in catalog.lines.values() if " ".join(words) == line.id.casefold()]
    return exact or [
        line for line in catalog.lines.values() if all(word in f"{line.name} {line.id}".casefold() for word in words)
    ]


def _hole(words: str, frame: Frame) -> str:
    if words in frame.ports:
        return words
    asked = words.casefold().split()
    found = [
        port.id for port in frame.ports.values() if all(word in f"{port.id} {port.label}".casefold() for word in asked)
    ]
    if len(found) == 1:
        return found[0]
    known = ", ".join(frame.ports)
    raise AnswerRefused(f"“{words}” is {'more than one hole' if found else 'no hole of this frame'}: {known}")
