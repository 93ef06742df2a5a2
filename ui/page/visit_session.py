"""What the page remembers of a visit between two clicks: its fields, and the form on which they are changed."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from typing import Any

import streamlit as st

from catalog import Catalog
from planner import VisitMemory, VisitPlan, plan_visit
from planner.parts import Visit
from ui.page import session, typed_beside
from ui.page.draft_form import Form
from ui.page.job_draft import catalog_kept, use_catalog_kept
from ui.page.plans import what_plans
from ui.shared.number_text import read_number

LINE_SHOWN_KEY = "visit_shown"
"""Key of the list that picks the line whose plan is shown."""

FIRST_KEY = "visit_first"
"""Key of the list of lines wanted first, beside the answer."""

FIGURES = SUPPLIED, ROTOR = "supplied", "rotor"
"""Fields of a line in which a figure is typed."""

_FORM = "visit_form_"
"""How keys of the form's fields begin; they last as long as the form is drawn."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Held:
    """The visit on the page.

    fields : in the words of a job file, as it was opened or answered last; the form begins with them
    typed : what stands on the form now, when it may not be whole yet
    is_open : whether the form is open
    slots, next_slot : a number for each line on the form, and the one for a further line
    """

    fields: dict[str, Any]
    typed: dict[str, Any]
    is_open: bool = True
    slots: tuple[int, ...] = (0,)
    next_slot: int = 1


def _held() -> _Held:
    found: _Held | None = session.held(session.VISIT)
    return _Held(fields={}, typed={}) if found is None else found


def _hold(held: _Held) -> None:
    session.hold(session.VISIT, held)


def visit_fields() -> dict[str, Any]:
    """The visit in the words of a job file, as it was told last; empty where none was."""
    return dict(_held().fields)


def remember_visit(fields: Mapping[str, Any], *, is_open: bool) -> None:
    """Take this visit as the one on the page.

    is_open : whether its form is open, for it is not whole yet
    """
    session.forget_beginning(_FORM)
    count = len(fields.get("lines", ())) or 1
    told = dict(fields)
    _hold(_Held(fields=told, typed=told, is_open=is_open, slots=tuple(range(count)), next_slot=count))


def forget_visit() -> None:
    """An empty form again."""
    session.forget_beginning(_FORM)
    session.forget_visit()
    session.let_go(f"draft_{VISIT_FORM.name}")


def is_form_open() -> bool:
    """Whether the visit is being changed; true where none was told yet."""
    return _held().is_open


def open_form() -> None:
    """Change the visit: the form shows what was told last."""
    remember_visit(_held().typed, is_open=True)


def hold_typed(fields: Mapping[str, Any]) -> None:
    """What stands on the form now."""
    _hold(replace(_held(), typed=dict(fields)))


def close_form(fields: Mapping[str, Any]) -> None:
    """The visit as it stands on the form is the one to be answered."""
    remember_visit(fields, is_open=False)


def form_key(name: str, slot: int | None = None) -> str:
    """Key of a field of the form, of the whole visit or of one of its lines."""
    return f"{_FORM}{name}" if slot is None else f"{_FORM}{slot}_{name}"


def slots() -> tuple[int, ...]:
    """The lines on the form: a number each, which stays the same when another line goes."""
    return _held().slots


def add_slot() -> None:
    """One line more on the form."""
    held = _held()
    _hold(replace(held, slots=(*held.slots, held.next_slot), next_slot=held.next_slot + 1))


def remove_slot(slot: int) -> None:
    """One line less on the form."""
    held = _held()
    _hold(replace(held, slots=tuple(each for each in held.slots if each != slot)))


def opened_line(slot: int) -> dict[str, Any]:
    """The fields of a line as the form was opened with them; empty for one added since."""
    lines = visit_fields().get("lines", ())
    return dict(lines[slot]) if slot < len(lines) else {}


def show_first(line_ids: list[str]) -> None:
    """Show which lines are wanted before all others."""
    session.put_choices({FIRST_KEY: line_ids})


def pin_as_chosen() -> None:
    """Wish for the lines chosen beside the answer before all others, in this order."""
    remember_visit(visit_fields() | {"first": list(session.chosen(FIRST_KEY))}, is_open=False)


def _shown() -> dict[str, Any]:
    held = _held()
    if not held.typed:
        return {}
    saved = session.held(session.VISIT_SAVED_AS)
    shown = {"fields": held.typed, "is_open": held.is_open, "catalog": catalog_kept(), "saved": saved}
    beside = typed_beside.typed(is_visit=True)
    more = {"measured": _measured(), "unread": _unread(), typed_beside.LASTING: beside}
    return shown | {name: value for name, value in more.items() if value}


def _unread() -> dict[str, str]:
    """What stands in figures of the form and cannot be read as it stands, by the field and the line's place."""
    typed = {f"{name} {n}": session.chosen(form_key(name, slot)) for n, slot in enumerate(slots()) for name in FIGURES}
    return {place: text for place, text in typed.items() if text and read_number(text, unit="mm").problem}


def _measured() -> dict[str, Any]:
    """What was measured for the visit: what stands in fields that nobody has filled in is left out."""
    typed = session.choices_beginning(session.VISIT_READINGS)
    places = {key.rpartition("read|")[2] for key, value in typed.items() if value and "read|" in key}
    return {
        key: value
        for key, value in typed.items()
        if key.removeprefix(session.VISIT_READINGS).partition("|")[2] in places
    }


def _put(content: Mapping[str, Any]) -> None:
    """The catalog first, for another catalog forgets the visit."""
    use_catalog_kept(content["catalog"])
    remember_visit(content["fields"], is_open=content["is_open"])
    session.forget_beginning(session.VISIT_READINGS)
    for place, text in content.get("unread", {}).items():
        name, _, n = place.partition(" ")
        session.put_choices({form_key(name, int(n)): text})
    session.put_choices(content.get("measured", {}) | content.get(typed_beside.LASTING, {}))
    if content.get("saved"):
        session.hold(session.VISIT_SAVED_AS, content["saved"])


def _title() -> str:
    return str(_held().typed.get("title", "several lines"))


VISIT_FORM = Form(name="visit", shown=_shown, put=_put, title=_title, lasting=("saved", typed_beside.LASTING))


@st.cache_resource(show_spinner="Looking for the order", max_entries=32, hash_funcs={Visit: repr, Catalog: what_plans})
def plan_of_visit(visit: Visit, catalog: Catalog) -> VisitPlan:
    """The plan of a visit; the same visit is planned once, one changed a little in the time of what changed."""
    return plan_visit(visit=visit, workshop=catalog.workshop, memory=_memory())


def _memory() -> VisitMemory:
    found: VisitMemory | None = session.held(session.VISIT_MEMORY)
    if found is None:
        found = VisitMemory()
        session.hold(session.VISIT_MEMORY, found)
    return found
