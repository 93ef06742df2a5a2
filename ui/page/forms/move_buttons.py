"""Buttons that take a job or a quote to its next state; whoever was quicker is told, and nothing is lost."""

from collections.abc import Callable
from datetime import date

import streamlit as st

from catalog import CatalogError, JobState, QuoteState, Store, StoredJob, StoredQuote
from ui.page.forms.name_field import who
from ui.page.views.problem_view import show_refusal
from ui.shared.state_moves import job_moves, quote_moves


def show_job_moves(store: Store, job: StoredJob) -> None:
    """A button for each state the job may be taken to."""
    for to, label in job_moves(job.state).items():

        def move(to: JobState = to) -> None:
            store.jobs.move(job.id, to, based_on=job.version, by=who())

        _button(label, move, key=f"job_{to.value}")


def show_quote_moves(store: Store, quote: StoredQuote, *, today: date, though_old: bool) -> None:
    """A button for each state the quote may be taken to.

    though_old : whether a draft whose days are past may be handed over
    """
    for to, label in quote_moves(quote.state_on(today)).items():

        def move(to: QuoteState = to) -> None:
            store.quotes.move(quote.id, to, today=today, based_on=quote.version, by=who(), though_old=though_old)

        _button(label, move, key=f"quote_{to.value}")


def _button(label: str, move: Callable[[], None], *, key: str) -> None:
    if st.button(label, key=key):
        try:
            move()
        except CatalogError as refusal:
            show_refusal(refusal)
            return
        st.rerun()
