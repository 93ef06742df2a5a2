"""Show the answer to the quick question: verdict, figures, the hole at true size, and the dip of a stiff piece."""

import streamlit as st

from catalog import Catalog
from planner import HoleFit, draw_hole, draw_motion, millimetres
from planner.parts import Port
from planner.verdicts import Check, State
from ui.commands.fit import FitAnswer, FitQuestion, port_of_question
from ui.page.views.port_picker import show_picture
from ui.page.views.verdict_view import show_outcome
from ui.reports.fit_report import VERDICTS


def show_answer(question: FitQuestion, answer: FitAnswer, catalog: Catalog) -> None:
    """Verdict first, then the numbers, then the pictures."""
    fit = answer.side_by_side
    things = " + ".join(f"{diameter_mm:g}" for diameter_mm in question.item_diameters_mm)
    told = f"{VERDICTS[answer.outcome]}: {things} mm through {question.opening_text} mm."
    show_outcome(answer.outcome, told)
    port = port_of_question(question, catalog)
    numbers, picture = st.columns([2, 3])
    with numbers:
        _show_numbers(fit, answer)
    with picture:
        svg = draw_hole(_as_check(question, fit), port, names=_names(question), moving_name="thing 1")
        show_picture(svg, key="fit_hole", most_px=460)
        st.download_button("This picture (SVG)", svg, "hole.svg", "image/svg+xml")
    if answer.rigid is not None and question.bore_mm and question.rigid_length_mm:
        _show_motion(answer.rigid, port, question)


def _show_numbers(fit: HoleFit, answer: FitAnswer) -> None:
    st.metric("Clearance", millimetres(fit.clearance_mm), border=True)
    st.metric("In the worst case", millimetres(fit.worst_clearance_mm), border=True)
    st.markdown(f"Fit class (ISO 286-1): **{fit.fit_class.value if fit.fit_class else 'not proven'}**")
    if fit.band_mm is not None:
        low_mm, high_mm = fit.band_mm
        st.markdown(f"The clearance lies between {low_mm:.3f} and {high_mm:.3f} mm: measure.")
    if answer.rigid is not None:
        st.markdown(f"A stiff piece up to **{millimetres(answer.rigid.available_mm)}** long dips through.")


def _show_motion(check: Check, port: Port, question: FitQuestion) -> None:
    sizes = {
        "piece_length_mm": question.rigid_length_mm or 0.0,
        "piece_diameter_mm": question.item_diameters_mm[0],
        "corridor_mm": question.bore_mm or 0.0,
    }
    narrow = draw_motion(check, port, width_mm=92, **sizes)
    show_picture(draw_motion(check, port, **sizes), narrow_svg=narrow, key="fit_motion")


def _as_check(question: FitQuestion, fit: HoleFit) -> Check:
    return Check(
        rule="port_clearance",
        outcome=fit.outcome,
        state=State.DRAWING,
        with_ids=tuple(_names(question)),
        size_mm=question.item_diameters_mm[0],
        available_mm=fit.available_mm,
        clearance_mm=fit.clearance_mm,
        worst_clearance_mm=fit.worst_clearance_mm,
        fit_class=fit.fit_class,
        placement=fit.placement,
    )


def _names(question: FitQuestion) -> dict[str, str]:
    return {f"item-{n}": f"thing {n}" for n in range(2, len(question.item_diameters_mm) + 1)}
