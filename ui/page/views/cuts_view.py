"""Show a cut list: the answer, the picture, each length with its cuts in order, and what can be taken away of it."""

import json
from collections.abc import Mapping
from datetime import date

import streamlit as st

from catalog import Catalog, Stock, stock_text_after, taken_entry
from planner import JobCuts, cut_sheet_pdf, cuts_as_record, cuts_csv, cuts_sentence, draw_cut_list
from planner import in_markdown as plain
from planner.verdicts import Outcome
from ui.page.downloads import offer, what_paper_lacks
from ui.page.views.markup import show_table
from ui.page.views.port_picker import show_picture
from ui.page.views.verdict_view import show_outcome
from ui.shared.cut_rows import bare, missing_words, not_cut_rows, opened_words, price_words, rest_places, rest_words
from ui.shared.outcome_looks import OUTCOME_LOOKS

WIDE_MM, NARROW_MM, MOST_PX = 160.0, 90.0, 1100


def show_cuts(cuts: JobCuts, catalog: Catalog) -> None:
    """The answer, the cuts as a table and as a picture, and what is not cut."""
    words = f"{cuts_sentence(cuts.cut_list)} {missing_words(cuts)}".strip()
    show_outcome(Outcome.FITS if cuts.is_complete else Outcome.NO_FIT, words)
    titles = _titles(cuts)
    for outcome, label, reason in not_cut_rows(cuts, catalog):
        st.markdown(f"{OUTCOME_LOOKS[outcome].page_icon} **{plain(_told(label, titles))}**: {plain(reason)}")
    if not cuts.cut_list.opened:
        return
    wide, narrow = (draw_cut_list(cuts.cut_list, width_mm=mm) for mm in (WIDE_MM, NARROW_MM))
    show_picture(wide, narrow=narrow, key="cut_list", most_px=MOST_PX)
    show_table(("Cut from / for", "From", "To", "Length, mm"), list(_rows(cuts, catalog)), figures=3)
    st.markdown(f"**Price of the rolls opened:** {plain(price_words(cuts.cut_list, catalog))}")


def show_cut_files(cuts: JobCuts, stock: Stock, catalog: Catalog, *, taken_on: date | None) -> None:
    """Sheet, table, record and the stock that is left.

    taken_on : the day the stock is taken; None where it was taken before, and stays as it is
    """
    names = {line.id: line.name for line in catalog.lines.values()}
    columns = st.columns(2)
    with columns[0]:
        if missing := what_paper_lacks():
            st.info(f"No sheet: {plain(missing)}", icon=":material/print_disabled:")
        else:
            sheet = lambda: cut_sheet_pdf(cuts=cuts, line_names=names)  # noqa: E731  (made when it is asked for)
            offer("Cut sheet (PDF)", "cuts.pdf", "application/pdf", sheet)
        offer("Cuts (CSV)", "cuts.csv", "text/csv", lambda: cuts_csv(cuts, line_names=names))
    with columns[1]:
        record = json.dumps(cuts_as_record(cuts), indent=2, ensure_ascii=False)
        offer("Cuts (JSON)", "cuts.json", "application/json", lambda: record)
        if taken_on is not None:
            left = lambda: stock_text_after(stock, cuts.cut_list, taken=taken_entry(cuts, on=taken_on))  # noqa: E731
            offer("Stock that is left (YAML)", "stock.yaml", "application/yaml", left)


def _titles(cuts: JobCuts) -> dict[str, str]:
    """What people call the jobs, by the names their pieces go by in picture and files."""
    return {asked.label: asked.job.title for asked in cuts.jobs}


def _told(label: str, titles: Mapping[str, str]) -> str:
    title = titles.get(label, "")
    return f"{label}: {title}" if title not in ("", label) else label


def _rows(cuts: JobCuts, catalog: Catalog) -> list[tuple[str, str, str, str]]:
    rows, titles = [], _titles(cuts)
    for number, opened in enumerate(cuts.cut_list.opened, start=1):
        rows.append((f"{number}. {opened_words(opened, cuts, catalog)}", "", "", bare(opened.length_mm)))
        for cut in opened.cuts:
            ends = (bare(cut.start_mm), bare(cut.start_mm + cut.length_mm), bare(cut.length_mm))
            rows.append((f"\u2003{_told(cut.piece_id, titles)}", *ends))
        rows.append((f"\u2003{rest_words(opened)}", *rest_places(opened)))
    return rows
