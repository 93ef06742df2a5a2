"""Cut lists that were found, kept for as long as the page is served."""

import streamlit as st

from catalog import Catalog, Stock
from planner import JobCuts, Piece, find_job_cuts, lines_to_cut
from planner.parts import Job, Visit
from ui.page.plans import what_plans


@st.cache_resource(
    show_spinner="Finding the cuts",
    max_entries=16,
    hash_funcs={Job: repr, Visit: repr, Catalog: what_plans, Stock: repr, Piece: repr},
)
def cuts_of(
    jobs: tuple[Job | Visit, ...], own: tuple[Piece, ...], stock: Stock, catalog: Catalog, *, uses_supplied: bool
) -> JobCuts:
    """The cut list of some jobs, of one line or of several, and of own pieces; the same is asked once."""
    workshop = catalog.workshop
    lines = [lines_to_cut(visit=job, workshop=workshop) if isinstance(job, Visit) else (job,) for job in jobs]
    return find_job_cuts(
        jobs=[line for one in lines for line in one],
        workshop=workshop,
        stock=stock.lengths,
        kerf_mm=stock.kerf_mm,
        keep_offcut_from_mm=stock.keep_offcut_from_mm,
        uses_supplied=uses_supplied,
        own=own,
    )
