"""Ask which lines stay in the frame and what each of them shares with the new one."""

from collections.abc import Iterable, Mapping, Sequence
from typing import Any

import streamlit as st

from catalog import Catalog
from planner import find_frame_names
from planner import in_markdown as plain
from planner.parts import Frame
from ui.page import session

Copy = tuple[str, int]
"""A line that stays, and which of several alike it is, from 1."""

JOB_FORM = "choice_"
"""How keys of the form of one line begin."""


def ask_staying(catalog: Catalog, frame: Frame, *, prefix: str = JOB_FORM) -> tuple[list[dict[str, Any]], list[str]]:
    """The lines that stay, in the words of a job file; and names of those of which it is not told what they share.

    prefix : what the keys of these fields begin with
    """
    key = f"{prefix}staying"
    chosen = st.multiselect(
        "Lines that stay in the frame",
        _copies_to_offer(catalog, session.chosen(key) or []),
        key=key,
        placeholder="None",
        format_func=lambda copy: _copy_words(copy, catalog),
    )
    staying, untold = [], []
    for copy in chosen:
        through = st.multiselect(
            f"{plain(_copy_words(copy, catalog))} shares",
            [*frame.ports, *frame.runs],
            key=_through_key(copy, frame.id, prefix),
            placeholder="Choose ports and runs",
            format_func=lambda place: _place_words(frame, place),
        )
        if through:
            staying.append({"line": copy[0], "through": through})
        else:
            untold.append(_copy_words(copy, catalog))
            st.error("Choose what it shares: until then no plan counts with it.", icon=":material/error:")
    return staying, untold


def start_staying(rows: Iterable[Mapping[str, Any]], frame_id: str, *, prefix: str) -> None:
    """Show these lines until somebody chooses otherwise.

    prefix : what the keys of these fields begin with
    """
    for key, value in staying_choices(rows, frame_id, prefix=prefix).items():
        session.start_choice(key, value)


def staying_choices(rows: Iterable[Mapping[str, Any]], frame_id: str, *, prefix: str = JOB_FORM) -> dict[str, Any]:
    """What the form must show for these lines to stay; two of one kind are two lines.

    prefix : what the keys of these fields begin with
    """
    through: dict[Copy, list[str]] = {}
    for row in rows:
        alike = sum(line_id == row["line"] for line_id, _ in through)
        through[row["line"], alike + 1] = row["through"]
    shared = {_through_key(copy, frame_id, prefix): places for copy, places in through.items()}
    return {f"{prefix}staying": list(through), **shared}


def _copy_words(copy: Copy, catalog: Catalog) -> str:
    name = catalog.lines[copy[0]].name
    return name if copy[1] == 1 else f"{name}, no. {copy[1]}"


def _place_words(frame: Frame, place_id: str) -> str:
    names = find_frame_names(frame)
    return names.place(place_id) if place_id in frame.ports else names.run(place_id)


def _through_key(copy: Copy, frame_id: str, prefix: str) -> str:
    return f"{prefix}through_{copy[0]}_{copy[1]}_{frame_id}"


def _copies_to_offer(catalog: Catalog, chosen: Sequence[Copy]) -> list[Copy]:
    """Of every line those chosen and one more: a frame may hold several alike."""
    most = {line_id: max((n for one, n in chosen if one == line_id), default=0) for line_id in catalog.lines}
    return [(line_id, n) for line_id in catalog.lines for n in range(1, most[line_id] + 2)]
