"""Show the shop's settings in groups, each figure with whose it is, and the way to change them."""

from collections.abc import Iterator, Mapping
from typing import Any

import streamlit as st

from catalog import Catalog, NotInStore, Store, annotation_of, fields_in
from ui.page import entry_draft
from ui.page.forms.import_form import show_adopt_form
from ui.page.forms.shop_groups import groups_of
from ui.page.views.entry_list import CATALOG_PAGE
from ui.page.views.markup import show_table
from ui.shared.entry_words import said_in

SHOP_PAGE = "screens/shop.py"


def show_settings(store: Store, catalog: Catalog, *, is_kept: bool) -> None:
    """Every figure of the shop as it counts, its own or the starter's.

    is_kept : whether the catalog in use is the store's, so that it can be changed here
    """
    own = _own(store) if is_kept else {}
    if is_kept:
        _show_ways_on(store, has_own=bool(own))
    else:
        show_adopt_form(store)
    said = catalog.shop.model_dump(mode="json", by_alias=True, exclude_none=True)
    fields = {one.help.name: one.help for one in fields_in(annotation_of("shop"), said)}
    for title, names in groups_of(tuple(fields)).items():
        rows = [row for name in names for row in _rows(name, fields[name], said, own)]
        if rows:
            st.markdown(f"**{title}**")
            show_table(("What", "Value", "Whose", "What it is for"), rows, is_stacked=True)


def _own(store: Store) -> Mapping[str, Any]:
    """What the shop says itself; nothing where it says nothing."""
    try:
        revision = store.documents.current("shop", "shop")
    except NotInStore:
        return {}
    return {} if revision.is_withdrawn else revision.content


def _show_ways_on(store: Store, *, has_own: bool) -> None:
    with st.container(horizontal=True, vertical_alignment="center"):
        if not has_own:
            st.button(
                "Set figures of your own",
                icon=":material/edit:",
                type="primary",
                on_click=entry_draft.open_new,
                args=("shop", {}),
            )
            return
        st.button(
            "Change them",
            icon=":material/edit:",
            type="primary",
            on_click=entry_draft.open_entry,
            args=(store, "shop", "shop"),
        )
        st.page_link(
            CATALOG_PAGE,
            label="History and undo",
            icon=":material/history:",
            query_params={"kind": "shop", "id": "shop"},
        )


def _rows(name: str, told: Any, said: Mapping[str, Any], own: Mapping[str, Any]) -> Iterator[tuple[str, ...]]:
    """A row for each value of a figure; one that nobody set has a dash."""
    whose = "your own" if name in own else "starter catalog" if name in said else "not set"
    for words, value in said_in("shop", {name: said[name]}) if name in said else [(told.label, "–")]:
        yield f"{words[:1].upper()}{words[1:]}", value, whose, told.help
