"""The steps of a saved job one by one, at the bench (`?job=`)."""

import streamlit as st

from catalog import CatalogError
from planner.errors import PlannerError
from ui.page import kept
from ui.page.forms.name_field import who
from ui.page.forms.save_form import keep_saved_again
from ui.page.views.bench_view import show_bench
from ui.page.views.job_list import JOBS_PAGE
from ui.page.views.problem_view import show_refusal

store = kept.store_or_stop()
name = st.query_params.get("job", "")
if not name:
    st.info(
        "Choose a job first; where none is kept yet, plan one and press Save. Its page leads to the bench.",
        icon=":material/info:",
    )
    st.page_link(JOBS_PAGE, label="Jobs and quotes", icon=":material/work_history:")
    st.stop()
try:
    planned = kept.planned(store, name)
    if planned.plan_id is None:
        keep_saved_again(store, name, by=who())
        planned = kept.planned(store, name)
except (CatalogError, PlannerError) as refusal:
    show_refusal(refusal)
    st.stop()
if planned.plan_id is not None:
    show_bench(store, planned, planned.plan_id)
st.page_link(JOBS_PAGE, label="Its job", icon=":material/arrow_back:", query_params={"job": name})
