"""The store behind the page, opened once for all its windows; where there is none the page plans all the same."""

import os
from pathlib import Path

import streamlit as st

from catalog import Catalog, CatalogError, Store
from planner import in_markdown as plain
from planner import printable_line
from ui.shared.extras import refuse_without
from ui.shared.planned_visit import Planned, kept_either
from ui.shared.store_place import page_store_place, who_saves

PRIVATE = 0o700
"""Of a folder made for the store: nobody else reads whose bicycles are in it."""


@st.cache_resource(show_spinner=False)
def _opened(place: str) -> Store:
    refuse_without("store")
    from catalog import StoreUnreachable, may_hold_a_password, open_store

    if not may_hold_a_password(place):
        try:
            Path(place).parent.mkdir(mode=PRIVATE, parents=True, exist_ok=True)
        except OSError as problem:
            raise StoreUnreachable(place=place, why=f"its folder cannot be made: {problem.strerror}") from problem
    return open_store(place)


def store() -> Store:
    """The store, made where it is not there yet.

    Raises CatalogError where it cannot be opened.
    """
    return _opened(page_store_place())


def store_or_stop() -> Store:
    """The store; where it cannot be opened, why, and the rest of the screen is left out."""
    try:
        return store()
    except CatalogError as refusal:
        st.error(plain(str(refusal)), icon=":material/error:")
        st.stop()


def store_or_none() -> Store | None:
    """The store, or nothing where it cannot be opened."""
    try:
        return store()
    except CatalogError:
        return None


def why_nothing_is_kept() -> str:
    """Why the store cannot be opened; "" where it can."""
    try:
        store()
    except CatalogError as refusal:
        return str(refusal)
    return ""


def place_words() -> str:
    """Where the store is, without a password; and how the terminal finds it, where it would look elsewhere."""
    opened = store_or_none()
    return "" if opened is None else printable_line(str(opened.place))


def has_catalog() -> bool:
    """Whether the store holds a catalog."""
    opened = store_or_none()
    return opened is not None and opened.documents.stamp()[0] > 0


def catalog_or_none() -> Catalog | None:
    """The store's catalog as it is now; None where it holds none.

    Raises CatalogError where its entries do not agree with each other.
    """
    opened = store_or_none()
    if opened is None:
        return None
    stamp = opened.documents.stamp()
    return _catalog(page_store_place(), stamp) if stamp[0] else None


@st.cache_resource(show_spinner="Reading the catalog", max_entries=2)
def _catalog(place: str, stamp: tuple[int, int, int]) -> Catalog:  # noqa: ARG001  (another stamp, another catalog)
    """The store's catalog, read once for each state it is in."""
    from catalog import catalog_of_store

    return catalog_of_store(_opened(place)).catalog


def planned(store: Store, name: str) -> Planned:
    """A saved job of one line or of several with the plan kept last, read once for each state the store is in.

    Raises CatalogError where it cannot be read, or is not sound any more.
    """
    job = store.jobs.get(name)
    plans = store.plans.ids_of_job(name)
    return _planned(page_store_place(), name, job.version, plans[-1:], store.documents.stamp())


@st.cache_resource(show_spinner="Reading the plan", max_entries=16)
def _planned(place: str, name: str, *state: object) -> Planned:  # noqa: ARG001  (another state, another plan)
    return kept_either(_opened(place), name)


def default_name() -> str:
    """Who works here, until somebody says otherwise; "" where nobody is known."""
    try:
        return who_saves(os.environ.get("LINEPLAN_BY"), command="page")
    except CatalogError:
        return ""
