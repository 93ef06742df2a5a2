"""Several lines in one visit: put together here or opened from a file; the order that works, and why."""

import streamlit as st

from catalog import Catalog, CatalogError, visit_from_fields
from planner.errors import PlannerError
from planner.parts import Visit
from ui.page import session, visit_session
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.job_opener import SEVERAL_LINES, show_opener
from ui.page.forms.save_form import show_save_button, show_saved
from ui.page.forms.visit_form import ask_visit
from ui.page.views.nothing_yet import show_no_frames
from ui.page.views.planned_visit_view import show_planned_visit
from ui.page.views.problem_view import catalog_or_stop, show_refusal
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


def _line(visit: Visit) -> None:
    with st.container(horizontal=True, vertical_alignment="center"):
        with st.container(width="stretch", key="job_line"):
            show_visit_line(visit)
        st.button("Change the lines", icon=":material/tune:", on_click=visit_session.open_form)
        st.button("Start again", icon=":material/restart_alt:", on_click=visit_session.forget_visit)
        show_save_button(visit_session.visit_fields(), saved_as=session.VISIT_SAVED_AS)
        show_steps_back(visit_session.VISIT_FORM)
    show_saved()


take_up(visit_session.VISIT_FORM)
catalog = catalog_or_stop()
if visit_session.is_form_open():
    _ask(catalog)
    st.stop()
try:
    visit = visit_from_fields(visit_session.visit_fields(), catalog)
    plan = visit_session.plan_of_visit(visit, catalog)
except (CatalogError, PlannerError) as refusal:
    show_refusal(refusal)
    st.button("Change the lines", icon=":material/tune:", on_click=visit_session.open_form)
    st.stop()
keep(visit_session.VISIT_FORM)
planned = PlannedVisit(visit=visit, plan=plan, workshop=catalog.workshop, remarks=())

_line(visit)
show_planned_visit(planned, beside=lambda: ask_first(visit))
