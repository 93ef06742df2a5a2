"""What to do where there is nothing to show yet, with the ways there."""

import streamlit as st

from catalog import Catalog
from ui.page import session

_WAYS = (
    ("screens/new_frame.py", "Tell a frame", ":material/edit_square:"),
    ("screens/check_files.py", "Open catalog files", ":material/fact_check:"),
)


def show_no_frames() -> None:
    """A catalog without frames: tell one, open files that have some, or try it with invented ones."""
    told = "This catalog has no frames yet: tell one hole by hole, open catalog files, or try it with invented frames."
    st.info(told, icon=":material/info:")
    with st.container(horizontal=True, vertical_alignment="center"):
        if session.demo_frames():
            st.button("Try it with invented frames", type="primary", on_click=session.use_demo_frames)
        for page, label, icon in _WAYS:
            st.page_link(page, label=label, icon=icon)


def show_no_lines(catalog: Catalog) -> bool:
    """A catalog with frames and nothing to put into them; whether that is so."""
    if catalog.brakes or catalog.lines:
        return False
    told = "This catalog has no brakes and no lines yet: enter them under Catalog, or open catalog files with some."
    st.info(told, icon=":material/info:")
    with st.container(horizontal=True, vertical_alignment="center"):
        st.page_link("screens/catalog.py", label="Catalog", icon=":material/inventory_2:")
        st.page_link(_WAYS[1][0], label=_WAYS[1][1], icon=_WAYS[1][2])
    return True
