"""Open a job from a file, go back to it as it was opened, or start with an empty form."""

from collections.abc import Callable

import streamlit as st

from catalog import Catalog, CatalogError
from planner import in_markdown as plain
from planner.parts import Job, Visit
from ui.page import session, visit_session
from ui.page.forms.job_form import AskedJob, choices_of
from ui.page.uploads import Upload
from ui.page.views.nothing_yet import show_no_frames, show_no_lines
from ui.page.views.problem_view import show_refusal
from ui.shared.job_fields import fields_of
from ui.shared.visit_fields import fields_of_visit

ONE_LINE, SEVERAL_LINES = "screens/plan_a_job.py", "screens/several_lines.py"
"""The screens that answer a job of one line, and one of several."""

NO_JOB_IN_IT = (
    "This file holds no job. Catalog files are opened under Check files, with the jobs that belong to them, and read "
    "into the store under Catalog."
)


def show_opener(catalog: Catalog, *, here: str = ONE_LINE) -> CatalogError | None:
    """A place to drop a job file, and the ways back.

    here : the screen it stands on

    Returns why the file that lies there now was refused; None where none was.
    """
    refused = None
    first = session.take_job_to_start_with()
    if first is not None:
        refused = _open(lambda: session.job_of_file(first), here=here)
    opened = session.opened_fields()
    upload = st.file_uploader("Open a job file (YAML)", type=["yaml", "yml"], key=session.opening_key("upload"))
    if upload is not None:
        sent = Upload(name=upload.name, content=upload.getvalue())
        refused = _open(lambda: session.job_of_upload(sent), here=here)
        if refused is not None and b"job:" not in sent.content:
            st.info(NO_JOB_IN_IT, icon=":material/fact_check:")
    invented = (*session.demo_jobs(), *session.demo_visits())
    jobs = {path.name.removesuffix(".yaml").rpartition(".")[0]: path for path in invented}
    if jobs and session.is_demo():
        key = session.opening_key("demo")
        name = st.selectbox("Or an invented job", list(jobs), index=None, placeholder="Choose one", key=key)
        if name:
            refused = _open(lambda: session.job_of_file(jobs[name]), here=here)
    with st.container(horizontal=True):
        if here == ONE_LINE and opened and session.is_changed(choices_of(opened)):
            st.button("Back to the job as opened", icon=":material/undo:", on_click=_put_back)
        if here == ONE_LINE and (opened or session.has_choices()):
            st.button("Start again with an empty form", icon=":material/restart_alt:", on_click=session.forget_job)
    count = len(catalog.frames)
    st.caption(f"Catalog: {plain(session.catalog_name())}, {count} {'frame' if count == 1 else 'frames'}")
    return refused


def show_refused(refused: CatalogError, *, job_before: str) -> None:
    """Why a file was refused; no answer stands beside it, for it would be that of another job.

    job_before : title of the job that was open before; "" where none was
    """
    show_refusal(refused)
    if job_before:
        words = f"Back to {job_before}"
        st.button(plain(words), icon=":material/undo:", key="back_to_before", on_click=session.put_upload_away)


def show_first_steps(catalog: Catalog, *, asked: AskedJob | None = None) -> None:
    """What to do where there is nothing to show yet.

    asked : the job as far as it is chosen; None where none is
    """
    if not catalog.frames:
        show_no_frames()
    elif show_no_lines(catalog):
        return
    elif asked is None or not session.has_choices():
        st.info("Choose a frame, what comes off and what goes on; or open a job file.", icon=":material/arrow_upward:")
    elif asked.missing:
        st.info(f"Still to be chosen: {', '.join(asked.missing)}.", icon=":material/arrow_upward:")


def open_job(job: Job | Visit) -> str:
    """Take a job as the starting point of its form; returns the screen that answers it."""
    if isinstance(job, Visit):
        session.put_upload_away()
        session.forget_visit()
        visit_session.remember_visit(fields_of_visit(job), is_open=False)
        return SEVERAL_LINES
    session.forget_job()
    fields = fields_of(job)
    session.remember_opened(fields, choices_of(fields))
    return ONE_LINE


def _open(read: Callable[[], Job | Visit], *, here: str) -> CatalogError | None:
    """Open a job, and go to the screen that answers it where that is another one."""
    try:
        job = read()
    except CatalogError as refusal:
        return refusal
    screen = open_job(job)
    if screen == here:
        st.rerun()
    st.switch_page(screen)
    return None


def _put_back() -> None:
    fields = session.opened_fields()
    session.forget_job()
    session.remember_opened(fields, choices_of(fields))
