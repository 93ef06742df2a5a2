"""Trace a hole: from points typed or pasted, or from an SVG or DXF file, to the corners of an outline."""

from collections.abc import Callable

import streamlit as st

from catalog import (
    BIGGEST_DRAWING_BYTES,
    FILE_ENDINGS,
    TEXT_ENDINGS,
    CatalogError,
    LengthWanted,
    TracedOutline,
    trace_file,
    trace_points,
)
from planner import draw_opening
from planner import in_markdown as plain
from planner.parts import OutlineOpening
from ui.page.forms.measure_field import ask_measure
from ui.page.views.port_picker import show_picture
from ui.shared.extras import refuse_without
from ui.shared.traced_words import WITHIN_WORDS

_MB = 1_000_000
_HOLE_PX = 320


def offer_trace(*, key: str, take: Callable[[TracedOutline], None]) -> None:
    """A fold behind which a hole is traced.

    key : tells the places where one is traced apart; what is typed has keys that begin so, and is kept with their form
    take : what becomes of the outline once it is wanted
    """
    with st.popover("Trace the hole", icon=":material/gesture:", key=f"trace {key}"):
        traced = _ask(key)
        if traced is None:
            return
        st.markdown("  \n".join(map(plain, [f"{traced.words}.", *traced.remarks, WITHIN_WORDS])))
        opening = OutlineOpening(points_mm=traced.points_mm, tolerance_mm=0.0)
        st.button("Take this outline", type="primary", key=f"trace {key} take", on_click=take, args=(traced,))
        show_picture(draw_opening(opening), key=f"trace {key} seen", most_px=_HOLE_PX)


def _ask(key: str) -> TracedOutline | None:
    file = st.file_uploader(
        f"The hole alone in a file: {FILE_ENDINGS}",
        type=["svg", "dxf", *(ending.removeprefix(".") for ending in TEXT_ENDINGS)],
        max_upload_size=BIGGEST_DRAWING_BYTES // _MB,
        key=f"trace {key} file",
    )
    points = ""
    if file is None:
        points = st.text_area(
            "Or its corners in mm: x,y x,y x,y in a row, or one a row",
            key=f"{key} trace points",
            placeholder="0,0 12,0 6,9",
            height=90,
        )
    turn, length = st.columns(2)
    turned = ask_measure(turn, "Turn by, degrees", key=f"{key} trace turn", unit="°", placeholder="0")
    known = ask_measure(length, "Its length along the tube, mm", key=f"{key} trace length", placeholder="as drawn")
    if turned.problem or known.problem or (file is None and not points.strip()):
        return None
    try:
        if file is None:
            return trace_points(points, turn_deg=turned.value or 0.0, known_length_mm=known.value)
        if not file.name.lower().endswith(TEXT_ENDINGS):
            refuse_without("trace")
        return trace_file(file.name, file.getvalue(), known_length_mm=known.value, turn_deg=turned.value or 0.0)
    except LengthWanted as wanted:
        length.warning(plain(str(wanted)), icon=":material/straighten:")
    except CatalogError as refusal:
        st.error(plain(str(refusal)), icon=":material/error:")
    return None
