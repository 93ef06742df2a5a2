"""Cut the lines of several saved jobs, and own pieces, from as few rolls as possible."""

import streamlit as st

from catalog import CatalogError, jobs_taken_before, taken_before
from planner import in_markdown as plain
from planner.errors import PlannerError
from ui.page import kept
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.cuts_form import CUTS_FORM, ask_cuts
from ui.page.found_cuts import cuts_of
from ui.page.views.cuts_view import show_cut_files, show_cuts
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.shared.days import today_in

take_up(CUTS_FORM)
store, catalog = kept.store_or_stop(), catalog_or_stop()
with st.container(horizontal=True, vertical_alignment="center"):
    st.title("Cut lists", anchor=False)
    steps_back = st.container(horizontal=True, width="content")
asked = ask_cuts(store, catalog)
keep(CUTS_FORM)
with steps_back:
    show_steps_back(CUTS_FORM)
if asked is None:
    st.stop()
try:
    cuts = cuts_of(asked.jobs, asked.own, asked.stock, catalog, uses_supplied=asked.uses_supplied)
    before = taken_before(asked.stock, cuts)
    cut_already = {} if before else jobs_taken_before(asked.stock, cuts)
except (CatalogError, PlannerError) as refusal:
    show_refusal(refusal)
    st.stop()
if before is not None:
    taken_on, cuts = before
    st.warning(f"This list was cut on {taken_on}, and is told as it was cut; the stock stays as it is.")
elif cut_already:
    told = ", ".join(f"{job} on {day}" for job, day in cut_already.items())
    st.warning(plain(f"Already cut, and here once more: {told}."), icon=":material/content_cut:")
show_cuts(cuts, catalog)
today = today_in(catalog.workshop.limits.time_zone)
show_cut_files(cuts, asked.stock, catalog, taken_on=None if before else today)
