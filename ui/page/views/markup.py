"""Markup of the page's own, with its one stylesheet; every word from outside goes through `safe`."""

from collections.abc import Iterable, Sequence
from html import escape

import streamlit as st

from planner import printable_line

_STYLE = """
:root { color-scheme: light dark; }
.lp-verdict { border-left: 8px solid; border-radius: 4px; padding: 0.5rem 0.9rem; }
.lp-verdict h2 { font-size: 1.2rem; margin: 0; padding: 0; line-height: 1.35; }
.lp-verdict p { margin: 0.2rem 0 0; line-height: 1.4; color: light-dark(#1d2126, #eef1f3); }
.lp-fits { background: light-dark(#e9f6ed, #16291d); color: light-dark(#14552a, #7fdc9d); }
.lp-tight { background: light-dark(#fdf3dc, #2e2612); color: light-dark(#6b4300, #f3cc66); }
.lp-unknown { background: light-dark(#e8f0f8, #162433); color: light-dark(#0a4a80, #8cc8f7); }
.lp-no_fit { background: light-dark(#fbe9e8, #331817); color: light-dark(#8c1710, #ff9c94); }
.lp-was { border-left: 8px dashed; padding: 0.5rem 0.9rem; color: light-dark(#4d565f, #b7c0c8); }
.lp-was p { margin: 0; line-height: 1.4; }
.st-key-old_answer { filter: grayscale(1); }
.lp-facts { display: grid; grid-template-columns: minmax(5rem, 10rem) 1fr; gap: 0.15rem 0.9rem; line-height: 1.35; }
.stHtml .lp-facts { margin: 0; padding: 0; }
.lp-facts dt { color: light-dark(#4d565f, #b7c0c8); font-weight: 400; }
.stHtml .lp-facts dd { margin: 0; font-weight: 600; overflow-wrap: anywhere; }
.lp-job h1 { font-size: 1.25rem; margin: 0; padding: 0; line-height: 1.3; }
.lp-job p { margin: 0; line-height: 1.4; color: light-dark(#4d565f, #b7c0c8); }
.lp-next { border: 1px solid light-dark(#8a949d, #6d7883); border-radius: 4px; padding: 0.5rem 0.9rem; }
.lp-next p { margin: 0; line-height: 1.4; }
.lp-next .lp-about { color: light-dark(#4d565f, #b7c0c8); }
.lp-order, .lp-reasons { margin: 0.2rem 0 0.4rem; padding-left: 1.5rem; line-height: 1.4; }
.lp-letter { display: inline-block; min-width: 1.4em; text-align: center; border-radius: 0.7em; line-height: 1.4;
  background: light-dark(#1d2126, #e9edf0); color: light-dark(#fff, #10151a); }
.lp-holes { columns: 15rem; margin: 0; padding-left: 1.6rem; line-height: 1.4; }
.lp-holes li { break-inside: avoid; }
@media (max-width: 640px) {
  [data-testid=stColumn]:not(:has([data-testid=stElementContainer])) { display: none; }
  .stHtml .lp-stacked, .lp-stacked tbody, .lp-stacked tr, .stHtml .lp-stacked td { display: block; }
  .lp-stacked thead, .stHtml .lp-stacked td:empty { display: none; }
  .lp-stacked tr { padding: 0.4rem 0; }
  .lp-stacked tr + tr { border-top: 1px solid light-dark(#cfd5da, #343d45); }
  .stHtml .lp-table.lp-stacked tr :is(td) { padding: 0; border: 0; text-align: left; white-space: normal; }
  .lp-stacked td::before { content: attr(data-head) ": "; color: light-dark(#4d565f, #b7c0c8); }
}
@media (max-width: 1000px) {
  .lp-facts { grid-template-columns: minmax(4rem, 6rem) 1fr; }
  .st-key-job_line, :has(> .st-key-job_line) { flex: 1 0 100% !important; }
}
@media (min-width: 641px) and (max-width: 1000px) {
  [class*=st-key-halves] > [data-testid=stLayoutWrapper] > [data-testid=stHorizontalBlock] > [data-testid=stColumn] {
    flex: 1 1 0; }
  .st-key-halves [data-testid=stColumn] [data-testid=stColumn] { flex: 1 0 100%; }
  .st-key-halves [data-testid=stColumn]:not(:has([data-testid=stElementContainer])) { display: none; }
}
.stButton button, .stDownloadButton button, .stPopover button, .stPageLink a, [data-testid=stTab], .stExpander summary,
[data-testid=stButtonGroup] button, [data-testid=stTextInputRootElement], [data-testid=stFileUploaderDropzone] button,
.react-aria-ComboBox > div, .stCheckbox label { min-height: 44px; min-width: 44px; }
.stCheckbox label { align-items: center; }
[data-testid=stTextInputRootElement]:has(input:disabled) { border-style: dashed; }
[data-testid=stTextInput]:has(input:disabled) :is(input, label, label p) {
  color: light-dark(#4d565f, #b7c0c8); -webkit-text-fill-color: light-dark(#4d565f, #b7c0c8); }
[data-testid=stPopoverBody] { width: min(56rem, 94vw); max-width: 94vw; }
[data-testid=stCaptionContainer], [data-testid=stCaptionContainer] p {
  color: light-dark(#4d565f, #b7c0c8) !important; opacity: 1;
}
.stHtml .lp-work :is(p, h3) { font-size: 1rem; line-height: 1.6; margin: 0 0 1rem; padding: 0; }
.stHtml .lp-work h3 { font-weight: 600; }
.lp-work small { font-size: 0.875rem; }
.lp-icon { font-family: "Material Symbols Rounded"; font-feature-settings: "liga"; font-weight: 400; line-height: 1;
  display: inline-block; vertical-align: middle; font-size: 1.25rem; white-space: nowrap; user-select: none; }
.lp-wide { overflow-x: auto; }
.stHtml .lp-table { border-collapse: collapse; width: 100%; line-height: 1.4; }
.stHtml .lp-table :is(th, td) { text-align: left; padding: 0.2rem 0.8rem 0.2rem 0; vertical-align: top; border: 0; }
.stHtml .lp-table th { color: light-dark(#4d565f, #b7c0c8); font-weight: 400; }
.stHtml .lp-table tr + tr :is(td) { border-top: 1px solid light-dark(#cfd5da, #343d45); }
.stHtml .lp-table .lp-right { text-align: right; white-space: nowrap; }
.stHtml .lp-table td[data-head=Whose] { white-space: nowrap; }
@media (max-width: 640px) {
  .stHtml .lp-table .lp-right { white-space: normal; }
  .stHtml .lp-table :is(th, td) { padding-right: 0.4rem; }
}
.stHtml .lp-step h1 { font-size: clamp(1.4rem, 2.6vw, 2.2rem); line-height: 1.3; margin: 0; padding: 0; }
.lp-step .lp-about { margin: 0 0 0.3rem; color: light-dark(#4d565f, #b7c0c8); }
.st-key-bench_ways button, .st-key-bench_clock button { min-height: 72px; }
.st-key-bench_ways button * { color: inherit; opacity: 1; }
.st-key-bench_ways button p { font-size: 1.2rem; }
.lp-title { font-size: 1.15rem; margin: 0; padding: 0; }
[data-testid=stBaseButton-primary]:not(:disabled), [data-testid=stBaseButton-primary]:not(:disabled) p {
  color: light-dark(#fff, #10151a);
}
"""


def safe(words: str) -> str:
    """The words as they may stand in markup: none of them is read as such."""
    return escape(printable_line(words), quote=True)


def show_markup(markup: str) -> None:
    """Markup in which every word from outside went through `safe`."""
    st.html(markup)


def show_table(
    heads: Sequence[str], rows: Iterable[Sequence[str]], *, figures: int = 0, is_stacked: bool = False
) -> None:
    """A table of plain words.

    figures : so many columns at the right hold figures
    is_stacked : whether in a narrow window the cells of a row stand below each other, each with its heading
    """
    words = len(heads) - figures
    top = "".join(f'<th scope="col"{_side(place >= words)}>{safe(name)}</th>' for place, name in enumerate(heads))
    body = "".join(
        "<tr>"
        + "".join(
            f'<td{_side(place >= words)} data-head="{safe(head)}">{safe(cell)}</td>'
            for place, (head, cell) in enumerate(zip(heads, row, strict=True))
        )
        + "</tr>"
        for row in rows
    )
    stacked = " lp-stacked" if is_stacked else ""
    table = f'<table class="lp-table{stacked}"><thead><tr>{top}</tr></thead><tbody>{body}</tbody></table>'
    show_markup(f'<div class="lp-wide">{table}</div>')


def _side(is_figure: bool) -> str:
    return ' class="lp-right"' if is_figure else ""


def show_style() -> None:
    """The stylesheet, once for the page."""
    st.html(f"<style>{_STYLE}</style>")
