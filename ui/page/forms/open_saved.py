"""Open a saved job, of one line or of several, in its form, with the store's catalog, which holds all that it names."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from catalog import CatalogError, StoredJob, job_from_fields, visit_from_fields
from ui.page import session
from ui.page.forms.job_opener import ONE_LINE, SEVERAL_LINES, open_job
from ui.page.views.problem_view import show_refusal
from ui.shared.planned_visit import is_visit


def show_open_button(job: StoredJob) -> None:
    """A button that opens the job in the form; why it cannot be opened, where it cannot."""
    if st.button("Plan it in the form", icon=":material/route:", key="open_saved"):
        saved = {"id": job.id, "version": job.version, "for_whom": job.for_whom}
        try:
            open_saved(job.content, saved=saved)
        except CatalogError as refusal:
            show_refusal(refusal)
            return
        st.switch_page(SEVERAL_LINES if is_visit(job.content) else ONE_LINE)


def open_saved(content: Mapping[str, Any], *, saved: Mapping[str, Any]) -> None:
    """Take a saved job as the starting point of the form.

    saved : id, version and owner, as they are in the store

    Raises CatalogError where it does not suit the catalog as it is now.
    """
    if not session.is_store_used():
        session.use_store_catalog()
    catalog = session.catalog_in_use()
    if is_visit(content):
        open_job(visit_from_fields(content, catalog))
        session.hold(session.VISIT_SAVED_AS, dict(saved))
    else:
        open_job(job_from_fields(content, catalog))
        session.hold(session.SAVED_AS, dict(saved))
