"""Jobs and quotes that are kept: a list with a search, one job (`?job=`), one quote (`?quote=`)."""

import streamlit as st

from catalog import CatalogError
from planner import in_markdown as plain
from ui.page import kept
from ui.page.views.job_list import JOBS_PAGE, show_drafts, show_job_list
from ui.page.views.kept_job import show_kept_job
from ui.page.views.kept_quote import show_kept_quote
from ui.page.views.problem_view import show_refusal

store = kept.store_or_stop()
job, quote = (st.query_params.get(name, "") for name in ("job", "quote"))
if job or quote:
    st.page_link(JOBS_PAGE, label="All jobs", icon=":material/arrow_back:")
    try:
        if quote:
            show_kept_quote(store, store.quotes.get(int(quote) if quote.isdecimal() else 0))
        else:
            show_kept_job(store, store.jobs.get(job))
    except CatalogError as refusal:
        show_refusal(refusal)
else:
    st.title("Jobs and quotes", anchor=False)
    show_job_list(store)
    show_drafts(store)
    st.caption(plain(f"Kept in {kept.place_words()}. In the terminal: --store with this place."))
