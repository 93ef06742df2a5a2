"""Show what to buy for all open jobs, with the list to print and for a spreadsheet."""

from functools import partial

import streamlit as st

from catalog import Catalog, CatalogError, Store
from planner import LINE_HEADS, PART_HEADS, line_rows, part_rows, shopping_csv, shopping_pdf, shopping_remarks
from planner import in_markdown as plain
from planner.errors import PlannerError
from ui.page import session
from ui.page.downloads import offer, what_paper_lacks
from ui.page.draft_form import form_of_choices, own_draft
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.cuts_form import PREFIX as CUTS
from ui.page.forms.cuts_form import ask_stock, stock_told
from ui.page.views.job_list import PLAN_PAGE
from ui.page.views.markup import show_table
from ui.page.views.problem_view import show_refusal
from ui.shared.days import today_in
from ui.shared.shopping import job_names, shopping_list_of

PREFIX = "choice_place_shopping_"
SHOPPING_FORM = form_of_choices(
    "shopping", prefix=PREFIX, title="Shopping list", own=own_draft("shopping"), is_beside=True
)
"""What the shopping list of the shop is asked with: one for all windows, until it is changed."""


def show_shopping(store: Store, catalog: Catalog) -> None:
    """Need, shelf and what to buy, for which jobs."""
    take_up(SHOPPING_FORM)
    if not SHOPPING_FORM.shown():
        session.put_choices({f"{PREFIX}{key}": value for key, value in stock_told(CUTS).items()})
    steps_back = st.container(horizontal=True)
    only_agreed = st.checkbox("Only jobs whose quote is agreed, or that are on the bench", key=f"{PREFIX}agreed")
    words, is_told = "Rolls and offcuts to cut the lines from, as under Cut lists", bool(stock_told(PREFIX))
    with st.expander(words, expanded=is_told, icon=":material/straighten:"):
        stock = ask_stock(catalog, prefix=PREFIX)
    keep(SHOPPING_FORM)
    with steps_back:
        show_steps_back(SHOPPING_FORM)
    workshop = catalog.workshop
    try:
        found = shopping_list_of(store, workshop=workshop, only_agreed=only_agreed, stock=stock)
    except (CatalogError, PlannerError) as refusal:
        show_refusal(refusal)
        return
    names = job_names(store)
    if not found.parts and not found.lines:
        st.info(
            "Nothing to buy: no open job takes a small part. Save a job with its plan, and its parts stand here.",
            icon=":material/shopping_cart:",
        )
        st.page_link(PLAN_PAGE, label="Plan a job", icon=":material/route:")
    if found.parts:
        show_table(PART_HEADS, part_rows(found, job_names=names), figures=3, is_stacked=True)
    if found.lines:
        show_table(LINE_HEADS, line_rows(found, job_names=names), is_stacked=True)
    for remark in shopping_remarks(found, job_names=names):
        st.caption(plain(remark))
    if not found.parts and not found.lines:
        return
    columns = st.columns(2)
    with columns[0]:
        if missing := what_paper_lacks():
            st.info(f"Nothing to print: {plain(missing)}", icon=":material/print_disabled:")
        else:
            day, shop = today_in(workshop.limits.time_zone).isoformat(), workshop.limits.shop_name
            sheet = partial(shopping_pdf, found=found, job_names=names, shop_name=shop, date_text=day)
            offer("Shopping list (PDF)", "shopping.pdf", "application/pdf", sheet)
    with columns[1]:
        offer("Shopping list (CSV)", "shopping.csv", "text/csv", lambda: shopping_csv(found))
