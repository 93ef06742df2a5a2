"""Show the plan of one line of a visit, at its moment in the order."""

import streamlit as st

from planner import RoutingPlan, VisitPlan, in_markdown
from planner.parts import Job
from ui.page import session, visit_session
from ui.page.views.lengths_view import show_lengths
from ui.page.views.route_view import POSTURE, show_holes, show_picked_hole, show_route
from ui.page.views.tabs import show_tabs
from ui.page.views.verdict_view import show_open_questions, show_verdict

LINE_TABS = "line_tabs"

KEPT_OF_LINES = (visit_session.LINE_SHOWN_KEY, session.PICKED_PORT_KEY, LINE_TABS, POSTURE)
"""How keys of what is chosen here begin."""


def show_lines(plan: VisitPlan) -> None:
    """The plan of the line that is picked: verdict, side view with its holes, lengths."""
    planned = {line.line_id: line for line in plan.lines if line.plan is not None}
    if not planned:
        st.caption("No line has a plan of its own here: what forbids an order is told above.")
        return
    session.start_choice_among(visit_session.LINE_SHOWN_KEY, list(planned), next(iter(planned)))
    shown = st.segmented_control(
        "Line",
        list(planned),
        required=True,
        key=visit_session.LINE_SHOWN_KEY,
        format_func=in_markdown,
    )
    line = planned.get(shown or "") or next(iter(planned.values()))
    if line.plan is not None:
        _show_line(line.plan, line.job)


def _show_line(plan: RoutingPlan, job: Job | None) -> None:
    answer, picture = st.columns([9, 11])
    with answer:
        show_verdict(plan, has_next=False)
        show_open_questions(plan, has_next=False)
    if job is None:
        return
    with picture:
        show_route(plan, job)
    show_picked_hole(plan, job)
    bodies = {"Its holes": lambda: show_holes(plan, job), "Its lengths": lambda: show_lengths(plan)}
    show_tabs(bodies, key=LINE_TABS)
