"""Open a job from a file, go back to it as it was opened, or start with an empty form."""

from collections.abc import Callable

import streamlit as st

from catalog import Catalog, CatalogError
from planner import in_markdown as plain
from planner.parts import Job
from ui.page import session
from ui.page.forms.job_form import choices_of
from ui.page.uploads import Upload
from ui.page.views.problem_view import show_refusal
from ui.shared.job_fields import fields_of


def show_opener(catalog: Catalog) -> CatalogError | None:
    """A place to drop a job file, and the ways back.

    Returns why the file that lies there now was refused; None where none was.
    """
    refused = None
    first = session.take_job_to_start_with()
    if first is not None:
        refused = _open(lambda: session.job_of_file(first))
    opened = session.opened_fields()
    upload = st.file_uploader("Open a job file (YAML)", type=["yaml", "yml"], key=session.opening_key("upload"))
    if upload is not None:
        refused = _open(lambda: session.job_of_upload(Upload(name=upload.name, content=upload.getvalue())))
    jobs = {path.name.removesuffix(".job.yaml"): path for path in session.demo_jobs()}
    if jobs and session.is_demo():
        key = session.opening_key("demo")
        name = st.selectbox("Or an invented job", list(jobs), index=None, placeholder="Choose one", key=key)
        if name:
            refused = _open(lambda: session.job_of_file(jobs[name]))
    with st.container(horizontal=True):
        if opened and session.is_changed(choices_of(opened)):
            st.button("Back to the job as opened", icon=":material/undo:", on_click=_put_back)
        if opened or session.has_choices():
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


def show_first_steps(catalog: Catalog) -> None:
    """What to do where there is nothing to show yet."""
    if catalog.frames:
        st.info("Choose a frame, what comes off and what goes on; or open a job file.", icon=":material/arrow_upward:")
        return
    st.info("This catalog has no frames yet. Open a catalog file with one under Check files.", icon=":material/info:")
    if session.demo_frames():
        st.button("Try it with invented frames", type="primary", on_click=session.use_demo_frames)


def open_job(job: Job) -> None:
    """Take a job as the starting point of the form."""
    session.forget_job()
    fields = fields_of(job)
    session.remember_opened(fields, choices_of(fields))


def _open(read: Callable[[], Job]) -> CatalogError | None:
    try:
        job = read()
    except CatalogError as refusal:
        return refusal
    open_job(job)
    st.rerun()
    return None


def _put_back() -> None:
    fields = session.opened_fields()
    session.forget_job()
    session.remember_opened(fields, choices_of(fields))
