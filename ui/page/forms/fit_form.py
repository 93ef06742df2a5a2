"""Ask the quick question: a hole, how the line leans in it, and the round things that are to pass."""

import streamlit as st

from ui.page import session
from ui.shared.fit_question import FitQuestion
from ui.shared.opening_text import SHAPES

MOST_ITEMS = 4


def ask_question() -> FitQuestion | None:
    """The question as far as it is told; None while the hole or every thing is missing."""
    with st.container(border=True):
        opening_text = _ask_opening()
        st.markdown("**How it is passed**")
        tilt, wall, tolerance = st.columns(3)
        tilt_deg = tilt.slider("Tilt, degrees", 0, 80, key="choice_fit_tilt_deg", help="Line against the hole's axis.")
        wall_mm = wall.number_input("Wall, mm", min_value=0.0, max_value=60.0, step=0.1, key="choice_fit_wall_mm")
        tolerance_mm = tolerance.number_input(
            "Hole ± mm (empty: the shop's)", min_value=0.0, max_value=3.0, value=None, key="choice_fit_tolerance_mm"
        )
        diameters_mm = _ask_items()
        rigid_mm, bore_mm = _ask_stiff()
    if opening_text is None or not diameters_mm:
        return None
    return FitQuestion(
        opening_text=opening_text,
        item_diameters_mm=diameters_mm,
        tilt_deg=float(tilt_deg),
        wall_thickness_mm=wall_mm,
        tolerance_mm=tolerance_mm,
        item_tolerance_mm=0.0,
        rigid_length_mm=rigid_mm if bore_mm else None,
        bore_mm=bore_mm if rigid_mm else None,
    )


def _ask_opening() -> str | None:
    session.start_choice("choice_fit_shape", "slot")
    chosen = st.segmented_control("Shape of the hole", list(SHAPES), key="choice_fit_shape")
    if chosen is None:
        return None
    shape = SHAPES[chosen]
    if not shape.asked:
        points = st.text_input("Corners, mm: x,y x,y x,y", key="choice_fit_corners", placeholder="0,0 12,0 6,9")
        return shape.text.format(points=points) if points.strip() else None
    columns = st.columns(len(shape.asked))
    asked = zip(columns, shape.asked.items(), strict=True)
    sizes_mm = {name: _ask_size(column, label, name) for column, (name, label) in asked}
    return None if None in sizes_mm.values() else shape.text.format(**sizes_mm)


def _ask_size(place: object, label: str, name: str) -> float | None:
    size_mm: float | None = place.number_input(  # type: ignore[attr-defined]
        label, min_value=0.0, max_value=300.0, value=None, step=0.1, key=f"choice_fit_{name}_mm"
    )
    return size_mm


def _ask_items() -> tuple[float, ...]:
    st.markdown("**What is to pass it, side by side**")
    columns = st.columns(MOST_ITEMS)
    sizes = [
        columns[n].number_input(
            f"Thing {n + 1}, Ø mm", min_value=0.1, max_value=100.0, value=None, step=0.1, key=f"choice_fit_item{n}_mm"
        )
        for n in range(MOST_ITEMS)
    ]
    return tuple(size_mm for size_mm in sizes if size_mm is not None)


def _ask_stiff() -> tuple[float | None, float | None]:
    with st.expander("Is thing 1 stiff, and must it lie down in a tube behind the hole?"):
        rigid_mm = st.number_input(
            "Stiff length, mm", min_value=0.1, max_value=500.0, value=None, key="choice_fit_stiff_mm"
        )
        bore_mm = st.number_input(
            "Clear bore of the tube, mm", min_value=1.0, max_value=300.0, value=None, key="choice_fit_bore_mm"
        )
        if (rigid_mm is None) != (bore_mm is None):
            st.caption("Give both, or neither.")
    return rigid_mm, bore_mm
