"""Show the pairs of a table that were picked: sorted on the server, a page at a time, each to be opened as a job."""

from collections.abc import Callable, Sequence
from typing import Any

import streamlit as st

from catalog import OUTCOME_SIGNS, CatalogError, Store, job_from_fields
from planner import COLUMNS, decider_words, marked_outcome
from planner import in_markdown as plain
from planner.verdicts import Outcome
from ui.page import session
from ui.page.forms.job_opener import open_job
from ui.page.views.markup import show_table
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.table.kept import KeptTable, Picked, first_pairs, job_fields_of, rows_of

OUTCOMES = {outcome.word: outcome for outcome in Outcome}
SIGNS = {sign: OUTCOMES[word] for word, sign in OUTCOME_SIGNS.items()}
MOST_ROWS, MOST_SORTED = 25, 20_000
ORDER, PAGE, PAIR = (f"choice_place_pairs_{name}" for name in ("order", "page", "pair"))

Pair = dict[str, Any]
"""A row by its columns, with its case's line and its brake's place."""

_NEVER = float("inf")
_ORDERS: dict[str, Callable[[Pair], Any]] = {
    "as asked": lambda _: 0,
    "by brake": lambda pair: pair["place_of_brake"],
    "best first": lambda pair: OUTCOMES[pair["outcome"]],
    "worst first": lambda pair: -OUTCOMES[pair["outcome"]],
    "least room first": lambda pair: _NEVER if pair["clearance_mm"] is None else pair["clearance_mm"],
    "longest cut first": lambda pair: _NEVER if pair["cut_mm"] is None else -pair["cut_mm"],
    "least to spare first": lambda pair: _NEVER if pair["spare_mm"] is None else pair["spare_mm"],
}


def show_pairs(store: Store, table: KeptTable, picked: Sequence[Picked]) -> None:
    """A table of the pairs, and the way from one of them to its plan."""
    several = sum(len(each.brakes) for each in picked)
    session.start_choice(ORDER, "as asked")
    order_column, page_column = st.columns([3, 2])
    order = order_column.selectbox("Order", list(_ORDERS), key=ORDER)
    first = first_pairs(picked, MOST_SORTED)
    pairs = sorted(_pairs(store, table, first), key=_ORDERS[order])
    st.caption(f"{several} {'pair' if several == 1 else 'pairs'}")
    if several > MOST_SORTED:
        st.caption(f"The first {MOST_SORTED} are put in order: choose by words or outcome above to see others.")
    pages = -(-len(pairs) // MOST_ROWS)
    page = 1
    if pages > 1:
        session.start_choice_among(PAGE, [str(n + 1) for n in range(pages)], "1")
        page = int(page_column.selectbox(f"Page of {pages}", [str(n + 1) for n in range(pages)], key=PAGE))
    shown = pairs[(page - 1) * MOST_ROWS : page * MOST_ROWS]
    heads = ("Frame", "Brake", "Outcome", "What decides", "Cut, mm", "To spare, mm")
    _show_opener(table, shown)
    show_table(heads, [_cells(table, pair) for pair in shown], figures=2, is_stacked=True)


def _pairs(store: Store, table: KeptTable, picked: Sequence[Picked]) -> list[Pair]:
    places = [(each.line, place) for each in picked for place in each.brakes]
    rows = rows_of(store, table, picked)
    return [
        {**dict(zip(COLUMNS, row, strict=True)), "line": line, "place_of_brake": place}
        for (line, place), row in zip(places, rows, strict=True)
    ]


def _cells(table: KeptTable, pair: Pair) -> tuple[str, ...]:
    place = table.place(pair["frame"], pair["place"] or "")
    decides = decider_words(rule=pair["rule"] or "", place=place, clearance_mm=pair["clearance_mm"])
    cut, spare = ("" if pair[name] is None else f"{pair[name]:.0f}" for name in ("cut_mm", "spare_mm"))
    brake = table.brakes[pair["place_of_brake"]].name
    outcome = marked_outcome(OUTCOMES[pair["outcome"]]).replace(" ", "\N{NO-BREAK SPACE}")
    return pair["line"].label, brake, outcome, decides, cut, spare


def _show_opener(table: KeptTable, shown: Sequence[Pair]) -> None:
    """Choose one of the pairs shown, and plan it."""
    names = {
        f"{pair['case']} {pair['brake']}": f"{table.brakes[pair['place_of_brake']].name} on {pair['line'].label}"
        for pair in shown
    }
    with st.container(horizontal=True, vertical_alignment="bottom"):
        chosen = st.selectbox(
            "One of these pairs",
            list(names),
            key=PAIR,
            index=None,
            placeholder="Choose one to plan it",
            format_func=lambda one: names.get(one, one),
        )
        is_asked = st.button("Plan this pair", icon=":material/route:", disabled=chosen is None)
    if not is_asked:
        return
    pair = next(pair for pair in shown if f"{pair['case']} {pair['brake']}" == chosen)
    fields = job_fields_of(table, pair["line"], table.brakes[pair["place_of_brake"]])
    try:
        screen = open_job(job_from_fields(fields, catalog_or_stop()))
    except CatalogError as refusal:
        st.warning(plain("The catalog in use is not the one this table was made with:"), icon=":material/info:")
        show_refusal(refusal)
        return
    st.switch_page(screen)
