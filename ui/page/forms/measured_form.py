"""Ask for the size of a hole where a plan says to measure it first, and plan with it."""

from dataclasses import replace

import streamlit as st

from planner import RoutingPlan, find_frame_names, measures_told
from planner import in_markdown as plain
from planner.parts import Frame, Job, Opening
from ui.page import session
from ui.page.forms.measure_field import ask_measure
from ui.shared.number_text import read_number
from ui.shared.opening_text import OpeningNotUnderstood, read_opening

OPENING = "opening"
OFF_MM = "0.1"
"""What the field for the error of a reading shows first: common practice with calipers in a hole, no source."""


def _keys(frame_id: str, port_id: str) -> tuple[str, str]:
    return f"choice_measured_{frame_id}_{port_id}", f"choice_measured_off_{frame_id}_{port_id}"


def with_readings(job: Job) -> Job:
    """The job on its frame with every hole as it was measured here; what cannot be read leaves its hole as it is."""
    ports = dict(job.frame.ports)
    for port_id, port in ports.items():
        opening = _read(job.frame, port_id)[0]
        if opening is not None:
            ports[port_id] = replace(port, opening=opening)
    return job if ports == dict(job.frame.ports) else replace(job, frame=replace(job.frame, ports=ports))


def readings_told(frame: Frame) -> dict[str, str]:
    """What was measured here, by the id of the hole."""
    found = {port_id: _read(frame, port_id)[0] for port_id in frame.ports}
    return {port_id: f"{one.words}, ±{one.tolerance_mm:g} mm" for port_id, one in found.items() if one is not None}


def _read(frame: Frame, port_id: str) -> tuple[Opening | None, str]:
    """The hole as it was measured here, None where it was not; and what is wrong with what was typed."""
    key, off_key = _keys(frame.id, port_id)
    typed = str(session.chosen(key) or "").strip()
    if not typed:
        return None, ""
    off = read_number(str(session.chosen(off_key) or OFF_MM), unit="mm")
    number = read_number(typed, unit="mm")
    words = f"round {number.value:g}" if number.value is not None else typed.replace(",", ".")
    if off.value is None or off.value < 0:
        return None, "how far it may be off is not a number from 0 on"
    try:
        return read_opening(words, tolerance_mm=off.value), ""
    except OpeningNotUnderstood as misread:
        return None, str(misread)


def reading_problems(frame: Frame) -> list[str]:
    """What cannot be read of what was typed as measured, in sentences."""
    names = find_frame_names(frame)
    problems = {port_id: _read(frame, port_id)[1] for port_id in frame.ports}
    return [f"what was measured at {names.place(port_id)} cannot be read" for port_id, one in problems.items() if one]


def ask_readings(frame: Frame, plan: RoutingPlan | None = None) -> None:
    """A field for the hole that a plan asks to be measured first, and for those that were measured here."""
    told = () if plan is None else measures_told(plan)
    asked = [one.place_id for one in told if one.what == OPENING and one.place_id in frame.ports]
    measured = [port_id for port_id in frame.ports if session.chosen(_keys(frame.id, port_id)[0])]
    names = find_frame_names(frame)
    for port_id in dict.fromkeys([*measured, *asked[:1]]):
        _ask_one(frame, port_id, called=names.place(port_id))
    read = "; ".join(f"{names.place(port_id)}: {words}" for port_id, words in readings_told(frame).items())
    if read:
        say = "Measured here and counted in this answer, but not yet in the frame itself"
        then = "Put it there under Catalog, or by lineplan measured; then the job can be saved."
        st.caption(plain(f"{say}: {read}. {then}"))


def _ask_one(frame: Frame, port_id: str, *, called: str) -> None:
    key, off_key = _keys(frame.id, port_id)
    value_column, off_column = st.columns([3, 2], vertical_alignment="top")
    session.start_choice(key, "")
    value_column.text_input(f"{plain(called)} measured, mm", key=key, placeholder="7.2 if round, or slot 19x7")
    if problem := _read(frame, port_id)[1]:
        value_column.error(plain(problem), icon=":material/error:")
    ask_measure(off_column, "Give or take, mm", key=off_key, start=OFF_MM)
