"""Several lines in one visit: put together here or opened from a file; the order that works, and why."""

import streamlit as st

from catalog import Catalog, CatalogError, visit_from_fields
from planner import VisitPlan, first_figures_of_visit
from planner.errors import PlannerError
from planner.parts import Visit
from planner.verdicts import Outcome
from ui.page import session, visit_session
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.job_opener import SEVERAL_LINES, show_opener
from ui.page.forms.measured_form import Typed, ask_readings, figures_typed, reading_problems, visit_with_readings
from ui.page.forms.save_form import show_save_button, show_saved
from ui.page.forms.visit_form import ask_visit
from ui.page.forms.write_reading_form import show_readings_told
from ui.page.views.nothing_yet import show_no_frames
from ui.page.views.old_answer import show_old_visit_answer
from ui.page.views.planned_visit_view import show_planned_visit
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.page.views.verdict_view import show_outcome
from ui.page.views.visit_view import ask_first, show_visit_line
from ui.shared.planned_visit import PlannedVisit


def _ask(catalog: Catalog) -> None:
    with st.container(horizontal=True, vertical_alignment="center"):
        st.title("Several lines in one visit", anchor=False)
        steps_back = st.container(horizontal=True, width="content")
    with st.expander("Open a job file", icon=":material/folder_open:", expanded=not visit_session.visit_fields()):
        if (refused := show_opener(catalog, here=SEVERAL_LINES)) is not None:
            show_refusal(refused)
    if not catalog.frames:
        show_no_frames()
        return
    st.markdown("Or put the visit together here: the frame, then its lines, in any order.")
    ask_visit(catalog)
    with steps_back:
        show_steps_back(visit_session.VISIT_FORM)


def _line(visit: Visit, *, can_save: bool) -> None:
    with st.container(horizontal=True, vertical_alignment="center"):
        with st.container(width="stretch", key="job_line"):
            show_visit_line(visit)
        st.button("Change the lines", icon=":material/tune:", on_click=visit_session.open_form)
        st.button("Start again", icon=":material/restart_alt:", on_click=visit_session.forget_visit)
        if can_save:
            show_save_button(visit_session.visit_fields(), saved_as=session.VISIT_SAVED_AS)
        show_steps_back(visit_session.VISIT_FORM)
    show_saved()


def _ask_beside(told: Visit, typed: Typed, plan: VisitPlan, catalog: Catalog) -> None:
    ask_readings(told, typed, first_figures_of_visit(plan, told))
    show_readings_told(told, typed, catalog, visit_session.visit_fields())
    ask_first(told)


take_up(visit_session.VISIT_FORM)
catalog = catalog_or_stop()
if visit_session.is_form_open():
    _ask(catalog)
    st.stop()
try:
    told = visit_from_fields(visit_session.visit_fields(), catalog)
    typed = figures_typed(told)
    unread = reading_problems(told, typed)
    visit = visit_with_readings(told, {} if unread else typed)
    plan = visit_session.plan_of_visit(visit, catalog)
except (CatalogError, PlannerError) as refusal:
    show_refusal(refusal)
    st.button("Change the lines", icon=":material/tune:", on_click=visit_session.open_form)
    st.stop()
keep(visit_session.VISIT_FORM)
_line(told, can_save=not typed)
if unread:
    show_outcome(Outcome.UNKNOWN, f"Not proven: {', and '.join(unread)}.")
    ask_readings(told, typed, first_figures_of_visit(plan, told))
    show_old_visit_answer(told, catalog)
    st.stop()
session.hold(session.SOUND_VISIT, visit)
planned = PlannedVisit(visit=visit, plan=plan, workshop=catalog.workshop, remarks=())
show_planned_visit(planned, beside=lambda: _ask_beside(told, typed, plan, catalog))
