"""Show the answer to the quick question: verdict, figures, the hole, and the dip of a stiff piece."""

import streamlit as st

from planner import draw_hole, draw_motion, fit_class_words, millimetres
from planner.verdicts import Check
from ui.page.views.port_picker import show_picture
from ui.page.views.verdict_view import show_outcome
from ui.shared.fit_question import FitAnswer, FitQuestion, doubt_sentence, quick_sentence, things_of_question


def show_answer(question: FitQuestion, answer: FitAnswer) -> None:
    """Verdict first, then the numbers, then the pictures."""
    fit = answer.side_by_side
    show_outcome(answer.outcome, f"{quick_sentence(question, answer)}.")
    numbers, picture = st.columns([2, 3])
    with numbers:
        _show_numbers(fit, answer)
    with picture:
        hole = draw_hole(fit, label=question.opening_text, names=_names(question), is_on_paper=False)
        show_picture(hole, key="fit_hole", most_px=460)
        on_paper = draw_hole(fit, label=question.opening_text, names=_names(question))
        st.download_button("This picture to print (SVG)", on_paper.svg, "hole.svg", "image/svg+xml")
    if answer.rigid is not None:
        wide, narrow = (draw_motion(answer.rigid, width_mm=mm, is_on_paper=False) for mm in (180, 92))
        show_picture(wide, narrow=narrow, key="fit_motion")


def _show_numbers(fit: Check, answer: FitAnswer) -> None:
    st.metric("Clearance", millimetres(fit.clearance_mm), border=True)
    st.metric("In the worst case", millimetres(fit.worst_clearance_mm), border=True)
    st.markdown(f"Fit class (ISO 286-1): **{fit_class_words(fit.fit_class)}**")
    if fit.band_mm is not None:
        low_mm, high_mm = fit.band_mm
        st.markdown(f"The clearance lies between {low_mm:.3f} and {high_mm:.3f} mm: measure.")
    if doubt := doubt_sentence(fit):
        st.markdown(f"{doubt[:1].upper()}{doubt[1:]}.")
    if answer.rigid is not None:
        st.markdown(f"A stiff piece up to **{millimetres(answer.rigid.available_mm)}** long dips through.")


def _names(question: FitQuestion) -> dict[str, str]:
    return {thing.id: f"thing {n}" for n, thing in enumerate(things_of_question(question), start=1)}
