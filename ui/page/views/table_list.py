"""Show the tables that are kept, newest first, with the way to each."""

import streamlit as st

from catalog import Store, TableBrief
from planner import in_markdown as plain
from planner import outcome_word
from planner.verdicts import Outcome
from ui.page.forms.table_form import TABLES_PAGE
from ui.shared.days import in_zone, time_zone_of
from ui.shared.outcome_looks import OUTCOME_LOOKS

MOST_TABLES = 25


def show_table_list(store: Store) -> None:
    """A row for each table; of none, nothing."""
    briefs, zone = store.tables.list(), time_zone_of(store)
    if not briefs:
        return
    st.subheader("Kept tables", anchor=False)
    for brief in briefs[:MOST_TABLES]:
        with st.container(border=True):
            st.markdown(f"**{plain(title_of(brief))}**  \n{counts_in_words(brief)}  \n{plain(made_words(brief, zone))}")
            with st.container(horizontal=True, vertical_alignment="center"):
                st.page_link(
                    TABLES_PAGE, label="Show", icon=":material/arrow_forward:", query_params={"table": str(brief.id)}
                )
                st.button("Put away", key=f"forget_{brief.id}", on_click=store.tables.forget, args=(brief.id,))
    if len(briefs) > MOST_TABLES:
        st.caption(
            f"{len(briefs)} tables; the {MOST_TABLES} newest are shown. `lineplan table --from store` lists all."
        )


def title_of(brief: TableBrief) -> str:
    """What to call a table."""
    frames = "frame" if brief.cases_n == 1 else "frames"
    brakes = "brake" if brief.brakes_n == 1 else "brakes"
    return f"{brief.cases_n} {frames} against {brief.brakes_n} {brakes}"


def counts_in_words(brief: TableBrief) -> str:
    """How many pairs of each outcome there are, each by its sign and word."""
    return " · ".join(
        f"{OUTCOME_LOOKS[outcome].page_icon} {brief.counts.get(outcome.word, 0)} {outcome_word(outcome)}"
        for outcome in Outcome
        if brief.counts.get(outcome.word)
    )


def made_words(brief: TableBrief, zone: str) -> str:
    """Which number it has, when and by whom it was made, and why."""
    note = f": {brief.note}" if brief.note else ""
    return f"Table {brief.id}, {in_zone(brief.made_at, zone):%Y-%m-%d %H:%M} by {brief.made_by}{note}"
