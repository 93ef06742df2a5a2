"""Ask where a line starts and ends: only ends that suit it are offered, and none is chosen where several could be."""

from typing import Any

import streamlit as st

from planner import find_frame_names
from planner.parts import Brake, Frame, Line
from ui.page import session
from ui.shared.suiting_ends import only_end, only_start, suiting_anchors

LABELS = "Line starts at", "Line ends at"
"""What the two lists are called."""


def ends_keys(frame_id: str) -> tuple[str, str]:
    """Keys of the two lists, each frame with its own."""
    return f"choice_from_{frame_id}", f"choice_to_{frame_id}"


def ask_ends(frame: Frame, new: Brake | Line, opened: dict[str, Any]) -> tuple[str | None, str | None] | None:
    """Ids of the two ends, None for one that is still to be chosen; None for both where the frame lacks ends.

    opened : the fields of the job as it was opened, whose ends are offered whatever they serve
    """
    suiting = suiting_anchors(frame, new)
    kept = {opened["from"], opened["to"]} if opened.get("frame") == frame.id else set()
    offered = [anchor_id for anchor_id in frame.anchors if anchor_id in suiting or anchor_id in kept]
    if len(offered) < 2:
        told = f"This frame has {len(offered)} of the two ends that this line needs."
        st.info(f"{told} Choose another line, or add the end to the frame in the catalog.", icon=":material/info:")
        return None
    from_key, to_key = ends_keys(frame.id)
    from_column, to_column = st.columns(2)
    session.start_choice_among(from_key, offered, only_start(frame, suiting))
    start = _ask_end(from_column, LABELS[0], offered, from_key, frame)
    others = [anchor_id for anchor_id in offered if anchor_id != start]
    session.start_choice_among(to_key, others, only_end(frame, new, suiting, start=start))
    end = _ask_end(to_column, LABELS[1], others, to_key, frame)
    return start, end


def _ask_end(column: Any, label: str, offered: list[str], key: str, frame: Frame) -> str | None:
    called = find_frame_names(frame).place
    chosen: str | None = column.selectbox(
        label, offered, index=None, key=key, placeholder="Choose an end", format_func=called
    )
    return chosen
