"""Ask for a frame of the catalog, and for a brake or a line of it."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from catalog import Catalog
from planner import told_apart
from planner.parts import Frame
from ui.page.forms.ask_among import ask_among
from ui.shared.job_fields import Choice


def ask_frame(catalog: Catalog, *, key: str) -> Frame | None:
    """The frame that is chosen; None while none is."""
    names = told_apart({id: frame.name for id, frame in catalog.frames.items()})
    found = ask_among(st, "Frame", names, key=key, placeholder="Choose a frame", search="Search frames")
    return catalog.frames[found] if found else None


def ask_thing(place: Any, label: str, names: Mapping[Choice, str], *, key: str) -> Choice | None:
    """The brake or bare line that is chosen; None while none is.

    names : what each choice that is offered is called
    """
    search = f"{label}: search brakes and lines"
    found = ask_among(place, label, names, key=key, placeholder="Choose a brake or a line", search=search)
    return tuple(found) if found else None
