"""Show a visit with its plan, as it was just found or as it is kept: answer beside picture, the rest behind tabs."""

from collections.abc import Callable

import streamlit as st

from ui.page.views.tabs import show_tabs
from ui.page.views.visit_lines_view import KEPT_OF_LINES, show_lines
from ui.page.views.visit_price_view import show_visit_price
from ui.page.views.visit_steps_view import show_visit_steps
from ui.page.views.visit_view import show_shared_holes, show_visit_answer, show_visit_picture
from ui.page.visit_downloads import show_visit_card_button, show_visit_downloads
from ui.shared.planned_visit import PlannedVisit
from ui.shared.visit_fields import job_text_of_visit


def show_planned_visit(planned: PlannedVisit, *, beside: Callable[[], None] | None = None) -> None:
    """Everything there is to see and to print of it.

    beside : what is asked under the answer; None for nothing
    """
    visit, plan = planned.visit, planned.plan
    answer, picture = st.columns([9, 11])
    with answer:
        show_visit_answer(plan)
        if beside is not None:
            beside()
        show_visit_card_button(planned)
    with picture:
        show_visit_picture(plan, visit)
    show_tabs(
        {
            "Steps": lambda: show_visit_steps(plan),
            "Shared holes": lambda: show_shared_holes(plan),
            "Each line": lambda: show_lines(plan),
            "Price": lambda: show_visit_price(plan),
            "Files": lambda: show_visit_downloads(planned, job_text_of_visit(visit)),
        },
        key="visit_tabs",
        keeps=KEPT_OF_LINES,
    )
