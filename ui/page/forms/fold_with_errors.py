"""A fold of fields that lies open where something in it was wrong, so that no error hides behind it.

A fold forgets that it was open when the form around it is put away; opened again it would cover the field in error.
"""

from typing import Any

import streamlit as st

from ui.page import session


def fold_of_fields(name: str, label: str) -> Any:
    """The fold, open where something in it was wrong when it was drawn last."""
    return st.expander(label, expanded=bool(session.held(_key(name))))


def remember_errors(name: str, has_errors: bool, *, stays_open: bool) -> None:
    """Hold on to whether something in the fold is wrong.

    stays_open : whether a fold that is open stays so though all is right now: nobody wants it closed while he types
    """
    session.hold(_key(name), has_errors or (stays_open and bool(session.held(_key(name)))))


def _key(name: str) -> str:
    return f"fold_{name}"
