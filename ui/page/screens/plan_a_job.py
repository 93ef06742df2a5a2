"""Pick a frame, what comes off and what goes on, or open a job file; see the whole plan at once."""

from typing import Any

import streamlit as st

from catalog import Catalog, CatalogError, job_from_fields
from planner import ALL_WAYS, first_figures_asked
from planner.errors import PlannerError
from planner.verdicts import Outcome
from ui.page import folding, session
from ui.page.downloads import show_card_button, show_downloads
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.job_form import AskedJob, ask_job
from ui.page.forms.job_opener import show_first_steps, show_opener, show_refused
from ui.page.forms.measured_form import ask_readings, figures_typed, job_with_readings, reading_problems
from ui.page.forms.save_form import close_once_saved, show_save_button, show_saved
from ui.page.forms.write_reading_form import show_readings_told
from ui.page.job_draft import JOB_FORM
from ui.page.plans import plan_of
from ui.page.views.job_line import show_job_line
from ui.page.views.lengths_view import show_lengths
from ui.page.views.old_answer import figures_of_before, remember_sound, show_old_answer, show_waiting_readings
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.page.views.route_view import show_holes, show_picked_hole, show_route
from ui.page.views.steps_view import show_steps
from ui.page.views.stop_view import show_stop
from ui.page.views.tabs import show_tabs
from ui.page.views.verdict_view import show_open_questions, show_outcome, show_verdict
from ui.page.views.ways_view import WAY_KEY, show_ways


def _ask(catalog: Catalog) -> tuple[AskedJob, Any]:
    """The form, open until a job stands on it; from then on behind a button, with the job in one line.

    Returns what was asked, and the place of the button that saves it.
    """
    is_just_opened = session.take_just_opened() and not folding.is_form_folded()
    if is_just_opened:
        folding.fold_form(AskedJob(), is_drawn_once_more=True)  # its answer comes at once, and not after the form
    if not folding.is_form_folded():
        with st.container(horizontal=True, vertical_alignment="center"):
            st.title("Plan a job", anchor=False)
            steps_back = st.container(horizontal=True, width="content")
        if (refused := show_opener(catalog)) is not None:
            show_refused(refused, job_before="")
        if not catalog.frames:
            return AskedJob(), st
        with st.container(border=True):
            asked = ask_job(catalog)
        keep(JOB_FORM)
        with steps_back:
            show_steps_back(JOB_FORM)
        return asked, st
    with st.container(horizontal=True, vertical_alignment="center"):
        line = st.container(width="stretch", key="job_line")
        change = st.popover("Change the job", icon=":material/tune:", key=session.CHANGE_KEY, on_change="rerun")
        with st.popover("Open another", icon=":material/folder_open:"):
            refused = show_opener(catalog)
        save = st.container(width="content")
        steps_back = st.container(horizontal=True, width="content")
    if refused is not None:
        before = folding.asked_when_folded().fields
        show_refused(refused, job_before=before["title"] if before else "the job before")
        st.stop()
    if folding.is_form_drawn(is_open=bool(change.open)):
        with change:
            asked = ask_job(catalog)
        if is_just_opened and asked.fields is None:
            folding.unfold_form()
            st.rerun()
        folding.fold_form(asked)
    else:
        asked = folding.asked_when_folded()
    with line:
        show_job_line(asked.fields, catalog)
    keep(JOB_FORM)
    with steps_back:
        show_steps_back(JOB_FORM)
    close_once_saved()
    show_saved()
    return asked, save


take_up(JOB_FORM)
catalog = catalog_or_stop()
asked, save = _ask(catalog)
if asked.fields is None:
    show_first_steps(catalog, asked=asked)
    st.stop()
if not folding.is_form_folded():
    session.put_upload_away()  # one that was refused is no business of the job that was chosen instead
    folding.fold_form(asked)
    st.rerun()
if asked.frame is not None and asked.untold:
    show_outcome(Outcome.UNKNOWN, f"Not proven: {', and '.join(asked.untold)}.")
    show_waiting_readings(asked.frame, catalog)
    show_old_answer(asked.frame, catalog)
    st.stop()
try:
    told = job_from_fields(asked.fields, catalog)
    typed = figures_typed(told)
    if unread := reading_problems(told, typed):
        show_outcome(Outcome.UNKNOWN, f"Not proven: {', and '.join(unread)}.")
        ask_readings(told, typed, figures_of_before(told.frame, catalog))
        show_old_answer(told.frame, catalog)
        st.stop()
    job = job_with_readings(told, typed)
    plan = plan_of(job, catalog)
except (CatalogError, PlannerError) as refusal:
    show_refusal(refusal)
    st.stop()

if not typed:
    with save:
        show_save_button(asked.fields)
remember_sound(asked.fields, job)
answer, picture = st.columns([9, 11])
with answer:
    show_verdict(plan)
    ask_readings(told, typed, first_figures_asked(plan, job))
    show_readings_told(told, typed, catalog, asked.fields)
    show_stop(plan, job, catalog)
    show_card_button(plan, job)
with picture:
    show_route(plan, job)
show_open_questions(plan)
show_picked_hole(plan, job)
show_tabs(
    {
        "Steps": lambda: show_steps(plan),
        "Holes": lambda: show_holes(plan, job),
        "Lengths": lambda: show_lengths(plan),
        ALL_WAYS: lambda: show_ways(plan, job, catalog),
        "Files": lambda: show_downloads(plan, job, catalog),
    },
    key="plan_tabs",
    first="Steps" if plan.steps else ALL_WAYS,
    keeps=(session.PICKED_PORT_KEY, WAY_KEY),
)
