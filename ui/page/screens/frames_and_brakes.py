"""Many frames against many brakes: chosen, decided, kept; one kept table (`?table=`) with its pairs."""

import streamlit as st

from catalog import CatalogError
from ui.page import kept
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.job_opener import show_first_steps
from ui.page.forms.table_form import TABLE_FORM, TABLES_PAGE, ask_table, show_decide_button
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.page.views.table_list import show_table_list
from ui.page.views.table_runs_view import show_runs
from ui.page.views.table_view import show_kept_table
from ui.table.kept import read_table

store, wanted = kept.store_or_stop(), st.query_params.get("table", "")
if wanted:
    st.page_link(TABLES_PAGE, label="All tables", icon=":material/arrow_back:")
    try:
        show_kept_table(store, read_table(store, int(wanted) if wanted.isdecimal() else 0))
    except CatalogError as refusal:
        show_refusal(refusal)
    st.stop()
take_up(TABLE_FORM)
catalog = catalog_or_stop()
with st.container(horizontal=True, vertical_alignment="center"):
    st.title("Frames and brakes", anchor=False)
    steps_back = st.container(horizontal=True, width="content")
st.markdown("Which brake goes on which frame, what it takes, and what stops it: every frame against every brake.")
if not catalog.frames:
    show_first_steps(catalog)
else:
    asked = ask_table(store, catalog)
    keep(TABLE_FORM)
    with steps_back:
        show_steps_back(TABLE_FORM)
    if asked is not None:
        show_decide_button(store, asked)
show_runs()
show_table_list(store)
