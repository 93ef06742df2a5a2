"""Ask who works here: the name stands in every history."""

import streamlit as st

from ui.page import kept, session

WHO = "who_works_here"
"""Under which name it is held who worked here last."""


def ask_who(*, key: str) -> str:
    """The name typed, or the one known already; "" while nobody is named."""
    name = st.text_input("Who", who(), key=key, max_chars=120, placeholder="Your name, for the history").strip()
    if name:
        session.hold(WHO, name)
    return name


def who() -> str:
    """Who worked here last, or who is known to this machine."""
    return str(session.held(WHO) or kept.default_name())
