"""Ask what a quote is to say, and keep it as a draft with its number."""

import os
from collections.abc import Sequence

import streamlit as st

from catalog import CatalogError, Store, StoredJob, StoredQuote
from planner.errors import PlannerError
from ui.page import kept, session
from ui.page.draft_form import Form, form_of_choices, own_draft
from ui.page.drafts import keep, put_away, show_steps_back, take_up
from ui.page.forms.name_field import ask_who
from ui.page.forms.save_form import keep_saved_again
from ui.page.views.problem_view import show_refusal
from ui.shared.days import today_in
from ui.shared.planned_visit import Planned
from ui.shared.quote_paper import keep_paper, quote_paper

PAGE_SIZES = {"A4": "a4", "Letter": "letter"}


def quote_form_of(job: StoredJob) -> Form:
    """What a quote of this job is to say, which has one draft of its own until the quote is made."""
    prefix, paper = _prefix(job), next(iter(PAGE_SIZES))
    starts = {"owner_brings": False, "replaces": None, "paper": paper, "shop": os.environ.get("LINEPLAN_SHOP", "")}
    return form_of_choices(
        "quote",
        prefix=prefix,
        title=f"Quote of {job.title}"[:200],
        usual={f"{prefix}{name}": start for name, start in starts.items()},
        own=own_draft("quote", job.id),
        is_beside=True,
    )


def _prefix(job: StoredJob) -> str:
    """How the keys of its fields begin."""
    return f"choice_place_quote|{job.id}|"


def show_quote_form(store: Store, job: StoredJob, quotes: Sequence[StoredQuote]) -> None:
    """A folded form with the button that keeps the quote; open where something stands on it."""
    form = quote_form_of(job)
    take_up(form)
    for key, start in form.usual.items():
        session.start_choice(key, start)
    with st.expander("Make a quote", expanded=bool(form.shown())):
        keep(form)
        with st.container(horizontal=True):
            show_steps_back(form)
        _ask(store, job, quotes, form)


def _ask(store: Store, job: StoredJob, quotes: Sequence[StoredQuote], form: Form) -> None:
    key = _prefix(job)
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
    put_away(form)
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
