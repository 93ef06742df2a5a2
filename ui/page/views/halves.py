"""A form, and beside it what it draws as it is filled in."""

from typing import Any

import streamlit as st


def show_halves() -> tuple[Any, Any]:
    """The places of a form and of its drawing.

    In a window of middle width each takes half of it, and the fields of the form stand one below the other: in a
    narrow column the letters of a drawing cannot be read.
    """
    with st.container(key="halves"):
        asked, seen = st.columns([3, 2])
    return asked, seen
