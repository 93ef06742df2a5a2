"""Ask which frame, what comes off, what goes on, from where to where: choices on the page as the fields of a job."""

from collections.abc import Iterable, Mapping, Sequence
from functools import partial
from typing import Any

import streamlit as st

from catalog import Catalog
from planner import in_markdown as plain
from planner.parts import Frame, MovesWith
from ui.page import session
from ui.shared.job_fields import NOTHING, Choice, choice_of, line_fields


def ask_job(catalog: Catalog) -> dict[str, Any] | None:
    """The job chosen so far as fields of a job file; None while something is still to be chosen."""
    opened = session.opened_fields()
    with st.container(border=True):
        frame_column, old_column, new_column = st.columns(3)
        frame = _ask_frame(frame_column, catalog)
        old = _ask_line(old_column, "Comes off", "choice_old", [NOTHING, *_line_choices(catalog)], catalog)
        new = _ask_line(new_column, "Goes on", "choice_new", _line_choices(catalog), catalog)
        if frame is None:
            return None
        ends = _ask_ends(frame)
        more = _ask_more(catalog, frame, opened)
    if old is None or new is None or ends is None:
        return None
    return {
        "id": opened.get("id") or f"{frame.id}-{new[1]}",
        "title": opened.get("title") or f"{_line_words(new, catalog)} on {frame.name}",
        "frame": frame.id,
        "from": ends[0],
        "to": ends[1],
        "old": line_fields(old, opened.get("old")),
        "new": line_fields(new, opened.get("new")),
        **more,
    }


def choices_of(fields: dict[str, Any]) -> dict[str, Any]:
    """What the form must show for a job to stand on it."""
    frame_id = fields["frame"]
    staying = _numbered(fields.get("staying", ()))
    return {
        "choice_frame": frame_id,
        f"choice_from_{frame_id}": fields["from"],
        f"choice_to_{frame_id}": fields["to"],
        "choice_old": choice_of(fields["old"]),
        "choice_new": choice_of(fields["new"]),
        "choice_staying": list(staying),
        **{_through_key(copy, frame_id): through for copy, through in staying.items()},
        "choice_rotor_mm": fields.get("rotor"),
        "choice_remove_inserts": fields["allow"]["remove_inserts"],
        "choice_keep_old_brake": fields["allow"]["keep_old_brake"],
    }


def _ask_frame(column: Any, catalog: Catalog) -> Frame | None:
    frame_id = column.selectbox(
        "Frame",
        list(catalog.frames),
        index=None,
        placeholder="Choose a frame",
        key="choice_frame",
        format_func=lambda one: catalog.frames[one].name,
    )
    return catalog.frames[frame_id] if frame_id else None


def _ask_line(column: Any, label: str, key: str, options: list[Choice], catalog: Catalog) -> Choice | None:
    chosen = column.selectbox(
        label,
        options,
        index=None,
        placeholder="Choose a brake or a line",
        key=key,
        format_func=lambda choice: _line_words(choice, catalog),
    )
    return tuple(chosen) if chosen else None


def _line_choices(catalog: Catalog) -> list[Choice]:
    return [*(("brake", brake) for brake in catalog.brakes), *(("line", line) for line in catalog.lines)]


def _line_words(choice: Choice, catalog: Catalog) -> str:
    if tuple(choice) == NOTHING:
        return "Nothing: the frame is empty"
    kind, thing_id = choice
    return catalog.brakes[thing_id].name if kind == "brake" else f"{catalog.lines[thing_id].name}, bare"


def _ask_ends(frame: Frame) -> tuple[str, str] | None:
    anchors = list(frame.anchors)
    if len(anchors) < 2:
        st.caption("This frame has fewer than two places where a line can end.")
        return None
    from_key, to_key = f"choice_from_{frame.id}", f"choice_to_{frame.id}"
    session.start_choice(from_key, _first_that_moves(frame, MovesWith.BAR, anchors))
    session.start_choice(to_key, _first_that_moves(frame, MovesWith.REAR, reversed(anchors)))
    from_column, to_column = st.columns(2)
    called = partial(_anchor_words, frame)
    start = from_column.selectbox("Line starts at", anchors, key=from_key, format_func=called)
    end = to_column.selectbox("Line ends at", anchors, key=to_key, format_func=called)
    return (start, end) if start and end else None


def _anchor_words(frame: Frame, anchor_id: str) -> str:
    label = frame.anchors[anchor_id].label
    return f"{anchor_id}: {label}" if label else anchor_id


def _first_that_moves(frame: Frame, moves_with: MovesWith, anchors: Iterable[str]) -> str:
    ordered = list(anchors)
    return next((one for one in ordered if frame.anchors[one].moves_with is moves_with), ordered[0])


def _ask_more(catalog: Catalog, frame: Frame, opened: dict[str, Any]) -> dict[str, Any]:
    with st.expander("Lines that stay, rotor, what is allowed"):
        fields: dict[str, Any] = {"allow": _ask_allowed()}
        staying = _ask_staying(catalog, frame)
        rotor_mm = st.number_input(
            "Rotor wanted, mm (empty: not asked)", min_value=100.0, max_value=260.0, value=None, key="choice_rotor_mm"
        )
    if staying:
        fields["staying"] = staying
    if rotor_mm is not None:
        fields["rotor"] = rotor_mm
    if "rotor_hub" in opened:
        fields["rotor_hub"] = opened["rotor_hub"]
    return fields


def _ask_allowed() -> dict[str, bool]:
    session.start_choice("choice_remove_inserts", True)
    session.start_choice("choice_keep_old_brake", False)
    return {
        "remove_inserts": st.checkbox("Inserts may come out for the work", key="choice_remove_inserts"),
        "keep_old_brake": st.checkbox("The old brake is to be used again", key="choice_keep_old_brake"),
    }


Copy = tuple[str, int]
"""A line that stays, and which of several alike it is, from 1."""


def _numbered(rows: Iterable[Mapping[str, Any]]) -> dict[Copy, list[str]]:
    """Lines that stay with the places they share; two of one kind are two lines."""
    staying: dict[Copy, list[str]] = {}
    for row in rows:
        alike = sum(line_id == row["line"] for line_id, _ in staying)
        staying[row["line"], alike + 1] = row["through"]
    return staying


def _through_key(copy: Copy, frame_id: str) -> str:
    return f"choice_through_{copy[0]}_{copy[1]}_{frame_id}"


def _ask_staying(catalog: Catalog, frame: Frame) -> list[dict[str, Any]]:
    def words(copy: Copy) -> str:
        name = catalog.lines[copy[0]].name
        return name if copy[1] == 1 else f"{name}, no. {copy[1]}"

    chosen = st.multiselect(
        "Lines that stay in the frame",
        _copies_to_offer(catalog, st.session_state.get("choice_staying") or []),
        key="choice_staying",
        placeholder="None",
        format_func=words,
    )
    staying = []
    for copy in chosen:
        through = st.multiselect(
            f"{plain(words(copy))} shares",
            [*frame.ports, *frame.runs],
            key=_through_key(copy, frame.id),
            placeholder="Choose ports and runs",
        )
        if through:
            staying.append({"line": copy[0], "through": through})
        else:
            st.caption("Not counted until the ports it shares are chosen.")
    return staying


def _copies_to_offer(catalog: Catalog, chosen: Sequence[Copy]) -> list[Copy]:
    """Of every line those chosen and one more: a frame may hold several alike."""
    most = {line_id: max((n for one, n in chosen if one == line_id), default=0) for line_id in catalog.lines}
    return [(line_id, n) for line_id in catalog.lines for n in range(1, most[line_id] + 2)]
