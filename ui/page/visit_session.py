"""What the page remembers of a visit between two clicks: its fields, and the form on which they are changed."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from catalog import Catalog
from planner import VisitPlan, plan_visit
from planner.parts import Visit
from ui.page.session import VISIT

_FIELDS, _IS_OPEN, _SLOTS, _NEXT = f"{VISIT}fields", f"{VISIT}is_open", f"{VISIT}slots", f"{VISIT}next"
LINE_SHOWN_KEY = f"{VISIT}shown"
"""Key of the list that picks the line whose plan is shown."""

FIRST_KEY = f"{VISIT}first"
"""Key of the list of lines wanted first, beside the answer."""

_FORM = f"{VISIT}form_"
"""How keys of the form's fields begin; they last as long as the form is drawn."""


def visit_fields() -> dict[str, Any]:
    """The visit in the words of a job file, as it was told last; empty where none was."""
    return dict(st.session_state.get(_FIELDS, {}))


def remember_visit(fields: Mapping[str, Any], *, is_open: bool) -> None:
    """Take this visit as the one on the page.

    is_open : whether its form is open, for it is not whole yet
    """
    forget_visit()
    st.session_state[_FIELDS], st.session_state[_IS_OPEN] = dict(fields), is_open


def forget_visit() -> None:
    """An empty form again."""
    for key in [str(key) for key in st.session_state if str(key).startswith(VISIT)]:
        del st.session_state[key]


def is_form_open() -> bool:
    """Whether the visit is being changed; true where none was told yet."""
    return bool(st.session_state.get(_IS_OPEN, True))


def open_form() -> None:
    """Change the visit: the form shows what was told last."""
    for key in [str(key) for key in st.session_state if str(key).startswith(_FORM)]:
        del st.session_state[key]
    st.session_state.pop(_SLOTS, None)
    st.session_state[_IS_OPEN] = True


def close_form(fields: Mapping[str, Any]) -> None:
    """The visit as it stands on the form is the one to be answered."""
    st.session_state[_FIELDS], st.session_state[_IS_OPEN] = dict(fields), False


def form_key(name: str, slot: int | None = None) -> str:
    """Key of a field of the form, of the whole visit or of one of its lines."""
    return f"{_FORM}{name}" if slot is None else f"{_FORM}{slot}_{name}"


def slots() -> list[int]:
    """The lines on the form: a number each, which stays the same when another line goes."""
    if _SLOTS not in st.session_state:
        count = len(visit_fields().get("lines", ())) or 1
        st.session_state[_SLOTS], st.session_state[_NEXT] = list(range(count)), count
    return list(st.session_state[_SLOTS])


def add_slot() -> None:
    """One line more on the form."""
    st.session_state[_SLOTS] = [*slots(), st.session_state[_NEXT]]
    st.session_state[_NEXT] += 1


def remove_slot(slot: int) -> None:
    """One line less on the form."""
    st.session_state[_SLOTS] = [each for each in slots() if each != slot]


def opened_line(slot: int) -> dict[str, Any]:
    """The fields of a line as the form was opened with them; empty for one added since."""
    lines = visit_fields().get("lines", ())
    return dict(lines[slot]) if slot < len(lines) else {}


def show_first(line_ids: list[str]) -> None:
    """Show which lines are wanted before all others."""
    st.session_state[FIRST_KEY] = line_ids


def pin_as_chosen() -> None:
    """Wish for the lines chosen beside the answer before all others, in this order."""
    st.session_state[_FIELDS] = visit_fields() | {"first": list(st.session_state[FIRST_KEY])}


def _what_plans(catalog: Catalog) -> str:
    return repr(catalog.workshop)


@st.cache_resource(show_spinner="Looking for the order", max_entries=32, hash_funcs={Visit: repr, Catalog: _what_plans})
def plan_of_visit(visit: Visit, catalog: Catalog) -> VisitPlan:
    """The plan of a visit; the same visit is planned once."""
    return plan_visit(visit=visit, workshop=catalog.workshop)
