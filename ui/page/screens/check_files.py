"""Check catalog and job files sent to the page: every problem at once, and files without any can be planned with."""

import streamlit as st

from catalog import CatalogError
from planner import in_markdown as plain
from ui.page import session
from ui.page.checked_uploads import problems_of_uploads, questions_of_uploads
from ui.page.forms.job_opener import ONE_LINE, open_job
from ui.page.sent_files import tell_sent_again
from ui.page.uploads import Upload, names_told_apart
from ui.page.views.problem_view import show_problems, show_questions, show_refusal


def _plan_with(uploads: list[Upload], job: Upload | None, *, is_beside_first: bool) -> None:
    screen = ONE_LINE
    try:
        session.use_uploads(uploads, is_beside_first=is_beside_first)
        if job is not None:
            screen = open_job(session.job_of_upload(job))
    except CatalogError as refusal:
        show_refusal(refusal)
        return
    st.switch_page(screen)


def _job_to_open(uploads: list[Upload]) -> Upload | None:
    """The job among the files that is to be planned; asked where there are several."""
    called = zip(names_told_apart(uploads), uploads, strict=True)
    jobs = {name: upload for name, upload in called if upload.is_job}
    if len(jobs) < 2:
        return next(iter(jobs.values()), None)
    return jobs[st.selectbox("Job to plan", list(jobs))]


st.title("Check files")
st.markdown(
    "Catalog files and job files together: jobs are held against the catalog files beside them, which are laid over the"
    " starter catalog; without any, against the catalog in use."
)
files = st.file_uploader("Catalog and job files (YAML)", type=["yaml", "yml"], accept_multiple_files=True)
is_beside_first = st.checkbox("Beside the catalog the page was started with", value=False)
uploads = [Upload(name=file.name, content=file.getvalue()) for file in files]
tell_sent_again("files", is_sent=bool(uploads))
if not uploads:
    st.info("Drop one or more files above; every problem in them is told at once.", icon=":material/arrow_upward:")
else:
    try:
        problems = problems_of_uploads(uploads, is_beside_first=is_beside_first)
    except CatalogError as refusal:
        show_refusal(refusal)
        st.stop()
    if problems:
        show_problems(problems)
    else:
        st.success("Nothing is wrong with these files.", icon=":material/check_circle:")
        show_questions(questions_of_uploads(uploads))
        job = _job_to_open(uploads)
        if st.button("Plan with these files", type="primary"):
            _plan_with(uploads, job, is_beside_first=is_beside_first)
if session.has_own_catalog():
    st.caption(f"In use: {plain(session.catalog_name())}")
    st.button("Back to the catalog the page was started with", on_click=session.back_to_first_catalog)
