"""Show what is in the catalog: every kind, searched and cut into pieces on the server."""

from collections.abc import Iterable
from typing import Any

import streamlit as st

from catalog import Catalog, kinds_of_entries
from planner import in_markdown as plain
from planner import told_apart
from ui.page import session

CATALOG_PAGE = "screens/catalog.py"
MOST_SHOWN = 25
KIND_WORDS = {
    "frame": "Frames",
    "brake": "Brakes",
    "line": "Lines",
    "fitting": "Fittings",
    "method": "Methods",
    "part": "Small parts",
    "adapter": "Adapters",
    "step": "Steps",
    "caution": "Cautions",
    "rescue": "Rescues",
    "measure": "Measures",
    "tool": "At hand",
    "shop": "Shop",
}
"""What each kind of entries is called, in the order of the buttons."""

_LISTS = {"tool": "at_hand"}


def show_entry_list(catalog: Catalog) -> str:
    """Kinds, a field to search in, and a row for each entry with the way to it; returns the kind shown."""
    session.start_choice("choice_section", "frame")
    kinds = [kind for kind in KIND_WORDS if kind in kinds_of_entries()]
    kind = st.segmented_control(
        "Show", kinds, key="choice_section", label_visibility="collapsed", format_func=lambda one: KIND_WORDS[one]
    )
    wanted = st.text_input("Search", key="choice_wanted", type="search", placeholder="part of a name, an id, a word")
    if not kind:
        return ""
    words = (wanted or "").lower().split()
    entries = {str(getattr(entry, "id", kind)): entry for entry in entries_of(catalog, kind)}
    names = told_apart({id: name_of(entry) for id, entry in entries.items()})
    found = [(id, entry) for id, entry in entries.items() if all(word in _searched(entry) for word in words)]
    if not found:
        _show_nothing(kind, is_searched=bool(words))
    for id, entry in found[:MOST_SHOWN]:
        with st.container(border=True, horizontal=True, vertical_alignment="center"):
            with st.container(width="stretch"):
                st.markdown(f"**{plain(names[id])}**  \n{plain(_short(entry))}")
            st.page_link(
                CATALOG_PAGE, label="Show", icon=":material/arrow_forward:", query_params={"kind": kind, "id": id}
            )
    if len(found) > MOST_SHOWN:
        st.caption(f"{len(found)} of them; the first {MOST_SHOWN} are shown. Search for part of a name to find others.")
    return str(kind)


def _show_nothing(kind: str, *, is_searched: bool) -> None:
    """That there is nothing of this kind, and where it would come from."""
    if is_searched:
        st.info("Nothing here has these words.", icon=":material/search:")
        return
    where = "enter one below" if session.is_store_used() else "open catalog files under Check files"
    tells = "tell one under New frame, or " if kind == "frame" else ""
    st.info(f"{KIND_WORDS[kind]}: none in this catalog yet; {tells}{where}.", icon=":material/info:")


def entries_of(catalog: Catalog, kind: str) -> Iterable[Any]:
    """The entries of one kind in a catalog."""
    if kind == "shop":
        return (catalog.shop,)
    entries: Iterable[Any] = getattr(catalog.entries, _LISTS.get(kind, f"{kind}s" if kind != "brake" else "brakes"))
    return entries


def name_of(entry: Any) -> str:
    """What to call an entry."""
    words = getattr(entry, "name", None) or getattr(entry, "short", None) or getattr(entry, "text", None)
    return str(words or getattr(entry, "id", "The shop's own figures"))


def _searched(entry: Any) -> str:
    return f"{name_of(entry)} {getattr(entry, 'id', '')} {getattr(entry, 'note', '') or ''} {_short(entry)}".lower()


def _short(entry: Any) -> str:
    """Its kind, size and what it is for, as far as it says so."""
    told = []
    for field, unit in (
        ("kind", ""),
        ("style", ""),
        ("fluid", ""),
        ("outer", " mm"),
        ("bore", " mm bore"),
        ("price", ""),
    ):
        value = getattr(entry, field, None)
        if value is not None:
            words = str(getattr(value, "value", value)).replace("_", " ")
            told.append(f"{words}{unit}")
    if hasattr(entry, "ports"):
        told.append(f"{len(entry.ports)} holes")
    return ", ".join(told)
