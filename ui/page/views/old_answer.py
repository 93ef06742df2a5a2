"""Show the answer of before in grey while a field is not right: it is no answer to what is typed now."""

from typing import Any

import streamlit as st

from catalog import Catalog, CatalogError, job_from_fields
from planner import verdict_sentence
from planner.errors import PlannerError
from planner.parts import Frame
from ui.page import session
from ui.page.views.markup import safe, show_markup
from ui.page.views.route_view import show_frame, show_still_route


def remember_sound(fields: dict[str, Any]) -> None:
    """Hold on to what was answered last."""
    session.hold(session.SOUND, fields)


def show_old_answer(frame: Frame, catalog: Catalog) -> None:
    """The answer to what was right last, grey and named so; the frame alone where nothing was answered yet."""
    fields = session.held(session.SOUND)
    try:
        job = job_from_fields(fields, catalog) if fields else None
        plan = None if job is None else session.plan_of(job, catalog)
    except (CatalogError, PlannerError):
        job = plan = None
    if job is None or plan is None or job.frame.id != frame.id:
        show_frame(frame)
        return
    with st.container(key="old_answer"):
        told = "The answer of before this change, until the field is right:"
        sentence = verdict_sentence(plan)
        show_markup(f'<section class="lp-was"><p>{safe(told)}</p><p>{safe(sentence)}</p></section>')
        show_still_route(plan, job)
