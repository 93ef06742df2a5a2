"""What a hand-over record says, row by row; whatever nobody filled in is said not to be recorded."""

from collections.abc import Iterator

from planner.documents.words.need_words import FLUID_WORDS
from planner.plan.hand_over import Finding, HandOver, LengthFitted

NOT_RECORDED = "not recorded"
_FEEL_WORDS = {Finding.RIGHT: "firm, and stays so while it is held", Finding.NOT_RIGHT: "NOT RIGHT"}
_LEAK_WORDS = {Finding.RIGHT: "dry at every joint under pressure", Finding.NOT_RIGHT: "NOT RIGHT"}

HAND_OVER_CAUTIONS = (
    "What the makers of frame and brake say goes before everything on this sheet.",
    "Before the first ride: roll slowly on the flat, pull each brake hard several times, look at every joint again.",
    "A lever that grows soft or comes nearer to the bar, fluid on a hose, a rub at the rotor: do not ride; bring it "
    "back.",
    "A figure here is what somebody read and wrote down; what is not recorded was not assumed to be right.",
)
"""Told with every record."""

WRONG_SENTENCE = "Something was found that is not right: the bicycle is not to be ridden until it is put right."


def hand_over_rows(record: HandOver) -> list[tuple[str, str]]:
    """Name and words of everything on the record, in its order."""
    return list(_rows(record))


def _rows(record: HandOver) -> Iterator[tuple[str, str]]:
    if record.fluids_planned or record.fluid:
        planned = " · ".join(FLUID_WORDS.get(fluid, fluid) for fluid in record.fluids_planned)
        yield "Fluid filled in", f"{record.fluid or NOT_RECORDED}{f' (planned: {planned})' if planned else ''}"
    for line in record.lengths:
        yield f"Length of {line.line_name}", f"{_figure(line.fitted_mm, 'mm')} ({_planned(line)})"
    for torque in record.torques:
        yield f"Torque, {torque.bolts}", _figure(torque.read_nm, "N m")
    yield "Lever", NOT_RECORDED if record.lever_feel is None else _FEEL_WORDS[record.lever_feel]
    yield "Leaks", NOT_RECORDED if record.leaks is None else _LEAK_WORDS[record.leaks]
    yield "Looked over by another person", record.looked_again_by or NOT_RECORDED
    yield "Work done by", record.done_by or NOT_RECORDED
    yield "Taken back by", record.received_by or NOT_RECORDED
    yield "Day", record.day or NOT_RECORDED
    if record.note:
        yield "Note", record.note


def _planned(line: LengthFitted) -> str:
    """What was planned, and by how much it came out otherwise."""
    if line.planned_mm is None:
        return "no length planned"
    more_mm = 0.0 if line.fitted_mm is None else line.fitted_mm - line.planned_mm
    differs = f", {abs(more_mm):.0f} mm {'longer' if more_mm > 0 else 'shorter'}" if round(more_mm) else ""
    return f"planned {line.planned_mm:.0f} mm{differs}"


def _figure(value: float | None, unit: str) -> str:
    return NOT_RECORDED if value is None else f"{value:.10g} {unit}"
