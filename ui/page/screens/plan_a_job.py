"""Pick a frame, what comes off and what goes on, or open a job file; see the whole plan at once."""

import streamlit as st

from catalog import CatalogError, job_from_fields
from planner.errors import PlannerError
from planner.verdicts import Outcome
from ui.page import session
from ui.page.downloads import show_downloads
from ui.page.forms.job_form import AskedJob, ask_job
from ui.page.forms.job_opener import show_first_steps, show_opener
from ui.page.views.lengths_view import show_lengths
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.page.views.route_view import show_frame, show_route, show_ruled_out
from ui.page.views.steps_view import show_steps
from ui.page.views.verdict_view import show_outcome, show_verdict

st.title("Plan a job")
catalog = catalog_or_stop()
show_opener(catalog)
with st.container(border=True):
    asked = ask_job(catalog) if catalog.frames else AskedJob()
if asked.fields is None:
    show_first_steps(catalog)
    st.stop()
if asked.untold and asked.frame is not None:
    show_outcome(Outcome.UNKNOWN, f"Not proven: {', and '.join(asked.untold)}.")
    show_frame(asked.frame)
    st.stop()
try:
    job = job_from_fields(asked.fields, catalog)
    plan = session.plan_of(job, catalog)
except (CatalogError, PlannerError) as refusal:
    show_refusal(refusal)
    st.stop()

show_verdict(plan)
show_route(plan, job)
steps, lengths, ruled_out, files = st.tabs(["Steps", "Lengths", "Ruled out", "Files"])
with steps:
    show_steps(plan)
with lengths:
    show_lengths(plan)
with ruled_out:
    show_ruled_out(plan)
with files:
    show_downloads(plan, job)
