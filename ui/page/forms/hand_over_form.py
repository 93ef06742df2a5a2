"""Fill in the hand-over record of a job, keep it, print it; earlier records stay to be read."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial
from typing import Any

import streamlit as st

from catalog import CatalogError, EditConflict, Store, StoredJob, from_record
from planner import Finding, HandOver, hand_over_rows
from planner import in_markdown as plain
from ui.page import session
from ui.page.downloads import what_paper_lacks
from ui.page.forms.measure_field import ask_measure
from ui.page.forms.name_field import ask_who
from ui.page.views.markup import show_table
from ui.page.views.problem_view import show_refusal
from ui.shared.days import time_zone_of, today_in, told_moment
from ui.shared.hand_over import keep_record, last_record, record_pdf
from ui.shared.planned_visit import Planned

KEY = "hand_over_"
FOUND = {"right": Finding.RIGHT, "not right": Finding.NOT_RIGHT}
NOT_YET = "Not recorded"


def show_hand_over(store: Store, job: StoredJob, planned: Planned) -> None:
    """The record as it stands, the form over it, and what was recorded before."""
    record, version = last_record(store, planned, job.id)
    if version:
        _show_record(record, planned, job, version)
    else:
        st.caption("Nothing is recorded yet. What stays empty is told as not recorded, on paper too.")
    if record.is_wrong:
        st.error("Something was found that is not right: nobody rides before it is put right.", icon=":material/error:")
    with st.expander("Fill in the record", expanded=not version):
        _ask(store, job, planned, record, version)
    _show_earlier(store, job, version)


def _show_record(record: HandOver, planned: Planned, job: StoredJob, version: int) -> None:
    show_table((f"Record {version}", ""), hand_over_rows(record))
    if missing := what_paper_lacks():
        st.info(f"Nothing to print: {plain(missing)}", icon=":material/print_disabled:")
        return
    st.download_button(
        "Hand-over record (PDF)",
        lambda: record_pdf(record, planned, title=job.title, version=version),
        f"{job.id}-hand-over.pdf",
        "application/pdf",
        on_click="ignore",
        icon=":material/print:",
    )


def _ask(store: Store, job: StoredJob, planned: Planned, record: HandOver, version: int) -> None:
    key = f"{KEY}{job.id}_{version}_"  # fields of another record begin anew
    filled, has_slip = _ask_figures(record, key)
    filled = _ask_findings(filled, key)
    by = ask_who(key=f"{key}by")
    if not st.button("Keep the record", type="primary", icon=":material/save:", disabled=has_slip or not by):
        return
    day = today_in(planned.workshop.limits.time_zone).isoformat()
    try:
        keep_record(store, job.id, replace(filled, day=day), based_on=version, by=by)
    except EditConflict:
        st.warning(
            "Another window was quicker: its record is shown now, yours was not kept.", icon=":material/sync_problem:"
        )
        return
    except CatalogError as refusal:
        show_refusal(refusal)
        return
    st.rerun()


def _ask_figures(record: HandOver, key: str) -> tuple[HandOver, bool]:
    """Fluid, lengths and torques; and whether one of them cannot be read."""
    fluid = st.text_input(
        "Fluid filled in", record.fluid, key=f"{key}fluid", max_chars=200, placeholder="kind, maker's name, lot"
    )
    lengths, torques, has_slip = [], [], False
    for n, line in enumerate(record.lengths):
        planned = "" if line.planned_mm is None else f", planned {line.planned_mm:.0f}"
        label = f"Length of {line.line_name} as fitted, mm{planned}"
        value, is_slip = _ask_figure(label, line.fitted_mm, "mm", f"{key}length_{n}")
        lengths.append(replace(line, fitted_mm=value))
        has_slip |= is_slip
    columns: Sequence[Any] = ()
    for n, torque in enumerate(record.torques):
        columns = st.columns(2) if n % 2 == 0 else columns  # in pairs, so that a narrow window keeps the order
        label = f"Torque read, N m. {torque.bolts}"
        value, is_slip = _ask_figure(label, torque.read_nm, "N m", f"{key}torque_{n}", place=columns[n % 2])
        torques.append(replace(torque, read_nm=value))
        has_slip |= is_slip
    return replace(record, fluid=(fluid or "").strip(), lengths=tuple(lengths), torques=tuple(torques)), has_slip


def _ask_figure(label: str, had: float | None, unit: str, key: str, *, place: Any = st) -> tuple[float | None, bool]:
    start = "" if had is None else f"{had:.10g}"
    typed = ask_measure(place, plain(label), key=key, unit=unit, start=start, placeholder=NOT_YET)
    if typed.value is not None and typed.value <= 0:
        place.error(f"{typed.value:.10g} was given; more than 0 is allowed", icon=":material/error:")
    return typed.value, bool(typed.problem) or (typed.value is not None and typed.value <= 0)


def _ask_findings(record: HandOver, key: str) -> HandOver:
    columns = st.columns(2)
    lever = _ask_finding(columns[0], "Lever: firm, and stays so while it is held", record.lever_feel, f"{key}lever")
    leaks = _ask_finding(columns[1], "Leaks: dry at every joint under pressure", record.leaks, f"{key}leaks")
    ask = partial(_ask_text, key)
    return replace(
        record,
        lever_feel=lever,
        leaks=leaks,
        looked_again_by=ask("Looked over by another person", record.looked_again_by),
        done_by=ask("Work done by", record.done_by),
        received_by=ask("Taken back by", record.received_by),
        note=ask("Note", record.note),
    )


def _ask_text(key: str, label: str, had: str) -> str:
    return (st.text_input(label, had, key=f"{key}{label}", max_chars=200, placeholder=NOT_YET) or "").strip()


def _ask_finding(place: Any, label: str, had: Finding | None, key: str) -> Finding | None:
    index = None if had is None else list(FOUND.values()).index(had)
    got = place.selectbox(label, list(FOUND), index=index, key=key, placeholder=NOT_YET)
    return None if got is None else FOUND[got]


def _show_earlier(store: Store, job: StoredJob, version: int) -> None:
    earlier = {one.version: one for one in store.hand_overs.of_job(job.id) if one.version != version}
    if not earlier:
        return
    zone = time_zone_of(store)
    session.start_choice(f"{KEY}earlier", None)
    number = st.selectbox(
        "Earlier records", sorted(earlier, reverse=True), key=f"{KEY}earlier", placeholder="Choose one"
    )
    if number is not None:
        one = earlier[number]
        st.caption(plain(f"Kept {told_moment(one.saved_at, zone)} by {one.saved_by}."))
        show_table((f"Record {number}", ""), hand_over_rows(from_record(HandOver, one.content)))
