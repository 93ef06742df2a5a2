"""Ask the quick question: a hole, how the line leans in it, and the round things that are to pass."""

import streamlit as st

from ui.page import session
from ui.page.draft_form import form_of_choices
from ui.page.forms.measure_field import ask_measure
from ui.page.forms.trace_form import offer_trace
from ui.page.views.choice_pictures import show_choices
from ui.shared.fit_question import FitQuestion
from ui.shared.number_text import TypedNumber, as_typed
from ui.shared.opening_text import SHAPES
from ui.shared.traced_words import corners_typed

MOST_ITEMS = 4
PREFIX = "choice_fit_"
SHAPE_KEY = f"{PREFIX}shape"
FIT_FORM = form_of_choices("fit", prefix=PREFIX, title="Will it pass?", usual={SHAPE_KEY: "slot"})
TO_BEGIN = "Give the size of the hole and at least one thing that is to pass it."
TO_MEND = "Put right what is marked; the answer follows then."
TO_COMPLETE = "Give both the stiff length and the bore of the tube, or neither; the answer follows then."
TO_LEAN = (
    "Give the thickness of the wall: a line that leans, or a stiff piece, sees less of the hole the thicker it is."
)


def ask_question() -> FitQuestion | str:
    """The question; or what is still to be done before there is one."""
    with st.container(border=True):
        opening_text, sizes = _ask_opening()
        st.markdown("**How it is passed**")
        tilt, wall, tolerance = st.columns(3)
        leans = ask_measure(
            tilt, "Tilt, degrees", key="choice_fit_tilt_deg", unit="°", placeholder="0, or 20..45", takes_range=True
        )
        thickness = ask_measure(wall, "Wall, mm", key="choice_fit_wall_mm", takes_range=True)
        give_or_take = ask_measure(tolerance, "Hole ± mm (empty: the shop's)", key="choice_fit_tolerance_mm")
        items = _ask_items()
        stiff, bore = _ask_stiff()
    if any(typed.problem for typed in (*sizes, leans, thickness, give_or_take, *items, stiff, bore)):
        return TO_MEND
    diameters_mm = tuple(typed.value for typed in items if typed.value is not None)
    if opening_text is None or not diameters_mm:
        return TO_BEGIN
    if (stiff.value is None) != (bore.value is None):
        return TO_COMPLETE
    if thickness.value is None and (leans.value or stiff.value is not None):
        return TO_LEAN
    return FitQuestion(
        opening_text=opening_text,
        item_diameters_mm=diameters_mm,
        tilt_deg=leans.value or 0.0,
        wall_thickness_mm=0.0 if thickness.value is None else thickness.value,
        tolerance_mm=give_or_take.value,
        item_tolerance_mm=0.0,
        rigid_length_mm=stiff.value,
        bore_mm=bore.value,
    )


def _ask_opening() -> tuple[str | None, list[TypedNumber]]:
    """The hole in words, None while a size is missing; and its sizes as they were typed."""
    session.start_choice(SHAPE_KEY, "slot")
    chosen = st.segmented_control("Shape of the hole", list(SHAPES), key=SHAPE_KEY)
    show_choices(list(SHAPES), picked=chosen, key="fit_shapes", when_picked=_pick_shape, is_row=True)
    if chosen is None:
        return None, []
    shape = SHAPES[chosen]
    if not shape.asked:
        points = st.text_input("Corners, mm: x,y x,y x,y", key="choice_fit_corners", placeholder="0,0 12,0 6,9")
        offer_trace(
            key=f"{PREFIX}corners",
            take=lambda traced: session.put_choices({"choice_fit_corners": corners_typed(traced)}),
        )
        return shape.text.format(points=points) if points.strip() else None, []
    columns = st.columns(len(shape.asked))
    asked = zip(columns, shape.asked.items(), strict=True)
    typed = {
        name: ask_measure(column, label, key=f"choice_fit_{name}_mm", takes_range=chosen != "gauge")
        for column, (name, label) in asked
    }
    sizes = {name: as_typed(one.value) for name, one in typed.items() if one.value is not None}
    return None if len(sizes) < len(typed) else shape.text.format(**sizes), list(typed.values())


def _pick_shape(shape: str) -> None:
    session.put_choices({SHAPE_KEY: shape})


def _ask_items() -> list[TypedNumber]:
    st.markdown("**What is to pass it, side by side**")
    columns = st.columns(MOST_ITEMS)
    return [ask_measure(columns[n], f"Thing {n + 1}, Ø mm", key=f"choice_fit_item{n}_mm") for n in range(MOST_ITEMS)]


def _ask_stiff() -> tuple[TypedNumber, TypedNumber]:
    with st.expander("Is thing 1 stiff, and must it lie down in a tube behind the hole?"):
        stiff = ask_measure(st, "Stiff length, mm", key="choice_fit_stiff_mm")
        bore = ask_measure(st, "Clear bore of the tube, mm", key="choice_fit_bore_mm", takes_range=True)
    return stiff, bore
