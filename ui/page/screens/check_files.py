"""Check catalog and job files sent to the page: every problem at once, and a catalog without any can be used."""

import streamlit as st

from catalog import CatalogError
from planner import in_markdown as plain
from ui.page import session
from ui.page.views.problem_view import show_problems, show_refusal

st.title("Check files")
st.markdown(
    "Catalog files and job files together: jobs are held against the catalog files beside them, which are laid over the"
    " starter catalog."
)
files = st.file_uploader("Catalog and job files (YAML)", type=["yaml", "yml"], accept_multiple_files=True)
is_beside_first = st.checkbox("Beside the catalog the page was started with", value=False)
uploads = {file.name: file.getvalue() for file in files}
if not uploads:
    st.info("Drop one or more files above; every problem in them is told at once.", icon=":material/arrow_upward:")
else:
    try:
        problems = session.problems_of_uploads(uploads, is_beside_first=is_beside_first)
    except CatalogError as refusal:
        show_refusal(refusal)
        st.stop()
    if problems:
        show_problems(problems)
    else:
        st.success("Nothing is wrong with these files.", icon=":material/check_circle:")
        if st.button("Plan with these files", type="primary"):
            try:
                session.use_uploads(uploads, is_beside_first=is_beside_first)
            except CatalogError as refusal:
                show_refusal(refusal)
            else:
                st.success(f"In use now: {plain(session.catalog_name())}. Go to Plan a job.")
if session.has_own_catalog():
    st.caption(f"In use: {plain(session.catalog_name())}")
    st.button("Back to the catalog the page was started with", on_click=session.back_to_first_catalog)
