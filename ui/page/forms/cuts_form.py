"""Ask for a cut list: saved jobs and own pieces, and the stock, from a file or typed."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

import streamlit as st

from catalog import Catalog, CatalogError, Stock, Store, read_stock, stock_file_text
from planner import Piece, told_apart
from planner import in_markdown as plain
from planner.parts import Job, Visit
from ui.page import session
from ui.page.draft_form import form_of_choices
from ui.page.forms.measure_field import ask_measure
from ui.page.forms.row_fields import LineRow, ask_line_rows
from ui.page.uploads import Upload, files_on_disk
from ui.page.views.problem_view import show_refusal
from ui.shared.planned_visit import job_or_visit_opened

PREFIX = "choice_place_cuts_"
PIECES, STOCK, FILE = f"{PREFIX}piece_", "stock_", "file"
"""How keys of the pieces begin; how those of the stock go on behind the prefix of the form they stand on."""

MOST_JOBS = 200


@dataclass(frozen=True, slots=True, kw_only=True)
class CutsAsked:
    """What is to be cut from what.

    jobs, own : whose lines, and pieces that belong to no job
    stock : what there is
    uses_supplied : whether lines that came with a job are used for it
    """

    jobs: tuple[Job | Visit, ...]
    own: tuple[Piece, ...]
    stock: Stock
    uses_supplied: bool


def ask_cuts(store: Store, catalog: Catalog) -> CutsAsked | None:
    """Everything asked for; None while something is missing or not right, which is said."""
    with st.container(border=True):
        st.markdown("**What is to be cut**")
        jobs = _ask_jobs(store, catalog)
        st.caption("Pieces that belong to no job:")
        own, own_open = ask_line_rows(catalog, prefix=PIECES, counts="How many (empty: 1)")
        uses_supplied = not st.checkbox("Leave lines that came with a job alone", key=f"{PREFIX}all_from_stock")
    with st.container(border=True):
        st.markdown("**What there is to cut from**")
        stock = ask_stock(catalog, prefix=PREFIX)
    if stock is None or jobs is None or own_open or not (jobs or own):
        st.info("Choose jobs or pieces, and stock to cut them from.", icon=":material/arrow_upward:")
        return None
    return CutsAsked(jobs=jobs, own=tuple(map(_piece, range(len(own)), own)), stock=stock, uses_supplied=uses_supplied)


def _ask_jobs(store: Store, catalog: Catalog) -> tuple[Job | Visit, ...] | None:
    """The jobs chosen; None where one of them does not suit the catalog, which is told."""
    briefs, _ = store.find_briefs(words="", state=None, most=MOST_JOBS)
    titles = told_apart({brief.id: brief.title for brief in briefs})
    session.start_choice(f"{PREFIX}jobs", [])
    names = st.multiselect(
        "Saved jobs", list(titles), key=f"{PREFIX}jobs", placeholder="None", format_func=lambda id: titles.get(id, id)
    )
    try:
        return tuple(job_or_visit_opened(store.jobs.get(name), catalog) for name in names)
    except CatalogError as refusal:
        show_refusal(refusal)
        return None


def _piece(n: int, row: LineRow) -> Piece:
    return Piece(id=f"piece-{n + 1}", line_id=row.line_id, length_mm=row.length_mm, quantity=row.quantity or 1)


def ask_stock(catalog: Catalog, *, prefix: str) -> Stock | None:
    """What there is to cut from, from a file or typed; None while none is told or something of it is not right.

    prefix : how the keys of the form begin on which it is asked
    """
    upload = st.file_uploader("A stock file (YAML)", type=["yaml", "yml"], key=f"stock_file_of_{prefix}")
    if upload is not None:
        told = {"name": upload.name, "text": upload.getvalue().decode("utf-8", "replace")}
        session.put_choices({f"{prefix}{FILE}": told})
    file = session.chosen(f"{prefix}{FILE}")
    if file:
        st.caption(plain(f"Cut from {file['name']}."))
        if upload is None:
            st.button("Type the stock instead", on_click=session.forget_choice, args=(f"{prefix}{FILE}",))
        return _read(file["name"], file["text"], catalog)
    begins = f"{prefix}{STOCK}"
    rows, is_open = ask_line_rows(catalog, prefix=begins, counts="How many (empty: any)")
    kerf_column, keep_column = st.columns(2)
    kerf = ask_measure(kerf_column, "One cut takes, mm", key=f"{begins}kerf_mm", placeholder="0, a knife")
    keep = ask_measure(keep_column, "Keep ends from, mm (empty: none)", key=f"{begins}keep_mm")
    if is_open or not rows or kerf.problem or keep.problem:
        return None
    return _read("typed stock", _stock_text(rows, kerf.value, keep.value), catalog)


def stock_told(prefix: str) -> dict[str, Any]:
    """What a form says of the stock, by its keys behind the prefix of that form."""
    found = session.choices_beginning(f"{prefix}{STOCK}") | session.choices_beginning(f"{prefix}{FILE}")
    return {key.removeprefix(prefix): value for key, value in found.items() if value}


def _stock_text(rows: list[LineRow], kerf_mm: float | None, keep_mm: float | None) -> str:
    """The stock as a stock file says it."""
    stock = [_entry(n, row) for n, row in enumerate(rows, start=1)]
    more = {"kerf": kerf_mm, "keep_offcut_from": keep_mm}
    return stock_file_text({"stock": stock, **{name: mm for name, mm in more.items() if mm is not None}})


def _entry(n: int, row: LineRow) -> Mapping[str, Any]:
    entry = {"id": f"stock-{n}", "line": row.line_id, "length": row.length_mm}
    return entry if row.quantity is None else {**entry, "quantity": row.quantity}


def _read(name: str, text: str, catalog: Catalog) -> Stock | None:
    try:
        with files_on_disk([Upload(name=name, content=text.encode("utf-8"))]) as paths:
            return read_stock(next(iter(paths)), catalog)
    except CatalogError as refusal:
        show_refusal(refusal)
        return None


CUTS_FORM = form_of_choices("cuts", prefix=PREFIX, title="A cut list")
