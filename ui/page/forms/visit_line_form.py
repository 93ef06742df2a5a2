"""Ask for one line of a visit: what it is called, what comes off and goes on, from where to where, through what."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

import streamlit as st

from catalog import Catalog
from planner import find_frame_names
from planner import in_markdown as plain
from planner.parts import Brake, Frame, Line, LineKind
from ui.page import session, visit_session
from ui.page.forms.fold_with_errors import fold_of_fields, remember_errors
from ui.page.forms.measure_field import ask_measure
from ui.page.forms.things_form import ask_thing
from ui.shared.job_fields import NOTHING, Choice, choice_names
from ui.shared.suiting_ends import only_end, only_start, suiting_anchors
from ui.shared.visit_fields import choice_in, line_of_choices, supplied_of, through_of

CHOSEN = ("from", "to", "old", "new")
IN_FOLD = {"through", "supplied_length", "rotor"}
"""Fields of a line that stand in its fold."""

NOTHING_WORDS = {"old": "nothing lies there", "new": "nothing, it only comes out"}


@dataclass(frozen=True, slots=True, kw_only=True)
class AskedLine:
    """A line as far as it is chosen.

    slot : by which its fields keep what was typed
    fields : in the words of a job file
    places : where to say what is wrong with each field
    rest : where to say what is wrong with the line as a whole
    is_unread : whether something was typed that cannot be read
    """

    slot: int
    fields: dict[str, Any]
    places: dict[str, Any]
    rest: Any
    is_unread: bool

    def place_of(self, field: str) -> Any:
        """Where to say what is wrong with a field.

        field : as a problem names it: "lines no. 2 old through"
        """
        name = self._asked(field)
        return self.rest if name is None else self.places[name]

    def lacks(self, field: str) -> bool:
        """Whether nothing was chosen yet where a problem stands.

        field : likewise
        """
        name = self._asked(field)
        return name in CHOSEN and name not in self.fields

    def remember_fold(self, problems: Iterable[str]) -> None:
        """Hold on to whether something in the fold is wrong; a fold that lies open stays so.

        problems : the fields of this line in which there is one, likewise
        """
        is_wrong = self.is_unread or any(self._asked(field) in IN_FOLD for field in problems)
        remember_errors(_fold(self.slot), is_wrong, stays_open=True)

    def _asked(self, field: str) -> str | None:
        return next((word for word in field.split() if word in self.places), None)


def _fold(slot: int) -> str:
    return f"visit_line_{slot}"


def ask_visit_line(slot: int, number: int, *, frame: Frame, catalog: Catalog) -> AskedLine:
    """One line of the form.

    slot : of the line, by which its fields keep what was typed
    number : of the line as it is counted, from 1
    """
    opened = visit_session.opened_line(slot)
    places: dict[str, Any] = {}
    with st.container(border=True):
        name_column, old_column, new_column = st.columns([2, 3, 3])
        name = _ask_name(name_column, places, slot, number, opened)
        old = _ask_thing(old_column, places, slot, "old", "Comes off", opened, catalog)
        new = _ask_thing(new_column, places, slot, "new", "Goes on", opened, catalog)
        ends = _ask_ends(places, slot, frame, _thing(new, catalog) or _thing(old, catalog), opened)
        with fold_of_fields(_fold(slot), "Its way, supplied length, rotor"):
            through = _ask_through(places, slot, frame, old, opened)
            supplied = ask_measure(
                st,
                "New line as supplied, mm (empty: as the brake comes, or not told)",
                key=visit_session.form_key(visit_session.SUPPLIED, slot),
                start=_typed(supplied_of(opened)),
            )
            rotor_key = visit_session.form_key(visit_session.ROTOR, slot)
            rotor = ask_measure(
                st, "Rotor wanted, mm (empty: not asked)", key=rotor_key, start=_typed(opened.get("rotor"))
            )
            places |= {"supplied_length": st.container(), "rotor": st.container()}
        rest = st.container()
        st.button(
            "Take this line out of the visit",
            key=visit_session.form_key("remove", slot),
            icon=":material/delete:",
            on_click=visit_session.remove_slot,
            args=(slot,),
        )
    fields = line_of_choices(
        name=name,
        ends=ends,
        old=old,
        new=new,
        through=through,
        supplied_mm=supplied.value,
        rotor_mm=rotor.value,
        opened=opened,
    )
    is_unread = bool(supplied.problem or rotor.problem)
    return AskedLine(slot=slot, fields=fields, places=places, rest=rest, is_unread=is_unread)


def _typed(value: float | None) -> str:
    return "" if value is None else f"{value:g}"


def _ask_name(column: Any, places: dict[str, Any], slot: int, number: int, opened: dict[str, Any]) -> str:
    key = visit_session.form_key("name", slot)
    session.start_choice(key, opened.get("id", f"line-{number}"))
    typed: str = column.text_input(f"Line {number} is called", key=key)
    places["id"] = column.container()
    return typed


def _ask_thing(
    column: Any, places: dict[str, Any], slot: int, field: str, label: str, opened: dict[str, Any], catalog: Catalog
) -> Choice | None:
    key = visit_session.form_key(field, slot)
    session.start_choice(key, choice_in(opened, field))
    chosen = ask_thing(column, label, choice_names(catalog) | {NOTHING: NOTHING_WORDS[field]}, key=key)
    places[field] = column.container()
    return chosen


def _thing(choice: Choice | None, catalog: Catalog) -> Brake | Line | None:
    if choice is None or choice == NOTHING:
        return None
    kind, thing_id = choice
    return catalog.brakes[thing_id] if kind == "brake" else catalog.lines[thing_id]


def _ask_ends(
    places: dict[str, Any], slot: int, frame: Frame, thing: Brake | Line | None, opened: dict[str, Any]
) -> tuple[str | None, str | None]:
    """Only ends that suit the line are offered; a wire may end beside any part, and an opened file's ends are kept."""
    suiting = tuple(frame.anchors) if thing is None else suiting_anchors(frame, thing)
    kept = {opened.get("from"), opened.get("to")}
    is_wire = isinstance(thing, Line) and thing.kind is LineKind.ELECTRIC_WIRE
    offered = [one for one in frame.anchors if is_wire or one in suiting or one in kept]
    start = None if thing is None else only_start(frame, suiting)
    from_column, to_column = st.columns(2)
    first = _ask_end(from_column, places, slot, "from", "Starts at", offered, opened.get("from", start), frame)
    others = [one for one in offered if one != first]
    end = None if thing is None else only_end(frame, thing, suiting, start=first)
    return first, _ask_end(to_column, places, slot, "to", "Ends at", others, opened.get("to", end), frame)


def _ask_end(
    column: Any,
    places: dict[str, Any],
    slot: int,
    field: str,
    label: str,
    offered: list[str],
    first: str | None,
    frame: Frame,
) -> str | None:
    key = f"{visit_session.form_key(field, slot)}_{frame.id}"
    session.start_choice_among(key, offered, first if first in offered else None)
    chosen: str | None = column.selectbox(
        label,
        offered,
        index=None,
        key=key,
        placeholder="Choose an end",
        format_func=find_frame_names(frame).place,
    )
    places[field] = column.container()
    return chosen


def _ask_through(
    places: dict[str, Any], slot: int, frame: Frame, old: Choice | None, opened: dict[str, Any]
) -> list[str]:
    names = find_frame_names(frame)
    key = f"{visit_session.form_key('through', slot)}_{frame.id}"
    session.start_choice(key, [one for one in through_of(opened) if one in frame.ports])
    whose = "it must take" if old is None or old == NOTHING else "the old line takes"
    chosen: list[str] = st.multiselect(
        f"Holes {whose}, in their order (empty: any way there is)",
        list(frame.ports),
        key=key,
        placeholder="None told",
        format_func=lambda one: plain(names.place(one)),
    )
    places["through"] = st.container()
    return chosen
