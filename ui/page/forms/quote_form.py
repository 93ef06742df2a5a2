"""Ask what a quote is to say, and keep it as a draft with its number."""

import os
from collections.abc import Sequence

import streamlit as st

from catalog import CatalogError, Store, StoredJob, StoredQuote
from planner.errors import PlannerError
from ui.page import kept
from ui.page.forms.name_field import ask_who
from ui.page.forms.save_form import keep_saved_again
from ui.page.views.problem_view import show_refusal
from ui.shared.days import today_in
from ui.shared.planned_visit import Planned
from ui.shared.quote_paper import keep_paper, quote_paper

PAGE_SIZES = {"A4": "a4", "Letter": "letter"}


def show_quote_form(store: Store, job: StoredJob, quotes: Sequence[StoredQuote]) -> None:
    """A folded form with the button that keeps the quote."""
    with st.expander("Make a quote"):
        owner_brings = st.checkbox("The owner brings the new brake or line", key="quote_owner_brings")
        numbers = [quote.id for quote in quotes if quote.replaced_by_id is None]
        replaces = st.selectbox(
            "Stands in for", numbers, index=None, placeholder="no other quote", key="quote_replaces",
            format_func=lambda number: f"quote {number}",
        )  # fmt: skip
        size = st.selectbox("Paper", list(PAGE_SIZES), key="quote_paper")
        named = os.environ.get("LINEPLAN_SHOP", "")
        shop = st.text_input("Workshop, to print (empty: the shop's own name)", named, key="quote_shop", max_chars=200)
        by = ask_who(key="quote_by")
        if not st.button("Make the quote", type="primary", disabled=not by):
            return
        try:
            planned = kept.planned(store, job.id)
            if planned.plan_id is None:
                keep_saved_again(store, job.id, by=by)
                planned = kept.planned(store, job.id)
            number = _keep(
                store, planned, replaces=replaces, by=by, shop=shop, size=PAGE_SIZES[size], charges=not owner_brings
            )
        except (CatalogError, PlannerError) as refusal:
            show_refusal(refusal)
            return
        if not number:
            st.warning("Nothing to quote: there is no plan to work from.", icon=":material/block:")
            return
        st.query_params.from_dict({"quote": number})
        st.rerun()


def _keep(store: Store, planned: Planned, *, replaces: int | None, by: str, shop: str, size: str, charges: bool) -> str:
    """The number of the quote that was kept; "" where there is nothing to quote."""
    paper = quote_paper(
        planned,
        for_whom=planned.for_whom,
        shop_name=shop.strip(),
        day=today_in(planned.workshop.limits.time_zone),
        page_size=size,
        charges_new_line=charges,
    )
    return "" if paper is None else keep_paper(store, paper, planned, replaces_id=replaces, by=by, note="").number
