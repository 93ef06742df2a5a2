"""Show the answer of before in grey while a field is not right: it is no answer to what is typed now."""

from typing import Any

import streamlit as st

from catalog import Catalog
from planner import verdict_sentence
from planner.parts import Frame, Job
from ui.page import session
from ui.page.plans import plan_of
from ui.page.views.markup import safe, show_markup
from ui.page.views.route_view import show_frame, show_still_route


def remember_sound(fields: dict[str, Any], job: Job) -> None:
    """Hold on to what was answered last, its holes as they were measured then."""
    session.hold(session.SOUND, {"fields": fields, "job": job})


def show_old_answer(frame: Frame, catalog: Catalog) -> None:
    """The answer to what was right last, grey and named so; the frame alone where nothing was answered yet."""
    held = session.held(session.SOUND)
    job: Job | None = held["job"] if held else None
    if job is None or job.frame.id != frame.id:
        show_frame(frame)
        return
    plan = plan_of(job, catalog)
    with st.container(key="old_answer"):
        told = "The answer of before this change, until the field is right:"
        sentence = verdict_sentence(plan)
        show_markup(f'<section class="lp-was"><p>{safe(told)}</p><p>{safe(sentence)}</p></section>')
        show_still_route(plan, job)
