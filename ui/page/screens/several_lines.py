"""Several lines in one visit: put together here or opened from a file; the order that works, and why."""

import streamlit as st

from catalog import Catalog, CatalogError, visit_from_fields
from planner.errors import PlannerError
from planner.parts import Visit
from ui.page import visit_session
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.job_opener import SEVERAL_LINES, show_opener
from ui.page.forms.visit_form import ask_visit
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.page.views.visit_lines_view import show_lines
from ui.page.views.visit_price_view import show_visit_price
from ui.page.views.visit_steps_view import show_visit_steps
from ui.page.views.visit_view import (
    ask_first,
    show_shared_holes,
    show_visit_answer,
    show_visit_line,
    show_visit_picture,
)
from ui.page.visit_downloads import show_visit_card_button, show_visit_downloads
from ui.shared.planned_visit import PlannedVisit
from ui.shared.visit_fields import job_text_of_visit


def _ask(catalog: Catalog) -> None:
    st.title("Several lines in one visit", anchor=False)
    with st.expander("Open a job file", icon=":material/folder_open:", expanded=not visit_session.visit_fields()):
        if (refused := show_opener(catalog, here=SEVERAL_LINES)) is not None:
            show_refusal(refused)
    st.markdown("Or put the visit together here: the frame, then its lines, in any order.")
    ask_visit(catalog)


def _line(visit: Visit) -> None:
    with st.container(horizontal=True, vertical_alignment="center"):
        with st.container(width="stretch", key="job_line"):
            show_visit_line(visit)
        st.button("Change the lines", icon=":material/tune:", on_click=visit_session.open_form)
        st.button("Start again", icon=":material/restart_alt:", on_click=visit_session.forget_visit)
        show_steps_back(visit_session.VISIT_FORM)


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
answer, picture = st.columns([9, 11])
with answer:
    show_visit_answer(plan)
    show_visit_card_button(planned)
    ask_first(visit)
with picture:
    show_visit_picture(plan, visit)
steps, holes, lines, price, files = st.tabs(["Steps", "Shared holes", "Each line", "Price", "Files"])
with steps:
    show_visit_steps(plan)
with holes:
    show_shared_holes(plan)
with lines:
    show_lines(plan)
with price:
    show_visit_price(plan)
with files:
    show_visit_downloads(planned, job_text_of_visit(visit))
