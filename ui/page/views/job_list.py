"""Show the jobs that are kept, those first that were changed last; the search is the store's."""

import streamlit as st

from catalog import JobBrief, JobState, Store
from planner import in_markdown as plain
from planner import outcome_word, told_apart
from planner.verdicts import Outcome
from ui.page import session
from ui.page.draft_form import ADDRESS
from ui.shared.days import in_zone, time_zone_of, today_in
from ui.shared.outcome_looks import OUTCOME_LOOKS
from ui.shared.state_words import told

MOST_JOBS, MOST_DRAFTS = 25, 8
JOBS_PAGE, PLAN_PAGE = "screens/jobs.py", "screens/plan_a_job.py"
FORM_PAGES = {
    "job": PLAN_PAGE,
    "visit": "screens/several_lines.py",
    "new_frame": "screens/new_frame.py",
    "new_job": "screens/new_job.py",
    "frames_and_brakes": "screens/frames_and_brakes.py",
    "cuts": "screens/cuts.py",
    "entry": "screens/catalog.py",
}
"""Where each form is filled in that the address names; not the quick question, which nobody goes back to."""

_OUTCOMES = {outcome.word: outcome for outcome in Outcome}


def show_job_list(store: Store) -> None:
    """A field to search in, which states, and a row for each job with the way to it."""
    words_column, state_column = st.columns([3, 2])
    words = words_column.text_input(
        "Search", key="choice_place_search", type="search", placeholder="part of a title, an owner's name, an id"
    )
    states = {"any state": None} | {told(state): state for state in JobState}
    session.start_choice("choice_place_state", "any state")
    state = states[state_column.selectbox("State", list(states), key="choice_place_state")]
    found, count = store.find_briefs(words=words or "", state=state, most=MOST_JOBS)
    if not found:
        _show_nothing(is_searched=bool(words) or state is not None)
    zone = time_zone_of(store)
    titles = told_apart({brief.id: brief.title for brief in found})
    for brief in found:
        with st.container(border=True):
            st.markdown(_row(brief, titles[brief.id], zone))
            with st.container(horizontal=True):
                st.page_link(JOBS_PAGE, label="Show", icon=":material/arrow_forward:", query_params={"job": brief.id})
                for quote in brief.quotes[-3:]:
                    label = f"Quote {quote.id}, {told(quote.state_on(today_in(zone)))}"
                    st.page_link(JOBS_PAGE, label=label, query_params={"quote": str(quote.id)})
    if count > len(found):
        st.caption(
            f"{count} jobs, the {len(found)} changed last are shown: search for part of a name to find the rest."
        )


def show_drafts(store: Store) -> None:
    """Forms that were being filled in, with the way back to each."""
    recent = [one for form in FORM_PAGES for one in store.drafts.recent(form, most=MOST_DRAFTS)]
    recent = sorted(recent, key=lambda one: one.changed_at, reverse=True)[:MOST_DRAFTS]
    if not recent:
        return
    zone = time_zone_of(store)
    with st.expander("Forms that were being filled in"):
        for draft in recent:
            label = f"{plain(draft.title)}, {in_zone(draft.changed_at, zone):%Y-%m-%d %H:%M}"
            with st.container(horizontal=True, vertical_alignment="center"):
                page = FORM_PAGES[draft.form]
                st.page_link(page, label=label, icon=":material/edit_note:", query_params={ADDRESS: draft.id})
                st.button("Forget", key=f"forget_{draft.id}", on_click=store.drafts.forget, args=(draft.id,))


def _show_nothing(*, is_searched: bool) -> None:
    if is_searched:
        st.info("No job has these words and this state.", icon=":material/search:")
    else:
        st.info("No job is kept here yet: plan one, then press Save.", icon=":material/info:")
        st.page_link(PLAN_PAGE, label="Plan a job", icon=":material/route:")


def _row(brief: JobBrief, title: str, zone: str) -> str:
    outcome = _OUTCOMES.get(brief.outcome)
    state = "damaged" if brief.state is None else told(brief.state)
    verdict = "no plan" if outcome is None else f"{OUTCOME_LOOKS[outcome].page_icon} {outcome_word(outcome)}"
    changed = "damaged" if brief.changed_at is None else f"changed {in_zone(brief.changed_at, zone):%Y-%m-%d}"
    whom = f" · for {plain(brief.for_whom)}" if brief.for_whom else ""
    return f"**{plain(title)}**{whom}  \n{verdict} · {state} · {changed}"
