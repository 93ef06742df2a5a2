"""Show a kept table: what it comes to, a picture of it, its pairs picked and sorted, and what to do about the noes."""

from collections.abc import Mapping, Sequence

import streamlit as st

from catalog import Store
from planner import draw_table, most_first, outcome_word, rule_words
from planner import in_markdown as plain
from planner.verdicts import Outcome
from ui.page import session
from ui.page.downloads import offer
from ui.page.views.markup import show_table
from ui.page.views.pair_list import OUTCOMES, SIGNS, show_pairs
from ui.page.views.port_picker import show_picture
from ui.page.views.table_list import counts_in_words, made_words, title_of
from ui.page.views.tabs import show_tabs
from ui.shared.days import time_zone_of
from ui.table.kept import KeptTable, Pick, Picked, pick_pairs, rows_of
from ui.table.rows_file import csv_pieces

MOST_PLACES, MOST_ROWS, MOST_COLUMNS = 10, 40, 48
MOST_IN_BROWSER = 1_000_000
PREFIX = "choice_place_pairs_"
WIDE_MM, NARROW_MM = 160.0, 86.0


def show_kept_table(store: Store, table: KeptTable) -> None:
    """All of it."""
    if session.held("pairs_of") != table.brief.id:
        session.forget_beginning(PREFIX)
        session.hold("pairs_of", table.brief.id)
    st.title(title_of(table.brief), anchor=False)
    st.caption(plain(made_words(table.brief, time_zone_of(store))))
    st.markdown(f"{_in_a_sentence(table)}  \n{counts_in_words(table.brief)}")
    for case_id, why in table.refused:
        st.warning(plain(f"Not decided: {case_id}, {why}"), icon=":material/warning:")
    pick = _ask_pick()
    picked = pick_pairs(store, table, pick)
    if not picked:
        st.info("No pair is like that: take words or outcomes out.", icon=":material/search:")
        return
    show_tabs(
        {
            "Picture": lambda: _show_matrix(table, picked),
            "Pairs": lambda: show_pairs(store, table, picked),
            "What stops most": lambda: _show_stops(table),
            "What to measure": lambda: _show_measures(table),
        },
        key="table_tabs",
    )
    _show_files(store, table, picked, is_all=pick.is_all)


def _show_stops(table: KeptTable) -> None:
    stops, others = table.tally.stops, table.tally.others
    if not stops and not others:
        st.markdown("Nothing stops any of its pairs.")
        return
    st.markdown(f"Where the whole table stops most often, the {MOST_PLACES} first:")
    _show_places(table, stops, "Pairs stopped")
    if others:
        told = ", ".join(f"{rule_words(rule)} {several}" for rule, several in most_first(others))
        st.markdown(plain(f"A no at no place of the frame: {told}."))


def _show_measures(table: KeptTable) -> None:
    if not table.tally.outcomes[Outcome.UNKNOWN]:
        st.markdown("Nothing waits for a measurement.")
        return
    st.markdown("What one measurement would settle, in the whole table:")
    _show_places(table, table.tally.open_by_one, "Pairs kept open")
    st.markdown(_open_words(table))


def _in_a_sentence(table: KeptTable) -> str:
    found = table.tally.outcomes
    fits_n = found[Outcome.FITS] + found[Outcome.TIGHT]
    return (
        f"Of {table.tally.pairs_n} pairs {fits_n} can be done, {found[Outcome.TIGHT]} of them tightly; "
        f"{found[Outcome.NO_FIT]} cannot, and {found[Outcome.UNKNOWN]} are not proven."
    )


def _open_words(table: KeptTable) -> str:
    one_n = sum(table.tally.open_by_one.values())
    return (
        f"Of {table.tally.outcomes[Outcome.UNKNOWN]} pairs not proven, {one_n} wait for one place alone, "
        f"{table.tally.open_by_more} for several or for something else."
    )


def _ask_pick() -> Pick:
    """Which pairs are to be shown."""
    frames, brakes, outcomes = st.columns([3, 3, 4])
    words = {
        name: column.text_input(name.capitalize(), key=f"{PREFIX}{name}", type="search", placeholder="All") or ""
        for name, column in (("frames", frames), ("brakes", brakes))
    }
    chosen = outcomes.pills(
        "Outcomes (none: all)",
        list(OUTCOMES),
        selection_mode="multi",
        key=f"{PREFIX}outcomes",
        format_func=lambda word: outcome_word(OUTCOMES[word]),
    )
    return Pick(frames=words["frames"], brakes=words["brakes"], outcomes=tuple(chosen))


def _show_matrix(table: KeptTable, picked: Sequence[Picked]) -> None:
    """The frames and brakes that have a pair picked, each with all of its outcomes."""
    rows = picked[:MOST_ROWS]
    columns = sorted({place for each in picked for place in each.brakes})
    shown = columns[:MOST_COLUMNS]
    wide, narrow = (
        draw_table(
            frames=[each.line.label for each in rows],
            brakes=[table.brakes[place].name for place in shown],
            outcomes=[[SIGNS[each.line.outcomes[place]] for place in shown] for each in rows],
            width_mm=width_mm,
        )
        for width_mm in (WIDE_MM, NARROW_MM)
    )
    show_picture(wide, narrow=narrow, key="table_matrix", most_px=round(WIDE_MM * 6))
    if len(picked) > len(rows) or len(columns) > len(shown):
        told = f"The picture shows {len(rows)} of {len(picked)} frames and {len(shown)} of {len(columns)} brakes"
        st.caption(f"{told}: words above choose others.")


def _show_places(table: KeptTable, counts: Mapping[tuple[str, str], int], heading: str) -> None:
    ordered = most_first(counts)
    rows = [
        (table.frame(frame_id), table.place(frame_id, place_id), str(several))
        for (frame_id, place_id), several in ordered[:MOST_PLACES]
    ]
    if rows:
        show_table(("Frame", "Place", heading), rows, figures=1)
    if len(ordered) > MOST_PLACES:
        st.caption(f"and {len(ordered) - MOST_PLACES} more")


def _show_files(store: Store, table: KeptTable, picked: Sequence[Picked], *, is_all: bool) -> None:
    """The rows as the terminal writes them."""
    several = sum(len(each.brakes) for each in picked)
    command = f"lineplan table --from {table.brief.id} --to FILE.csv"
    if several > MOST_IN_BROWSER:
        st.caption(f"{several} rows are too many for a browser: `{command}` writes them.")
        return
    label = "All rows (CSV)" if is_all else f"The {several} rows chosen (CSV)"
    name = f"table-{table.brief.id}.csv"
    offer(label, name, "text/csv", lambda: b"".join(csv_pieces(rows_of(store, table, picked))))
