"""A form for any kind of entry, from its schema: label, unit and range at each field, and what is wrong below it."""

from collections.abc import Collection, Mapping, Sequence
from typing import Any

import streamlit as st

from catalog import EntryField, FieldSort, annotation_of, fields_in, kind_word
from planner import can_draw_choices
from planner import in_markdown as plain
from ui.page import session
from ui.page.forms.trace_form import offer_trace
from ui.page.views.choice_pictures import show_choices
from ui.shared.entry_values import as_text, from_text, value_at, with_value

Path = tuple[str | int, ...]
Complaints = Mapping[Path, str]
PREFIX = "entry_field_"
PART = "entry_part"
"""Under which name it is held which part is to be shown next."""

TRACED = "entry_traced"
"""Under which name corners that were just traced are held, with the place they are for."""

PICKED = "entry_picked"
"""Under which name a choice that was just picked in its picture is held, with the place it is for."""

LONG = ("name", "note")
"""Fields whose words are long; half a row would cut them off."""

OUTLINE = "outline"
YES_NO = {"yes": True, "no": False}


def ask_entry(
    kind: str,
    value: dict[str, Any],
    complaints: Complaints,
    *,
    turn: int,
    is_new: bool,
    only: Collection[str] | None = None,
) -> dict[str, Any]:
    """The entry as its fields say now.

    complaints : what is wrong with it, by the place where it stands
    turn : another number whenever the entry was changed in another way than in these fields
    is_new : whether its id may still be chosen
    only : the fields that are asked now; None for all of them
    """
    annotation = annotation_of(kind)
    parts = dict(_parts(annotation, value, ()))
    if wanted := session.held(PART):
        session.let_go(PART)
        session.put_choices({f"{PREFIX}part": wanted})
    session.start_choice_among(f"{PREFIX}part", [*map(_part_key, parts)], _part_key(()))
    path: Path = ()
    if len(parts) > 1:
        labels = {_part_key(one): label for one, (label, _) in parts.items()}
        key = st.selectbox(
            "Part of it",
            list(labels),
            key=f"{PREFIX}part",
            format_func=lambda one: f"{labels.get(one, one)}{_marked(one, parts, complaints)}",
        )
        path = next(one for one in parts if _part_key(one) == key)
    asked = _Asked(complaints=complaints, turn=turn, hides_id=not is_new and not path, only=only)
    value = asked.ask(parts[path][1], value, path)
    return _ask_lists(parts[path][1], value, path)


def _parts(annotation: Any, value: dict[str, Any], path: Path) -> list[tuple[Path, tuple[str, Any]]]:
    """The entry itself and every entry in a list inside it, with what to call it and its schema."""
    inside = value_at(value, path)
    words = str(inside.get("id", "")) if isinstance(inside, Mapping) else ""
    label = "the whole" if not path else f"{_singular(str(path[-2]))} {words or f'no. {int(path[-1]) + 1}'}"
    found = [(path, (label, annotation))]
    for field in fields_in(annotation, inside):
        if field.sort is FieldSort.ENTRIES:
            for n in range(len(value_at(value, (*path, field.help.name)) or ())):
                found += _parts(field.annotation, value, (*path, field.help.name, n))
    return found


def _singular(word: str) -> str:
    return word.removesuffix("s").replace("_", " ")


def _part_key(path: Path) -> str:
    return "/".join(map(str, path)) or "."


def _marked(key: str, parts: Mapping[Path, Any], complaints: Complaints) -> str:
    """A mark behind a part in which something is wrong."""
    mine = next(path for path in parts if _part_key(path) == key)
    deepest = [max((one for one in parts if wrong[: len(one)] == one), key=len, default=()) for wrong in complaints]
    return " (not right)" if mine in deepest else ""


class _Asked:
    """The fields of one part, asked one after the other."""

    def __init__(
        self, *, complaints: Complaints, turn: int, hides_id: bool, only: Collection[str] | None = None
    ) -> None:
        self.complaints, self.turn, self.hides_id, self.only = complaints, turn, hides_id, only

    def ask(self, annotation: Any, value: dict[str, Any], path: Path) -> dict[str, Any]:
        """The value with what the fields of the entry at a path say."""
        word, kinds = kind_word(annotation)
        if kinds:
            value = self._ask_kind(word, kinds, value, path)
        fields = [one for one in fields_in(annotation, value_at(value, path)) if one.help.name != word]
        if self.only is not None and not path:
            fields = [one for one in fields if one.help.name in self.only]
        plain_ones = [
            one
            for one in fields
            if one.sort not in (FieldSort.ENTRY, FieldSort.ENTRIES) and not (self.hides_id and one.help.name == "id")
        ]
        columns: list[Any] = []
        for field in plain_ones:
            if can_draw_choices(field.help.choices) or field.help.name in LONG:
                columns = [st.container()]  # a row of its own, for what stands there wants the whole width
            columns = columns or [*st.columns(2)]  # in pairs, so that a narrow window keeps the order
            with columns.pop(0):
                value = self._ask_field(field, value, (*path, field.help.name))
        if value_at(value, (*path, word)) == OUTLINE:
            value = self._ask_trace(value, path)
        for field in fields:
            if field.sort is FieldSort.ENTRY:
                value = self._ask_inside(field, value, (*path, field.help.name))
        return value

    def _ask_kind(self, word: str, kinds: tuple[str, ...], value: dict[str, Any], path: Path) -> dict[str, Any]:
        at = (*path, word)
        had = value_at(value, at)
        place = kinds.index(had) if had in kinds else None
        got = st.selectbox(
            _words(word), kinds, index=place, key=self._key(at), placeholder="Choose one", format_func=_words
        )
        got = self._draw(kinds, got, at)
        self._complain(at)
        return value if got == had else with_value(value, path, {word: got})

    def _draw(self, choices: Sequence[str], got: str | None, path: Path) -> str | None:
        """The choices as pictures to pick in, where they are drawn; tells what is chosen now."""
        key = f"{self._key(path)}_drawn"
        show_choices(choices, picked=got, key=key, when_picked=lambda word: session.hold(PICKED, (path, word)))
        return str(_taken(PICKED, path) or "") or got

    def _ask_trace(self, value: dict[str, Any], path: Path) -> dict[str, Any]:
        """The corners of a traced hole in place of those that stand there."""
        key = self._key((*path, "trace"))
        offer_trace(key=key, take=lambda traced: session.hold(TRACED, (path, traced.points_mm)))
        taken = _taken(TRACED, path)
        if taken is None:
            return value
        traced: dict[str, Any] = with_value(value, (*path, "points"), [list(point) for point in taken])
        return traced

    def _ask_inside(self, field: EntryField, value: dict[str, Any], path: Path) -> dict[str, Any]:
        had = value_at(value, path)
        is_wrong = any(wrong[: len(path)] == path for wrong in self.complaints)
        sort = "" if had is None else str(had.get("shape") or had.get("kind") or "")
        told = _words(sort) if sort else "not told" if had is None else "told"
        with st.expander(plain(f"{_label(field)}: {told}"), expanded=is_wrong, key=self._key((*path, "fold"))):
            if field.help.help:
                st.caption(plain(field.help.help))
            is_told = st.checkbox("Told", value=had is not None, key=self._key((*path, "told")))
            if not is_told:
                return with_value(value, path, None) if had is not None else value
            self._complain(path)
            return self.ask(field.annotation, value if had is not None else with_value(value, path, {}), path)

    def _ask_field(self, field: EntryField, value: dict[str, Any], path: Path) -> dict[str, Any]:
        had = value_at(value, path)
        got = self._typed(field, had, path)
        self._complain(path)
        return value if got == had else with_value(value, path, got)

    def _typed(self, field: EntryField, had: Any, path: Path) -> Any:
        key, label = self._key(path), plain(_label(field))
        match field.sort:
            case FieldSort.YES_NO:
                shown = next((word for word, said in YES_NO.items() if said == had), None)
                got = st.selectbox(label, list(YES_NO), index=_place(shown, YES_NO), key=key, placeholder="not told")
                return None if got is None else YES_NO[got]
            case FieldSort.CHOICE:
                choices = [*field.help.choices, *([had] if had not in (None, *field.help.choices) else [])]
                got = st.selectbox(
                    label, choices, index=_place(had, choices), key=key, placeholder="not told", format_func=_words
                )
                return self._draw(choices, got, path)
            case _:
                text = as_text(had, field.sort)
                typed = st.text_input(label, text, key=key, placeholder=_hint(field)) or ""
                return had if typed == text else from_text(typed, field.sort, unit=field.help.unit)

    def _complain(self, path: Path) -> None:
        """What is wrong at a field, or inside what it lists."""
        for wrong, told in self.complaints.items():
            if wrong == path or (wrong[: len(path)] == path and not _is_entry(wrong, path)):
                st.error(plain(told), icon=":material/error:")

    def _key(self, path: Path) -> str:
        return f"{PREFIX}{self.turn}_{_part_key(path)}"


def _taken(name: str, path: Path) -> Any:
    """What was put at a path by something else than its field; None where nothing was. The field shows it next."""
    held = session.held(name)
    if held is None or held[0] != path:
        return None
    session.let_go(name)
    session.hold(PART, session.chosen(f"{PREFIX}part") or _part_key(()))
    return held[1]


def _is_entry(wrong: Path, path: Path) -> bool:
    """Whether a complaint belongs to a field of its own inside."""
    return any(isinstance(step, str) for step in wrong[len(path) :])


def _place(word: Any, words: Any) -> int | None:
    return list(words).index(word) if word in words else None


def _label(field: EntryField) -> str:
    """Name and unit, and whether it must be told."""
    unit = f", {field.help.unit}" if field.help.unit and field.sort is not FieldSort.TEXT else ""
    return f"{_words(field.help.label)}{unit}{', needed' if field.help.is_required else ''}"


def _words(word: str) -> str:
    return word[:1].upper() + word[1:].replace("_", " ")


def _hint(field: EntryField) -> str:
    """The range, or how a list is typed."""
    lists = {FieldSort.POINTS: "x y z; x y z", FieldSort.TEXTS: "one, another", FieldSort.NUMBERS: "numbers and blanks"}
    if field.sort in lists:
        return lists[field.sort]
    return field.help.range if field.help.is_number else field.help.help[:80]


def _ask_lists(annotation: Any, value: dict[str, Any], path: Path) -> dict[str, Any]:
    """Buttons that add an entry to a list, or take the part shown out of its own."""
    lists = [one.help.name for one in fields_in(annotation, value_at(value, path)) if one.sort is FieldSort.ENTRIES]
    with st.container(horizontal=True):
        for name in lists:
            items = value_at(value, (*path, name)) or []
            if st.button(f"Add: {_singular(name)}", key=f"{PREFIX}add_{name}", icon=":material/add:"):
                value = with_value(value, (*path, name), [*items, {"id": f"{_singular(name)}-{len(items) + 1}"}])
                session.hold(PART, _part_key((*path, name, len(items))))
        if path and st.button("Take this part out", key=f"{PREFIX}remove", icon=":material/delete:"):
            value = with_value(value, path, None)
            session.hold(PART, _part_key(()))
    return value
