"""Ask what else a job says of its old and its new line: way, lengths, what belongs on bare ends."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

import streamlit as st

from catalog import Catalog
from planner import find_frame_names
from planner import in_markdown as plain
from planner.parts import Fitting, Frame, OldMeasured
from ui.page.forms.fold_with_errors import fold_of_fields
from ui.page.forms.measure_field import ask_measure
from ui.page.views.choice_pictures import show_choices
from ui.shared.job_fields import NOTHING, Choice

Path = tuple[str | int, ...]
HOW_WORDS = {
    OldMeasured.CUT_ENDS: "from cut end to cut end",
    OldMeasured.BETWEEN_FITTINGS: "between the fittings",
    OldMeasured.WITH_FITTINGS: "with the fittings",
}
DETAILS_FOLD = "details_of_lines"
"""Name of the fold of ways, lengths and bare ends."""

REACHED_WORDS = {None: "nobody looked", True: "yes, in every posture", False: "no"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asking:
    """One job whose details are asked.

    ends : ids of its anchors
    places : where a complaint about a field is told, by the field's path; filled here
    unread : sentences on what was typed and is no number; filled here
    """

    catalog: Catalog
    frame: Frame
    ends: tuple[str, str]
    old: Choice
    new: Choice
    places: dict[Path, Any]
    unread: list[str]


def details_keys(frame_id: str, ends: tuple[str, str], old: Choice, new: Choice) -> Callable[[str, str], str]:
    """The key of a field of a line, by the line and the field: what is true of one way or one thing goes with it."""
    way = f"{old[1]}_{frame_id}_{ends[0]}_{ends[1]}"
    of_way = {"through", "measured_length", "measured", "reached"}

    def key(line: str, field: str) -> str:
        if field in of_way:
            about = way
        elif field.startswith("move"):
            about = f"{way}_{new[1]}"
        else:
            about = old[1] if line == "old" else new[1]
        return f"choice_{line}_{field}_{about}"

    return key


def details_choices(fields: Mapping[str, Any], old: Choice, new: Choice) -> dict[str, Any]:
    """What the form must show for the details of a job to stand on it."""
    key = details_keys(fields["frame"], (fields["from"], fields["to"]), old, new)
    shown: dict[str, Any] = {}
    for line in ("old", "new"):
        told = fields[line] if isinstance(fields[line], Mapping) else {}
        for end in ("from_end", "to_end"):
            if fitted := told.get(end):
                shown[key(line, end)] = fitted["fitting"]
                shown[key(line, f"{end}_fitted")] = fitted.get("fitted", False)
    told = fields["old"] if isinstance(fields["old"], Mapping) else {}
    shown[key("old", "through")] = list(told.get("through", ()))
    shown[key("old", "measured_length")] = _typed(told.get("measured_length"))
    shown[key("old", "measured")] = OldMeasured(told.get("measured", OldMeasured.CUT_ENDS)).value
    shown[key("old", "reached")] = told.get("reached")
    for end in ("from", "to"):
        shown[key("old", f"move_{end}")] = _typed(told.get("move", {}).get(end))
    new_told = fields["new"] if isinstance(fields["new"], Mapping) else {}
    shown[key("new", "supplied_length")] = _typed(new_told.get("supplied_length"))
    return shown


def _typed(value: float | None) -> str:
    return "" if value is None else f"{value:g}"


def ask_details(asking: Asking) -> tuple[dict[str, Any], dict[str, Any]]:
    """What is told of the old line and of the new one, in the words of a job file."""
    key = details_keys(asking.frame.id, asking.ends, asking.old, asking.new)
    old: dict[str, Any] = {}
    with fold_of_fields(DETAILS_FOLD, "Way and length of the old line, supplied length, bare ends"):
        if asking.old != NOTHING:
            old = _ask_old(asking, key)
        new: dict[str, Any] = {}
        supplied = _measure(
            asking, ("new", "supplied_length"), "New line supplied, mm (empty: as its brake says)", key=key
        )
        if supplied is not None:
            new["supplied_length"] = supplied
        for line, choice, told in (("old", asking.old, old), ("new", asking.new, new)):
            if choice[0] == "line":
                told |= _ask_ends(asking, line, key)
    return old, new


def _ask_old(asking: Asking, key: Callable[[str, str], str]) -> dict[str, Any]:
    names = find_frame_names(asking.frame)
    told: dict[str, Any] = {}
    through = st.multiselect(
        "The old line runs through",
        list(asking.frame.ports),
        key=key("old", "through"),
        format_func=names.place,
        placeholder="Not known",
    )
    asking.places["old", "through"] = st.container()
    if through:
        told["through"] = through
    length = _measure(asking, ("old", "measured_length"), "Old line measured, mm (empty: not measured)", key=key)
    if length is None:
        return told
    told["measured_length"] = length
    how = st.selectbox(
        "Measured how", [one.value for one in HOW_WORDS], key=key("old", "measured"), format_func=_how_words
    )
    if how != OldMeasured.CUT_ENDS.value:
        told["measured"] = how
    columns = st.columns(2)
    move = {}
    for column, end, place in zip(columns, ("from", "to"), asking.ends, strict=True):
        with column:
            label = f"Outlet at {plain(names.place(place))}: longer by, mm"
            by_mm = _measure(asking, ("old", "move", end), label, key=key, field=f"move_{end}")
        if by_mm is not None:
            move[end] = by_mm
    if move:
        told["move"] = move
    reached = st.selectbox(
        "Did it reach with the bar at both stops and the rear right down?",
        list(REACHED_WORDS),
        key=key("old", "reached"),
        format_func=lambda one: REACHED_WORDS[one],
        index=None,
        placeholder=REACHED_WORDS[None],
    )
    if reached is not None:
        told["reached"] = reached
    return told


def _how_words(how: str) -> str:
    return HOW_WORDS[OldMeasured(how)]


def _ask_ends(asking: Asking, line: str, key: Callable[[str, str], str]) -> dict[str, Any]:
    """What belongs on the ends of a bare line, and whether it sits there."""
    names = find_frame_names(asking.frame)
    told: dict[str, Any] = {}
    for column, end, place in zip(st.columns(2), ("from_end", "to_end"), asking.ends, strict=True):
        with column:
            fitting = st.selectbox(
                f"Fitting of the {line} line at {plain(names.place(place))}",
                list(asking.catalog.fittings),
                index=None,
                key=key(line, end),
                placeholder="None",
                format_func=lambda one: _fitting_words(asking.catalog.fittings[one]),
            )
            asking.places[line, end] = st.container()
            if fitting is not None:
                sits = st.checkbox("It sits on the line already", key=key(line, f"{end}_fitted"))
                told[end] = {"fitting": fitting, "fitted": sits}
    styles = list(dict.fromkeys(one.style.value for one in asking.catalog.fittings.values()))
    show_choices(styles, picked=None, key=f"{line}_fittings_drawn")
    return told


def _fitting_words(fitting: Fitting) -> str:
    """Its name, and the style by which it is drawn."""
    return f"{fitting.name or fitting.id}, {fitting.style.value}"


def _measure(
    asking: Asking, path: Path, label: str, *, key: Callable[[str, str], str], field: str = ""
) -> float | None:
    """A number; what is none is told at the field and kept among what was not read."""
    typed = ask_measure(st, label, key=key(str(path[0]), field or str(path[-1])))
    asking.places[path] = st.container()
    if typed.problem:
        asking.unread.append(f"“{label.partition(',')[0]}” is not a number")
    return typed.value


def show_at_fields(complaints: Mapping[Path, str], places: Mapping[Path, Any]) -> list[str]:
    """Each complaint at its field.

    Returns all of them by the names of their fields, those of which no field is shown too.
    """
    for path, words in complaints.items():
        longest = max((at for at in places if path[: len(at)] == at), key=len, default=None)
        place = st if longest is None else places[longest]
        place.error(plain(words), icon=":material/error:")
    return [f"{' '.join(map(str, path)).replace('_', ' ')}: {words}" for path, words in complaints.items()]
