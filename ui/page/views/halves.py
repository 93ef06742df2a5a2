"""A form, or a step, and beside it its drawing."""

from typing import Any

import streamlit as st


def show_halves(*, stacks_fields: bool = True) -> tuple[Any, Any]:
    """The places of a form, or of what is to be done, and of its drawing.

    In a window of middle width each takes half of it: in a narrow column the letters of a drawing cannot be read.

    stacks_fields : whether the fields of the form then stand one below the other
    """
    with st.container(key="halves" if stacks_fields else "halves_in_rows"):
        asked, seen = st.columns([3, 2])
    return asked, seen
