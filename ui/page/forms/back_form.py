"""Go back to an earlier version of a job, after seeing what that changes."""

from collections.abc import Sequence

import streamlit as st

from catalog import CatalogError, Happening, Store, StoredJob, differences, sentences
from planner import in_markdown as plain
from planner.errors import PlannerError
from ui.page import session
from ui.page.forms.name_field import who
from ui.page.forms.save_form import keep_fields
from ui.page.views.problem_view import show_refusal


def show_back_form(store: Store, job: StoredJob, history: Sequence[Happening]) -> None:
    """Which version, what it says else, and the button; the job is planned again with the catalog as it is now."""
    earlier = [one.version for one in reversed(history) if one.version != job.version]
    if not earlier:
        return
    key = f"choice_place_back|{job.id}|{job.version}"
    session.start_choice(key, None)
    version = st.selectbox("Look at version", earlier, placeholder="Choose one", key=key)
    if version is None:
        return
    content = store.jobs.content_at(job.id, version)
    changes = sentences(differences(job.content, content))
    if not changes:
        st.caption("It asks the same as now.")
        return
    st.markdown("\n".join(f"- {plain(change)}" for change in changes))
    if st.button(f"Go back to version {version}", icon=":material/history:"):
        try:
            keep_fields(content, over=job.version, by=who(), for_whom=None, note=f"back to version {version}")
        except (CatalogError, PlannerError) as refusal:
            show_refusal(refusal)
            return
        st.rerun()
