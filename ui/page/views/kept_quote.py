"""Show one kept quote: what it comes to, where it stands, its papers, and the buttons that take it on."""

import streamlit as st

from catalog import Store, StoredQuote
from planner import (
    assumption_sentences,
    parts_csv,
    quote_line_words,
    rounding_sentence,
    spread_sentence,
    tax_words,
    time_sentences,
)
from planner import in_markdown as plain
from ui.page.downloads import what_paper_lacks
from ui.page.forms.move_buttons import show_quote_moves
from ui.page.views.job_list import JOBS_PAGE
from ui.page.views.kept_job import show_happenings
from ui.page.views.markup import safe, show_markup, show_table
from ui.shared.days import time_zone_of, today_in
from ui.shared.quote_paper import QuotePaper, paper_of_kept, quote_paper_pdf, standing_sentences, stands_words
from ui.shared.state_words import told


def show_kept_quote(store: Store, quote: StoredQuote) -> None:
    """Everything that is kept of a quote."""
    zone = time_zone_of(store)
    today = today_in(zone)
    paper = paper_of_kept(quote, today=today)
    _show_head(quote, paper)
    is_old = today > quote.draft.valid_until and paper.state == "drafted"
    though_old = is_old and st.checkbox("Hand it over though its days are past", key="quote_though_old")
    with st.container(horizontal=True):
        show_quote_moves(store, quote, today=today, though_old=though_old)
        _show_papers(paper)
    _show_lines(paper)
    with st.expander("History"):
        show_happenings(store.quotes.history(quote.id), zone)


def _show_head(quote: StoredQuote, paper: QuotePaper) -> None:
    whom = f" · for {paper.for_whom}" if paper.for_whom else ""
    title = f"Quote {quote.id}: {paper.quote.total} {paper.quote.currency}"
    about = f"{paper.quote.job_title or paper.quote.job_id} · {told(paper.state)}{whom} · {stands_words(paper)}"
    show_markup(f'<div class="lp-job"><h1>{safe(title)}</h1><p>{safe(about)}</p></div>')
    for sentence in standing_sentences(paper):
        st.markdown(f"**{plain(sentence)}**")
    if paper.verdict:
        st.markdown(plain(paper.verdict))
    if paper.quote.unpriced:
        told_apart = ", ".join(dict.fromkeys(paper.quote.unpriced))
        st.warning(plain(f"Not in the price: {told_apart}"), icon=":material/warning:")
    st.page_link(JOBS_PAGE, label="Its job", icon=":material/arrow_back:", query_params={"job": paper.quote.job_id})


def _show_papers(paper: QuotePaper) -> None:
    name = f"quote-{paper.number}"
    if not what_paper_lacks():
        st.download_button(
            "Quote (PDF)",
            lambda: quote_paper_pdf(paper),
            f"{name}.pdf",
            "application/pdf",
            on_click="ignore",
            icon=":material/print:",
        )
    parts = lambda: parts_csv(paper.quote)  # noqa: E731  (made when it is asked for)
    st.download_button("Parts (CSV)", parts, f"{name}.csv", "text/csv", on_click="ignore", icon=":material/table:")


def _show_lines(paper: QuotePaper) -> None:
    quote = paper.quote
    rows = [quote_line_words(line) for line in quote.lines]
    sums = [("Sum", "", "", str(quote.subtotal)), (tax_words(quote), "", "", str(quote.tax))]
    to_pay = ("To pay", "", "", f"{quote.total}\u00a0{quote.currency}")
    show_table(("Item", "Quantity", "Each", "Together"), (*rows, *sums, to_pay), figures=3)
    st.caption(plain(rounding_sentence(quote)))
    for sentence in (*time_sentences(quote), spread_sentence(quote)):
        st.markdown(plain(sentence))
    if quote.assumptions:
        told_all = "\n".join(f"- {plain(sentence)}" for sentence in assumption_sentences(quote))
        st.markdown(f"**What this takes for granted**\n{told_all}")
