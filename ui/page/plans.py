"""Plans on the page: the same job is planned once for all windows."""

from collections.abc import Callable
from typing import Any

import streamlit as st

from catalog import Catalog
from planner import RoutingPlan, plan_job
from planner.parts import Job
from ui.page.made_once import made_once


def what_plans(catalog: Catalog) -> str:
    """What of a catalog a plan depends on beside its job."""
    return made_once(lambda: repr(catalog.workshop), "what plans", catalog.workshop)


JOB_BY_VALUE: dict[str | type, Callable[[Any], Any]] = {Job: repr, Catalog: what_plans}
"""Jobs and catalogs that say the same are the same to what is kept."""


@st.cache_resource(show_spinner="Planning", max_entries=64, hash_funcs=JOB_BY_VALUE)
def plan_of(job: Job, catalog: Catalog) -> RoutingPlan:
    """The plan of a job; the same job is planned once."""
    return plan_job(job=job, workshop=catalog.workshop)
