"""Show the answer of before in grey while a field is not right: it is no answer to what is typed now."""

from typing import Any

import streamlit as st

from catalog import Catalog
from planner import first_figures_asked, verdict_sentence, visit_verdict
from planner.parts import Figure, Frame, Job, Visit
from ui.page import session, visit_session
from ui.page.forms.measured_form import ask_readings, figures_typed
from ui.page.plans import plan_of
from ui.page.views.markup import safe, show_markup
from ui.page.views.route_view import show_frame, show_still_route
from ui.page.views.visit_view import show_visit_picture


def remember_sound(fields: dict[str, Any], job: Job) -> None:
    """Hold on to what was answered last, its holes as they were measured then."""
    session.hold(session.SOUND, {"fields": fields, "job": job})


def _sound_job(frame: Frame) -> Job | None:
    """The job that was answered last on this frame; None where none was."""
    held = session.held(session.SOUND)
    job: Job | None = held["job"] if held else None
    return job if job is not None and job.frame.id == frame.id else None


def figures_of_before(frame: Frame, catalog: Catalog) -> tuple[Figure, ...]:
    """What the answer of before asks to be measured first."""
    job = _sound_job(frame)
    return () if job is None else first_figures_asked(plan_of(job, catalog), job)


def show_waiting_readings(frame: Frame, catalog: Catalog) -> None:
    """The fields of what is measured, as they stood beside the answer of before: they wait for the form."""
    job = _sound_job(frame)
    if job is not None:
        ask_readings(job, figures_typed(job), figures_of_before(frame, catalog), is_waiting=True)


def show_old_answer(frame: Frame, catalog: Catalog) -> None:
    """The answer to what was right last, grey and named so; the frame alone where nothing was answered yet."""
    job = _sound_job(frame)
    if job is None:
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
