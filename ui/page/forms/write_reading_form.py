"""Write what was measured here into the entries it belongs to, so that the next job has it too."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

import streamlit as st

from catalog import Catalog, CatalogError, Reading, Store, job_from_fields, visit_from_fields
from planner import figure_words
from planner import in_markdown as plain
from planner.errors import PlannerError
from planner.parts import Figure, ReadWhat, Visit
from ui.page import kept, session, typed_beside
from ui.page.catalog_source import choice_in_use
from ui.page.forms.measured_form import Asked, Typed, forget_readings
from ui.page.forms.name_field import WHO, ask_who
from ui.page.job_draft import JOB_FORM
from ui.page.views.entry_list import CATALOG_PAGE
from ui.page.visit_session import VISIT_FORM
from ui.shared.days import time_zone_of, today_in
from ui.shared.entry_readings import EntryHome, changes_told, find_home, value_words, write_all
from ui.shared.figure_text import LineReading, line_reading_of, reading_of

WHO_KEY, OPEN_KEY = "write_reading_by", "write_reading"
TOLD = "reading_written"
"""Under which name it is held what became of it, to be told once."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _ToWrite:
    """What was read and goes into the catalog.

    job, fields : the job it was read for, also in the words of a job file
    of_frame, of_lines : what goes into its frame, and what into lines and fittings
    """

    job: Asked
    fields: Mapping[str, Any]
    of_frame: Typed
    of_lines: Mapping[Figure, LineReading]

    @property
    def figures(self) -> tuple[Figure, ...]:
        """All of them."""
        return (*self.of_frame, *self.of_lines)


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
    of_lines = {figure: line for figure, one in read.items() if (line := line_reading_of(one)) is not None}
    if alone := [figure for figure in read if figure not in of_frame and figure not in of_lines]:
        _tell_alone("; ".join(figure_words(figure, job) for figure in alone))
    if of_frame or of_lines:
        into = "catalog" if of_lines else "frame"
        write = st.popover(f"Write it into the {into}", icon=":material/edit:", key=OPEN_KEY, on_change="rerun")
        if write.open:
            with write:
                _show_form(_ToWrite(job=job, fields=fields, of_frame=of_frame, of_lines=of_lines), catalog)


def _tell_alone(told: str) -> None:
    """Why a figure of one piece of line goes nowhere from here, and what keeps it all the same."""
    say = (
        f"{told}: counts in this answer only. The catalog tells such a line as it is sold, and new ones keep that. To"
        " keep what was read, duplicate the line under Catalog, with the figure, and choose the copy as what lies"
        " there; to save the job without it, empty the field."
    )
    st.caption(plain(say))


def _show_form(asked: _ToWrite, catalog: Catalog) -> None:
    if why := kept.why_nothing_is_kept():
        st.error(plain(why), icon=":material/error:")
        return
    store = kept.store()
    try:
        rows = list(_changes(store, asked, catalog))
    except CatalogError as refusal:
        st.error(plain(str(refusal)), icon=":material/error:")
        return
    for home in {(home.kind, home.id): home for home, _, _ in rows}.values():
        st.markdown(plain(_where_it_goes(home)))
    told = (f"- {plain(f'{figure_words(one, asked.job)}: {words}')}" for _, one, words in rows)
    st.markdown("**What changes**\n" + "\n".join(told))
    st.text_input("Read with", key=_tool_key(asked.job), placeholder="calipers, drill shanks", max_chars=200)
    by = ask_who(key=WHO_KEY)
    st.button("Write it", type="primary", disabled=not by, on_click=_write, args=(asked, catalog))


def _tool_key(job: Asked) -> str:
    """Key of the field for what it was read with, which is kept with the draft of the job."""
    return f"{typed_beside.prefix_of(is_visit=isinstance(job, Visit))}tool"


def _changes(store: Store, asked: _ToWrite, catalog: Catalog) -> Iterator[tuple[EntryHome, Figure, str]]:
    """The entry each figure goes into, and what it says before and then."""
    if asked.of_frame:
        home = find_home(store, "frame", asked.job.frame.id, catalog)
        changed = changes_told(home, _readings(store, asked, by="", tool=""))
        for figure, (before, now) in zip(asked.of_frame, changed, strict=True):
            yield home, figure, f"{before} → {now}"
    for figure, line in asked.of_lines.items():
        home = find_home(store, line.kind, line.id, catalog)
        yield home, figure, f"{value_words(home.fields.get(line.field))} → {value_words(line.value)}"


def _where_it_goes(home: EntryHome) -> str:
    """Which entry takes it, and what happens to one that lies in files."""
    after = "" if home.kind == "frame" else f" Every job with this {home.kind} is then planned with it."
    called = home.name if home.kind in home.name.lower() else f"{home.kind} {home.name}"
    if session.is_store_used():
        return f"It goes into the {called} as the store has it, revision {home.revision}, as a new revision.{after}"
    from_files = f"The {called} lies in files that the page does not write to: {session.catalog_name()}."
    if home.is_store_empty:
        where = "The store is empty: what is in use here is read into it, with the figure."
    elif home.revision is None:
        where = f"The store gets a copy of the {home.kind}, with the figure in it."
    else:
        where = f"The store has this {home.kind}, revision {home.revision}: the figure goes there, as a new revision."
    return f"{from_files} {where}{after}"


def _readings(store: Store, asked: _ToWrite, *, by: str, tool: str) -> list[Reading]:
    on, frame_id = today_in(time_zone_of(store)).isoformat(), asked.job.frame.id
    return [reading_of(one, frame_id=frame_id, by=by, on=on, tool=tool) for one in asked.of_frame.values()]


def _write(asked: _ToWrite, catalog: Catalog) -> None:
    """Write it, and go on with the store's catalog where the whole job stands in it."""
    by, tool = str(session.chosen(WHO_KEY) or "").strip(), str(session.chosen(_tool_key(asked.job)) or "").strip()
    session.hold(WHO, by)
    try:
        store = kept.store()
        readings, lines = _readings(store, asked, by=by, tool=tool), list(asked.of_lines.values())
        with choice_in_use() as choice:
            pins = write_all(store, readings, lines, catalog, choice, by=by, tool=tool)
        homes = [find_home(store, pin.kind, pin.id, catalog) for pin in pins]
    except (CatalogError, PlannerError) as refusal:
        session.hold(TOLD, {"refused": str(refusal)})
        return
    into = ", and into ".join(f"{home.name}, revision {home.revision} in the store" for home in homes)
    words = f"Written into {into}; its history can take it back."
    if session.is_store_used() or _goes_on_with_store(asked.fields, is_visit=isinstance(asked.job, Visit)):
        forget_readings(asked.job, asked.figures)
        session.forget_choice(_tool_key(asked.job))
    else:
        words += f" This page goes on with {session.catalog_name()}, for the store lacks something of this job."
    links = [{"kind": home.kind, "id": home.id, "name": home.name} for home in homes]
    session.hold(TOLD, {"words": words, "links": links})
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
    if not session.is_store_used():
        return
    for link in told["links"]:
        words = "Show the frame and its history" if link["kind"] == "frame" else f"Show {link['name']} and its history"
        st.page_link(CATALOG_PAGE, label=plain(words), query_params={"kind": link["kind"], "id": link["id"]})
