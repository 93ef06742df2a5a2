"""Write what was measured here into the frame's entry, so that the next job has it too."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from catalog import Catalog, CatalogError, Reading, Store, job_from_fields, visit_from_fields
from planner import figure_words
from planner import in_markdown as plain
from planner.errors import PlannerError
from planner.parts import ReadWhat, Visit
from ui.page import kept, session
from ui.page.catalog_source import choice_in_use
from ui.page.forms.measured_form import Asked, Typed, forget_readings
from ui.page.forms.name_field import WHO, ask_who
from ui.page.job_draft import JOB_FORM
from ui.page.views.entry_list import CATALOG_PAGE
from ui.page.visit_session import VISIT_FORM
from ui.shared.days import time_zone_of, today_in
from ui.shared.figure_text import reading_of
from ui.shared.frame_readings import FrameHome, changes_told, find_home, write_readings

TOOL_KEY, WHO_KEY, OPEN_KEY = "write_reading_tool", "write_reading_by", "write_reading"
TOLD = "reading_written"
"""Under which name it is held what became of it, to be told once."""


def show_readings_told(job: Asked, typed: Typed, catalog: Catalog, fields: Mapping[str, Any]) -> None:
    """What was measured here, and the way to keep it; once it is written, what became of it.

    fields : the same job in the words of a job file
    """
    _show_written()
    read = {figure: one for figure, one in typed.items() if one.read is not None}
    if not read:
        return
    told = "; ".join(f"{figure_words(figure, job)} {one.told} {figure.unit}".rstrip() for figure, one in read.items())
    say = "Measured here and counted in this answer, but not yet in the catalog"
    st.caption(plain(f"{say}: {told}. Once it stands there, the job can be saved."))
    of_frame = {figure: one for figure, one in read.items() if isinstance(figure.what, ReadWhat)}
    if len(of_frame) < len(read):
        st.caption("What was read of a line counts here alone: to keep it, change that line under Catalog, or copy it.")
    if of_frame:
        write = st.popover("Write it into the frame", icon=":material/edit:", key=OPEN_KEY, on_change="rerun")
        if write.open:
            with write:
                _show_form(job, of_frame, catalog, fields)


def _show_form(job: Asked, of_frame: Typed, catalog: Catalog, fields: Mapping[str, Any]) -> None:
    if why := kept.why_nothing_is_kept():
        st.error(plain(why), icon=":material/error:")
        return
    store = kept.store()
    home = find_home(store, job.frame.id, catalog)
    st.markdown(plain(_where_it_goes(home)))
    try:
        changed = changes_told(home, _readings(store, job, of_frame, by="", tool=""))
    except CatalogError as refusal:
        st.error(plain(str(refusal)), icon=":material/error:")
        return
    told = zip(of_frame, changed, strict=True)
    rows = (f"- {plain(f'{figure_words(one, job)}: {before} → {now}')}" for one, (before, now) in told)
    st.markdown("**What changes**\n" + "\n".join(rows))
    st.text_input("Read with", key=TOOL_KEY, placeholder="calipers, drill shanks", max_chars=200)
    by = ask_who(key=WHO_KEY)
    args = (job, of_frame, catalog, fields)
    st.button("Write it", type="primary", disabled=not by, on_click=_write, args=args)


def _where_it_goes(home: FrameHome) -> str:
    """Which entry takes it, and what happens to a frame that lies in files."""
    if session.is_store_used():
        return f"It goes into the frame as the store has it, revision {home.revision}, as a new revision."
    from_files = f"This frame lies in files that the page does not write to: {session.catalog_name()}."
    if home.is_store_empty:
        return f"{from_files} The store is empty: what is in use here is read into it, its frame with the figure."
    if home.revision is None:
        return f"{from_files} The store gets a copy of the frame, with the figure in it."
    return f"{from_files} The store has this frame, revision {home.revision}: the figure goes there, as a new revision."


def _readings(store: Store, job: Asked, of_frame: Typed, *, by: str, tool: str) -> list[Reading]:
    on = today_in(time_zone_of(store)).isoformat()
    return [reading_of(one, frame_id=job.frame.id, by=by, on=on, tool=tool) for one in of_frame.values()]


def _write(job: Asked, of_frame: Typed, catalog: Catalog, fields: Mapping[str, Any]) -> None:
    """Write it, and go on with the store's catalog where the whole job stands in it."""
    by, tool = str(session.chosen(WHO_KEY) or "").strip(), str(session.chosen(TOOL_KEY) or "").strip()
    session.hold(WHO, by)
    try:
        store = kept.store()
        with choice_in_use() as choice:
            pin = write_readings(store, _readings(store, job, of_frame, by=by, tool=tool), catalog, choice)
    except (CatalogError, PlannerError) as refusal:
        session.hold(TOLD, {"refused": str(refusal)})
        return
    words = f"Written into {job.frame.name}, revision {pin.revision} in the store; its history can take it back."
    if session.is_store_used() or _goes_on_with_store(fields, is_visit=isinstance(job, Visit)):
        forget_readings(job, of_frame)
    else:
        words += f" This page goes on with {session.catalog_name()}, for the store lacks something of this job."
    session.hold(TOLD, {"words": words, "frame": pin.id})
    session.put_choices({OPEN_KEY: False})


def _goes_on_with_store(fields: Mapping[str, Any], *, is_visit: bool) -> bool:
    """Go on with the store's catalog and the same form; False, and nothing done, where the job does not stand in it."""
    catalog = kept.catalog_or_none()
    try:
        if catalog is None:
            return False
        (visit_from_fields if is_visit else job_from_fields)(fields, catalog)
    except (CatalogError, PlannerError):
        return False
    form = VISIT_FORM if is_visit else JOB_FORM
    name = f"draft_{form.key}"
    draft, shown = session.held(name), form.shown()
    form.put({**shown, "catalog": {"kind": "store"}})
    if draft is not None:
        session.hold(name, draft)
    return True


def _show_written() -> None:
    told = session.held(TOLD)
    if not told:
        return
    session.let_go(TOLD)
    if "refused" in told:
        st.error(plain(f"Not written: {told['refused']}"), icon=":material/error:")
        return
    st.success(plain(told["words"]), icon=":material/check_circle:")
    if session.is_store_used():
        address = {"kind": "frame", "id": told["frame"]}
        st.page_link(CATALOG_PAGE, label="Show the frame and its history", query_params=address)
