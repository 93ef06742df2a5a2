"""Bodies behind tabs, of which only the one looked at is drawn.

Whatever is drawn costs time in the server and in the browser at every click.
"""

from collections.abc import Callable, Mapping, Sequence

import streamlit as st

from ui.page import session


def show_tabs(bodies: Mapping[str, Callable[[], None]], *, key: str, first: str = "", keeps: Sequence[str] = ()) -> str:
    """Tabs, and the body of the one that is open, whose name is told back.

    first : the one that is open until another is chosen, and again where it becomes another; "" for the leftmost
    keeps : how keys of choices in the bodies begin, which are lost where they are not drawn unless they are kept
    """
    session.keep_beginning(*keeps)
    names = list(bodies)
    tabs = st.tabs(names, default=first or names[0], key=f"{key}_{first}", on_change="rerun")
    for tab, body in zip(tabs, bodies.values(), strict=True):
        if tab.open:
            with tab:
                body()
    return next((name for name, tab in zip(names, tabs, strict=True) if tab.open), names[0])
