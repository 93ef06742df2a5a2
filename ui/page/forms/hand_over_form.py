"""Fill in the hand-over record of a job, keep it, print it; earlier records stay to be read."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

import streamlit as st

from catalog import CatalogError, EditConflict, Store, StoredJob, from_record
from planner import Finding, HandOver, hand_over_rows
from planner import in_markdown as plain
from ui.page import hand_over_draft, session
from ui.page.downloads import what_paper_lacks
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.measure_field import ask_measure
from ui.page.forms.name_field import ask_who
from ui.page.views.markup import show_table
from ui.page.views.problem_view import show_refusal
from ui.shared.days import time_zone_of, today_in, told_moment
from ui.shared.hand_over import keep_record, last_record, record_pdf
from ui.shared.planned_visit import Planned

KEY = "hand_over_"
NOT_YET = "Not recorded"


def show_hand_over(store: Store, job: StoredJob, planned: Planned) -> None:
    """The record as it stands, the form over it, and what was recorded before."""
    form = hand_over_draft.form_of(job.id, job.title)
    take_up(form)
    record, version = last_record(store, planned, job.id)
    if version:
        _show_record(record, planned, job, version)
    else:
        st.caption("Nothing is recorded yet. What stays empty is told as not recorded, on paper too.")
    if record.is_wrong:
        st.error("Something was found that is not right: nobody rides before it is put right.", icon=":material/error:")
    is_behind = hand_over_draft.start(job.id, record, version)
    with st.expander("Fill in the record", expanded=not version or bool(form.shown())):
        keep(form)
        with st.container(horizontal=True):
            show_steps_back(form)
        _ask(store, job, planned, record, version, is_behind=is_behind)
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


def _ask(store: Store, job: StoredJob, planned: Planned, record: HandOver, version: int, *, is_behind: bool) -> None:
    if is_behind:
        told = f"Record {version} was kept meanwhile: it stands in every field that nothing was typed in here."
        st.warning(told, icon=":material/sync_problem:")
    key = hand_over_draft.prefix_of(job.id)
    filled, has_slip = _ask_figures(record, key)
    filled = _ask_findings(filled, key)
    for row, value in hand_over_draft.typed_beside(job.id, record).items():
        st.caption(plain(f"Typed before the job was planned anew, and not asked any more: {row}: {value}"))
    by = ask_who(key=f"{KEY}{job.id}_by")
    if not st.button("Keep the record", type="primary", icon=":material/save:", disabled=has_slip or not by):
        return
    day = today_in(planned.workshop.limits.time_zone).isoformat()
    try:
        keep_record(store, job.id, replace(filled, day=day), based_on=version, by=by)
    except EditConflict:
        st.rerun()  # another window was quicker: its record is shown, and what was typed here over it
    except CatalogError as refusal:
        show_refusal(refusal)
        return
    hand_over_draft.finish(job.id, job.title)
    st.rerun()


def _ask_figures(record: HandOver, key: str) -> tuple[HandOver, bool]:
    """Fluid, lengths and torques; and whether one of them cannot be read."""
    fluid = st.text_input("Fluid filled in", key=f"{key}fluid", max_chars=200, placeholder="kind, maker's name, lot")
    lengths, torques, has_slip = [], [], False
    names = [f"{key}{name}" for name, _ in hand_over_draft.rows_of(record)]
    for line, name in zip(record.lengths, names, strict=False):
        planned = "" if line.planned_mm is None else f", planned {line.planned_mm:.0f}"
        label = f"Length of {line.line_name} as fitted, mm{planned}"
        value, is_slip = _ask_figure(label, "mm", name)
        lengths.append(replace(line, fitted_mm=value))
        has_slip |= is_slip
    columns: Sequence[Any] = ()
    for n, torque in enumerate(record.torques):
        columns = st.columns(2) if n % 2 == 0 else columns  # in pairs, so that a narrow window keeps the order
        label = f"Torque read, N m. {torque.bolts}"
        value, is_slip = _ask_figure(label, "N m", names[len(lengths) + n], place=columns[n % 2])
        torques.append(replace(torque, read_nm=value))
        has_slip |= is_slip
    return replace(record, fluid=(fluid or "").strip(), lengths=tuple(lengths), torques=tuple(torques)), has_slip


def _ask_figure(label: str, unit: str, key: str, *, place: Any = st) -> tuple[float | None, bool]:
    typed = ask_measure(place, plain(label), key=key, unit=unit, placeholder=NOT_YET)
    if typed.value is not None and typed.value <= 0:
        place.error(f"{typed.value:.10g} was given; more than 0 is allowed", icon=":material/error:")
    return typed.value, bool(typed.problem) or (typed.value is not None and typed.value <= 0)


def _ask_findings(record: HandOver, key: str) -> HandOver:
    columns = st.columns(2)
    lever = _ask_finding(columns[0], "Lever: firm, and stays so while it is held", f"{key}lever_feel")
    leaks = _ask_finding(columns[1], "Leaks: dry at every joint under pressure", f"{key}leaks")
    return replace(
        record,
        lever_feel=lever,
        leaks=leaks,
        looked_again_by=_ask_text("Looked over by another person", f"{key}looked_again_by"),
        done_by=_ask_text("Work done by", f"{key}done_by"),
        received_by=_ask_text("Taken back by", f"{key}received_by"),
        note=_ask_text("Note", f"{key}note"),
    )


def _ask_text(label: str, key: str) -> str:
    return (st.text_input(label, key=key, max_chars=200, placeholder=NOT_YET) or "").strip()


def _ask_finding(place: Any, label: str, key: str) -> Finding | None:
    found = [str(finding) for finding in Finding]
    got = place.selectbox(label, found, index=None, key=key, placeholder=NOT_YET, format_func=_finding_words)
    return None if got is None else Finding(got)


def _finding_words(finding: str) -> str:
    return finding.replace("_", " ")


def _show_earlier(store: Store, job: StoredJob, version: int) -> None:
    earlier = {one.version: one for one in store.hand_overs.of_job(job.id) if one.version != version}
    if not earlier:
        return
    zone = time_zone_of(store)
    key, numbers = f"choice_place_{KEY}earlier|{job.id}", sorted(earlier, reverse=True)
    session.start_choice_among(key, numbers, None)
    number = st.selectbox("Earlier records", numbers, key=key, placeholder="Choose one")
    if number is not None:
        one = earlier[number]
        st.caption(plain(f"Kept {told_moment(one.saved_at, zone)} by {one.saved_by}."))
        show_table((f"Record {number}", ""), hand_over_rows(from_record(HandOver, one.content)))
