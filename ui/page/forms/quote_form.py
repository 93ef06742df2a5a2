"""Ask what a quote is to say, and keep it as a draft with its number."""

import os
from collections.abc import Sequence

import streamlit as st

from catalog import CatalogError, Store, StoredJob, StoredQuote
from planner.errors import PlannerError
from ui.page import kept, session
from ui.page.forms.name_field import ask_who
from ui.page.forms.save_form import keep_saved_again
from ui.page.views.problem_view import show_refusal
from ui.shared.days import today_in
from ui.shared.planned_visit import Planned
from ui.shared.quote_paper import keep_paper, quote_paper

PAGE_SIZES = {"A4": "a4", "Letter": "letter"}


def show_quote_form(store: Store, job: StoredJob, quotes: Sequence[StoredQuote]) -> None:
    """A folded form with the button that keeps the quote."""
    key = f"choice_place_quote|{job.id}|"
    with st.expander("Make a quote", expanded=_start(key)):
        owner_brings = st.checkbox("The owner brings the new brake or line", key=f"{key}owner_brings")
        numbers = [quote.id for quote in quotes if quote.replaced_by_id is None]
        session.start_choice_among(f"{key}replaces", numbers, None)
        replaces = st.selectbox(
            "Stands in for", numbers, placeholder="no other quote", key=f"{key}replaces",
            format_func=lambda number: f"quote {number}",
        )  # fmt: skip
        size = st.selectbox("Paper", list(PAGE_SIZES), key=f"{key}paper")
        shop = st.text_input("Workshop, to print (empty: the shop's own name)", key=f"{key}shop", max_chars=200)
        by = ask_who(key=f"quote|{job.id}|by")
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
        session.forget_beginning(key)
        st.query_params.from_dict({"quote": number})
        st.rerun()


def _start(key: str) -> bool:
    """What the form shows until somebody chooses otherwise; and whether somebody has, who is to find it open again."""
    named = os.environ.get("LINEPLAN_SHOP", "")
    starts = {"owner_brings": False, "replaces": None, "paper": next(iter(PAGE_SIZES)), "shop": named}
    if any(session.chosen(f"{key}{name}") not in (None, start) for name, start in starts.items()):
        session.put_choices({f"{key}begun": True})
    for name, start in starts.items():
        session.start_choice(f"{key}{name}", start)
    return bool(session.chosen(f"{key}begun"))


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
