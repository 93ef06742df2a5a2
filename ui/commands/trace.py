"""`lineplan trace`: a hole from a drawing file or points, as an outline that is never larger than what was drawn."""

import json
from dataclasses import dataclass
from math import isfinite
from pathlib import Path

from catalog import (
    TEXT_ENDINGS,
    TracedOutline,
    TraceRefused,
    asked_field,
    ordinary_content,
    trace_file,
    write_file,
)
from planner import draw_opening, printable_line
from planner.parts import OutlineOpening
from ui.reports.refusals import refusals_as_sentences
from ui.shared.command_refused import CommandRefused
from ui.shared.exit_status import ExitStatus
from ui.shared.extras import refuse_without
from ui.shared.target_files import Target, refuse_bad_targets
from ui.shared.traced_words import WITHIN_WORDS


@dataclass(frozen=True, slots=True, kw_only=True)
class TraceQuestion:
    """What to trace.

    drawing : the file
    known_length_mm : of the hole, left to right once it is turned; None for the file's own unit
    turn_deg : by how much the drawing is turned
    to, picture : files to write the opening and its drawing to; None for neither
    replaces : whether files that are there may be lost
    """

    drawing: Path
    known_length_mm: float | None
    turn_deg: float
    to: Path | None
    picture: Path | None
    replaces: bool


def run_trace(question: TraceQuestion, *, as_json: bool) -> int:
    """Tell the outline and write what is asked for; returns the exit status."""
    with refusals_as_sentences():
        refuse_bad_targets(
            Target(path=question.to, endings=(".yaml", ".yml"), replaces=question.replaces),
            Target(path=question.picture, endings=(".svg",), replaces=question.replaces),
        )
        traced = _traced(question)
        if question.to is not None:
            write_file(question.to, _opening_text(traced).encode(), replaces=question.replaces)
        if question.picture is not None:
            opening = OutlineOpening(points_mm=traced.points_mm, tolerance_mm=0.0)
            write_file(question.picture, draw_opening(opening).svg.encode(), replaces=question.replaces)
    print(json.dumps(_record(traced), indent=2) if as_json else _told(traced, question))
    return ExitStatus.DONE


def _traced(question: TraceQuestion) -> TracedOutline:
    length, turn = question.known_length_mm, question.turn_deg
    if length is not None and not asked_field("slot", "length").takes(length):
        raise _refused("length", f"{length:g} mm was given", asked_field("slot", "length").range)
    if not isfinite(turn) or abs(turn) > 360:
        raise _refused("turn", f"{turn:g} degrees were given", "-360 to 360 degrees")
    if question.drawing.suffix.lower() not in TEXT_ENDINGS:
        refuse_without("trace")
    content = ordinary_content(question.drawing)
    try:
        return trace_file(question.drawing.name, content, known_length_mm=length, turn_deg=turn)
    except TraceRefused as refusal:
        told = printable_line(f"{question.drawing}: {refusal}")
        raise TraceRefused(told) from refusal


def _refused(option: str, given: str, allowed: str) -> CommandRefused:
    return CommandRefused(command="trace", option=option, given=given, allowed=allowed)


def _told(traced: TracedOutline, question: TraceQuestion) -> str:
    lines = [f"{traced.words}.", *traced.remarks, WITHIN_WORDS, traced.typed]
    written = (("Opening", question.to), ("Picture", question.picture))
    lines += [f"{what}: {printable_line(str(path))}" for what, path in written if path is not None]
    return "\n".join(lines)


def _record(traced: TracedOutline) -> dict[str, object]:
    return {
        "length_mm": round(traced.length_mm, 4),
        "width_mm": round(traced.width_mm, 4),
        "area_mm2": round(traced.area_mm2, 4),
        "remarks": list(traced.remarks),
        "opening": {"shape": "outline", "points": [list(point) for point in traced.points_mm]},
    }


def _opening_text(traced: TracedOutline) -> str:
    points = "\n".join(f"    - [{x:g}, {y:g}]" for x, y in traced.points_mm)
    head = f"# {traced.words}; x along the tube. Put it into the port that it belongs to.\n"
    return f"{head}opening:\n  shape: outline\n  points:\n{points}\n"
