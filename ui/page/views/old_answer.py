"""Show the answer of before in grey while a field is not right: it is no answer to what is typed now."""

from typing import Any

import streamlit as st

from catalog import Catalog
from planner import verdict_sentence, visit_verdict
from planner.parts import Frame, Job, Visit
from ui.page import session, visit_session
from ui.page.plans import plan_of
from ui.page.views.markup import safe, show_markup
from ui.page.views.route_view import show_frame, show_still_route
from ui.page.views.visit_view import show_visit_picture


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
        _show_sentence(verdict_sentence(plan))
        show_still_route(plan, job)


def show_old_visit_answer(visit: Visit, catalog: Catalog) -> None:
    """The same for a visit.

    visit : as it is told now
    """
    before: Visit | None = session.held(session.SOUND_VISIT)
    if before is None or before.frame.id != visit.frame.id:
        show_frame(visit.frame)
        return
    plan = visit_session.plan_of_visit(before, catalog)
    with st.container(key="old_answer"):
        _show_sentence(visit_verdict(plan))
        show_visit_picture(plan, before)


def _show_sentence(sentence: str) -> None:
    told = "The answer of before this change, until the field is right:"
    show_markup(f'<section class="lp-was"><p>{safe(told)}</p><p>{safe(sentence)}</p></section>')
