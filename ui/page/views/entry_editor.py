"""Edit one entry: its form beside its drawing, what changes, and the button that saves it as a new revision."""

from typing import Any

import streamlit as st

from catalog import (
    CatalogError,
    Change,
    EditConflict,
    Store,
    catalog_with,
    complaints_by_path,
    differences,
    sentences,
)
from planner import in_markdown as plain
from planner.errors import PlannerError
from ui.page import entry_draft, session
from ui.page.drafts import keep, show_steps_back
from ui.page.entry_draft import NOTE, entry_form
from ui.page.forms.entry_form import PART, ask_entry
from ui.page.forms.name_field import ask_who
from ui.page.forms.shop_groups import ask_group
from ui.page.views.entry_list import CATALOG_PAGE, KIND_WORDS
from ui.page.views.halves import show_halves
from ui.page.views.problem_view import show_refusal
from ui.page.views.route_view import show_frame

DRAWN = "entry_drawn"
"""Under which name it is held how the entry was drawn last, when nothing was wrong with it."""


def show_editor(store: Store, *, leads_to: str = CATALOG_PAGE) -> None:
    """The form of the entry that is edited, with all that follows from it.

    leads_to : the screen that is shown once it is saved
    """
    now = entry_draft.edited() or {}
    kind, value = now["kind"], now["value"]
    with st.container(horizontal=True, vertical_alignment="center"):
        called = str(now["opened"].get("name") or now["id"])
        words = "New entry" if now["based_on"] is None else f"{called}, revision {now['based_on']}"
        if kind == "shop" and now["based_on"] is not None:
            words = f"its figures, revision {now['based_on']}"
        st.title(plain(f"{KIND_WORDS[kind]}: {words}"), anchor=False)
        steps_back = st.container(horizontal=True, width="content")
    if now.get("is_taken_up"):
        st.info("Begun before and not saved yet: what was typed stands here again.", icon=":material/edit_note:")
    asked, seen = show_halves()
    complaints = complaints_by_path(kind, value)
    with asked:
        only = ask_group(complaints) if kind == "shop" else None
        new = ask_entry(kind, value, complaints, turn=now["turn"], is_new=now["based_on"] is None, only=only)
    if new != value:
        entry_draft.change(new, by_hand=session.held(PART) is None)
        keep(entry_form())
        st.rerun()
    keep(entry_form())
    with steps_back:
        show_steps_back(entry_form())
    with seen:
        _show_drawing(store, now, is_right=not complaints)
        _show_changes(now)
        _show_ways_on(store, now, complaints_count=len(complaints), leads_to=leads_to)


def _show_drawing(store: Store, now: dict[str, Any], *, is_right: bool) -> None:
    """A frame drawn as it is told, or as it was told last while something is wrong."""
    if now["kind"] != "frame":
        return
    if is_right:
        try:
            frame = catalog_with(store, _change(now)).frames.get(str(now["value"].get("id")))
            session.hold(DRAWN, frame)
        except (CatalogError, PlannerError):
            is_right = False
    frame = session.held(DRAWN)
    if frame is not None:
        if not is_right:
            st.caption("As it was drawn before something was not right:")
        show_frame(frame)


def _show_changes(now: dict[str, Any]) -> None:
    changed = sentences(differences(now["opened"], now["value"])) if now["based_on"] is not None else ()
    if changed:
        st.markdown("**What changes**\n" + "\n".join(f"- {plain(one)}" for one in changed))
    elif now["based_on"] is not None:
        st.caption("Nothing is changed so far.")


def _show_ways_on(store: Store, now: dict[str, Any], *, complaints_count: int, leads_to: str) -> None:
    if complaints_count:
        st.info(f"{complaints_count} to put right before it can be saved.", icon=":material/error:")
    _tell_newer(store, now)
    note = st.text_input("Why, for the history", key=NOTE, max_chars=500)
    by = ask_who(key="entry_by")
    is_same = now["based_on"] is not None and now["value"] == now["opened"]
    if st.button("Save as a new revision", type="primary", disabled=bool(complaints_count) or is_same or not by):
        _save(store, now, by=by, note=note, leads_to=leads_to)
    st.button("Leave without saving", on_click=entry_draft.close_entry)


def _tell_newer(store: Store, now: dict[str, Any]) -> None:
    """Somebody else's revision, with the two ways on: neither is lost."""
    if now["based_on"] is None:
        return
    current = store.documents.current(now["kind"], now["id"])
    if current.pin.revision == now["based_on"]:
        return
    theirs = "; ".join(sentences(differences(now["opened"], current.content))) or "nothing that is seen"
    told = f"{current.saved_by} saved revision {current.pin.revision} meanwhile: {theirs}."
    st.warning(plain(told), icon=":material/sync_problem:")
    st.button("Go on from theirs", on_click=entry_draft.go_on_from, args=(store,))
    st.button("Put mine over theirs", on_click=entry_draft.rebase, args=(current.pin.revision,))


def _save(store: Store, now: dict[str, Any], *, by: str, note: str, leads_to: str) -> None:
    change = _change(now)
    if now["based_on"] is None and entry_draft.is_in_store(store, change.kind, change.id):
        st.error(plain(f"There is a {change.kind} {change.id} already: choose another id."), icon=":material/error:")
        return
    try:
        catalog_with(store, change)
        store.documents.save(change, by=by, note=note)
    except (EditConflict, CatalogError, PlannerError) as refusal:
        show_refusal(refusal)
        return
    entry_draft.close_entry()
    st.query_params.from_dict({"kind": change.kind, "id": change.id} if leads_to == CATALOG_PAGE else {})
    st.rerun()


def _change(now: dict[str, Any]) -> Change:
    value = now["value"]
    id = now["id"] or str(value.get("id", "shop" if now["kind"] == "shop" else ""))
    return Change(
        kind=now["kind"], id=id, name=str(value.get("name") or id)[:200], content=value, based_on=now["based_on"]
    )
