"""Show one entry of the catalog: what it says, its drawing, what uses it, and its history with differences."""

from itertools import pairwise

import streamlit as st

from catalog import (
    Catalog,
    CatalogError,
    Change,
    PartNotInCatalog,
    Pin,
    Revision,
    Store,
    catalog_with,
    users_of,
)
from planner import in_markdown as plain
from planner import told_apart
from ui.page import entry_draft, session
from ui.page.forms.name_field import who
from ui.page.views.entry_list import CATALOG_PAGE, KIND_WORDS, entries_of, name_of
from ui.page.views.markup import safe, show_markup, show_table
from ui.page.views.problem_view import show_refusal
from ui.page.views.route_view import show_frame_with_ports
from ui.page.views.tabs import show_tabs
from ui.shared.days import time_zone_of, told_moment
from ui.shared.entry_words import said_in
from ui.shared.revision_words import changes

JOBS_PAGE = "screens/jobs.py"


def show_entry(store: Store, revision: Revision, catalog: Catalog) -> None:
    """Everything about an entry of the store."""
    kind, id = revision.pin.kind, revision.pin.id
    state = "taken out of use" if revision.is_withdrawn else "in use"
    about = f"{KIND_WORDS[kind]} · {id} · revision {revision.pin.revision}, {state}"
    show_markup(f'<div class="lp-job"><h1>{safe(revision.name)}</h1><p>{safe(about)}</p></div>')
    _show_buttons(store, revision)
    if kind == "frame" and id in catalog.frames:
        show_frame_with_ports(catalog.frames[id])
    show_tabs(
        {
            "What it says": lambda: show_table(("Field", "Value"), said_in(kind, revision.content)),
            "Used by": lambda: _show_users(store, kind, id),
            "History": lambda: _show_history(store, revision),
        },
        key=f"entry_tabs_{kind}_{id}",
    )


def show_entry_of_files(catalog: Catalog, kind: str, id: str) -> None:
    """An entry that lies in files: what it says, and its drawing.

    Raises PartNotInCatalog where there is none.
    """
    found = [one for one in entries_of(catalog, kind) if kind == "shop" or one.id == id] if kind in KIND_WORDS else []
    if not found:
        raise PartNotInCatalog(kind=kind, asked=id, near=())
    show_markup(
        f'<div class="lp-job"><h1>{safe(name_of(found[0]))}</h1><p>{safe(f"{KIND_WORDS[kind]} · {id}")}</p></div>'
    )
    if kind == "frame":
        show_frame_with_ports(catalog.frames[id])
    said = found[0].model_dump(mode="json", by_alias=True, exclude_unset=True)
    show_table(("Field", "Value"), said_in(kind, said))


def _show_buttons(store: Store, revision: Revision) -> None:
    kind, id = revision.pin.kind, revision.pin.id
    with st.container(horizontal=True):
        st.button(
            "Change it", icon=":material/edit:", type="primary", on_click=entry_draft.open_entry, args=(store, kind, id)
        )
        if kind == "shop":
            return
        copy = {**revision.content, "id": f"{id}-2"}
        st.button("Duplicate", icon=":material/content_copy:", on_click=entry_draft.open_new, args=(kind, copy))
        if not revision.is_withdrawn and st.button("Take out of use", icon=":material/archive:"):
            _withdraw(store, revision)


def _withdraw(store: Store, revision: Revision) -> None:
    pin = revision.pin
    change = Change(
        kind=pin.kind, id=pin.id, name=revision.name, content=revision.content, based_on=pin.revision, withdraws=True
    )
    try:
        catalog_with(store, change)
        store.documents.withdraw(pin.kind, pin.id, based_on=pin.revision, by=who())
    except CatalogError as refusal:
        show_refusal(refusal)
        return
    st.rerun()


def _show_users(store: Store, kind: str, id: str) -> None:
    users = users_of(store, kind, id)
    if not users.entries and not users.jobs:
        st.caption("Nothing in the store names it.")
    called = told_apart(
        {f"{other} {other_id}": f"{other.capitalize()}: {name}" for other, other_id, name in users.entries}
    )
    for other, other_id, _ in users.entries:
        label = plain(called[f"{other} {other_id}"])
        st.page_link(CATALOG_PAGE, label=label, query_params={"kind": other, "id": other_id})
    for job_id, title in told_apart(dict(users.jobs)).items():
        st.page_link(JOBS_PAGE, label=plain(f"Job: {title}"), query_params={"job": job_id})


def _show_history(store: Store, revision: Revision) -> None:
    pin, zone = revision.pin, time_zone_of(store)
    revisions = store.documents.history(pin.kind, pin.id)
    told = ["new", *(changes(before, after) for before, after in pairwise(revisions))]
    show_table(
        ("Revision", "Saved", "Who", "Why", "What changed"),
        [
            (str(one.pin.revision), told_moment(one.saved_at, zone), one.saved_by, one.note, words)
            for one, words in reversed([*zip(revisions, told, strict=True)])
        ],
        is_stacked=True,
    )
    earlier = [one.pin.revision for one in reversed(revisions) if one.pin.revision != pin.revision]
    key = f"choice_place_revision|{pin.kind}|{pin.id}|{pin.revision}"
    session.start_choice(key, None)
    number = st.selectbox("Look at revision", earlier, key=key, placeholder="Choose one")
    if number is not None:
        old = revisions[number - 1]
        st.markdown(plain(f"Going back would change: {changes(revision, old)}."))
        if st.button(f"Go back to revision {number}", icon=":material/history:"):
            _go_back(store, revision, old)


def _go_back(store: Store, now: Revision, old: Revision) -> None:
    pin = now.pin
    change = Change(kind=pin.kind, id=pin.id, name=old.name, content=old.content, based_on=pin.revision)
    try:
        catalog_with(store, change)
        to = Pin(kind=pin.kind, id=pin.id, revision=old.pin.revision)
        store.documents.go_back(to, based_on=pin.revision, by=who())
    except CatalogError as refusal:
        show_refusal(refusal)
        return
    st.rerun()
