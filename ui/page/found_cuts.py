"""Cut lists that were found, kept for as long as the page is served."""

import streamlit as st

from catalog import Catalog, Stock
from planner import JobCuts, Piece, find_job_cuts
from planner.parts import Job
from ui.page.plans import what_plans


@st.cache_resource(
    show_spinner="Finding the cuts",
    max_entries=16,
    hash_funcs={Job: repr, Catalog: what_plans, Stock: repr, Piece: repr},
)
def cuts_of(
    jobs: tuple[Job, ...], own: tuple[Piece, ...], stock: Stock, catalog: Catalog, *, uses_supplied: bool
) -> JobCuts:
    """The cut list of some jobs and own pieces; the same is asked once."""
    return find_job_cuts(
        jobs=jobs,
        workshop=catalog.workshop,
        stock=stock.lengths,
        kerf_mm=stock.kerf_mm,
        keep_offcut_from_mm=stock.keep_offcut_from_mm,
        uses_supplied=uses_supplied,
        own=own,
    )
