"""Put a visit together: a frame, its lines one by one, what is wished and allowed; errors stand at their fields."""

from collections.abc import Sequence
from typing import Any

import streamlit as st

from catalog import Catalog, CatalogError, EntryNotAccepted, Problem, visit_from_fields
from planner import in_markdown as plain
from planner.errors import PlannerError
from planner.parts import Frame
from ui.page import session, visit_session
from ui.page.drafts import keep
from ui.page.forms.staying_form import ask_staying, start_staying
from ui.page.forms.things_form import ask_frame
from ui.page.forms.visit_line_form import AskedLine, ask_visit_line
from ui.page.views.problem_view import show_refusal
from ui.shared.dialogue.frame_questions import id_of_name

ALLOWED = {
    "take_out_first": ("An old line may come out before its new one goes in", True),
    "remove_inserts": ("Inserts may come out for the work", True),
    "keep_old_brake": ("The old brakes are to be used again", False),
}


def ask_visit(catalog: Catalog) -> None:
    """The form of the visit on the page; its button answers it as soon as nothing is wrong with it."""
    opened = visit_session.visit_fields()
    frame = _ask_frame(catalog, opened)
    if frame is None:
        return
    slots = visit_session.slots()
    asked = [ask_visit_line(slot, n, frame=frame, catalog=catalog) for n, slot in enumerate(slots, start=1)]
    st.button("Add a line", icon=":material/add:", on_click=visit_session.add_slot)
    with st.container(border=True):
        wishes, untold = _ask_wishes(catalog, frame, asked, opened)
    fields = _fields(frame, asked, opened) | wishes
    visit_session.hold_typed(fields)
    keep(visit_session.VISIT_FORM)
    problems = _problems(fields, catalog)
    for n, line in enumerate(asked, start=1):
        line.remember_fold(problem.field for problem in problems if problem.line == n)
    is_sound = _show_problems(problems, asked) and not untold and not any(line.is_unread for line in asked)
    if st.button("Find the order", type="primary", icon=":material/route:", disabled=not is_sound):
        visit_session.close_form(fields)
        st.rerun()
    if not is_sound:
        st.caption("Put right what is marked; the order is looked for then.")


def _ask_frame(catalog: Catalog, opened: dict[str, Any]) -> Frame | None:
    key = visit_session.form_key("frame")
    session.start_choice(key, opened.get("frame") if opened.get("frame") in catalog.frames else None)
    return ask_frame(catalog, key=key)


def _ask_wishes(
    catalog: Catalog, frame: Frame, asked: Sequence[AskedLine], opened: dict[str, Any]
) -> tuple[dict[str, Any], list[str]]:
    """What is wished and allowed of all lines, and what of it is not told to the end."""
    fields: dict[str, Any] = {"allow": {}}
    ids = [line.fields["id"] for line in asked if line.fields.get("id")]
    key = visit_session.form_key("first")
    session.start_choice(key, [line_id for line_id in opened.get("first", ()) if line_id in ids])
    session.keep_among(key, ids)
    first = st.multiselect(
        "Wanted before all others, in this order", ids, key=key, placeholder="None", format_func=plain
    )
    groups = {
        "before": _ask_groups("In this order, whatever lies between", "before", ids, opened),
        "together": _ask_groups("Drawn in with one draw", "together", ids, opened),
    }
    fields |= {name: found for name, found in groups.items() if found}
    allowed = opened.get("allow", {})
    for name, (words, usual) in ALLOWED.items():
        key = visit_session.form_key(name)
        session.start_choice(key, allowed.get(name, usual))
        fields["allow"][name] = st.checkbox(words, key=key)
    prefix = visit_session.form_key("")
    start_staying(opened.get("staying", ()), frame.id, prefix=prefix)
    staying, untold = ask_staying(catalog, frame, prefix=prefix)
    fields |= {"first": first} if first else {}
    fields |= {"staying": staying} if staying else {}
    return fields, untold


def _ask_groups(label: str, name: str, ids: list[str], opened: dict[str, Any]) -> list[list[str]]:
    """Lists of lines, one more being offered than are filled."""
    told = [list(group) for group in opened.get(name, ())]
    found: list[list[str]] = []
    for n in range(len(ids)):
        key = visit_session.form_key(f"{name}{n}")
        session.start_choice(key, told[n] if n < len(told) else [])
        session.keep_among(key, ids)
        group = st.multiselect(
            f"{label} ({n + 1})" if n else label, ids, key=key, placeholder="None", format_func=plain
        )
        if not group:
            break
        found.append(group)
    return found


def _fields(frame: Frame, asked: Sequence[AskedLine], opened: dict[str, Any]) -> dict[str, Any]:
    lines = [line.fields for line in asked]
    is_same = opened.get("frame") == frame.id
    title = f"{len(lines)} {'line' if len(lines) == 1 else 'lines'} on {frame.name}"
    return {
        "id": opened["id"] if is_same and "id" in opened else f"{id_of_name(frame.id)}-visit",
        "title": opened["title"] if is_same and "title" in opened else title,
        "frame": frame.id,
        "lines": lines,
    }


def _problems(fields: dict[str, Any], catalog: Catalog) -> Sequence[Problem]:
    try:
        visit_from_fields(fields, catalog)
    except EntryNotAccepted as refusal:
        return refusal.problems
    except (CatalogError, PlannerError) as refusal:
        show_refusal(refusal)
        return ()
    return ()


def _show_problems(problems: Sequence[Problem], asked: Sequence[AskedLine]) -> bool:
    """Say each at its field; returns whether there is none."""
    for problem in problems:
        line = asked[problem.line - 1] if 0 < problem.line <= len(asked) else None
        if line is not None and line.lacks(problem.field):
            line.place_of(problem.field).caption("Still to be chosen")
            continue
        place = st.container() if line is None else line.place_of(problem.field)
        allowed = f" ({plain(problem.allowed)})" if problem.allowed else ""
        place.error(f"{plain(problem.given)}{allowed}", icon=":material/error:")
    return not problems
