"""Show the answer to a visit: verdict, order and why, or what forbids one; all lines on the frame; shared holes."""

import streamlit as st

from planner import (
    VisitPlan,
    draw_visit,
    draw_visit_strips,
    forced_sentences,
    left_undone,
    order_told,
    price_words,
    time_words,
    unproven_sentence,
    visit_letters,
    visit_measures_told,
    visit_verdict,
    visit_ways_out_told,
)
from planner import in_markdown as plain
from planner.parts import Visit
from ui.page import visit_session
from ui.page.views.markup import safe, show_markup
from ui.page.views.port_picker import show_picture
from ui.page.views.verdict_view import show_outcome

WIDE_MM, NARROW_MM = 130, 92


def show_visit_line(visit: Visit) -> None:
    """Show in one line which visit is planned."""
    ids = ", ".join(line.id for line in visit.lines)
    told = f"{visit.frame.name} · {len(visit.lines)} {'line' if len(visit.lines) == 1 else 'lines'}: {ids}"
    show_markup(f'<div class="lp-job"><h1>{safe(visit.title)}</h1><p>{safe(told)}</p></div>')


def show_visit_answer(plan: VisitPlan) -> None:
    """The verdict, the order and why, or what forbids one and what would change it; then time and price."""
    show_outcome(plan.outcome, visit_verdict(plan))
    if (unproven := unproven_sentence(plan)) is not None:
        st.markdown(plain(unproven))
    if ways_out := visit_ways_out_told(plan):
        _show_list("What would change it", ways_out)
    if plan.order:
        _show_order(plan)
    for sentence in left_undone(plan):
        st.warning(plain(sentence), icon=":material/warning:")
    for reason, line_ids in visit_measures_told(plan).items():
        st.markdown(f"**Measure first, {plain(', '.join(line_ids))}:** {plain(reason)}")
    if plan.totals is not None:
        rows = (("Time", time_words(plan.totals)), ("Price", price_words(plan.totals)))
        told = "".join(f"<dt>{safe(name)}</dt><dd>{safe(words)}</dd>" for name, words in rows)
        show_markup(f'<dl class="lp-facts">{told}</dl>')


def _show_order(plan: VisitPlan) -> None:
    letters = visit_letters(plan)
    told = "".join(
        f"<li>{''.join(_letter(letters[line_id]) for line_id in step.line_ids)} {safe(words)}</li>"
        for step, words in zip(plan.order, order_told(plan), strict=True)
    )
    show_markup(f'<h3 class="lp-title">Order</h3><ol class="lp-order">{told}</ol>')
    reasons = forced_sentences(plan) or ("No line has to go before another; this order is as good as any.",)
    _show_list("Why this order", reasons)


def _letter(letter: str) -> str:
    return f'<b class="lp-letter">{safe(letter)}</b>'


def _show_list(title: str, sentences: tuple[str, ...]) -> None:
    told = "".join(f"<li>{safe(sentence)}</li>" for sentence in sentences)
    show_markup(f'<h3 class="lp-title">{safe(title)}</h3><ul class="lp-reasons">{told}</ul>')


def ask_first(visit: Visit) -> None:
    """Which lines are wanted before all others; another wish is planned at once."""
    ids = [line.id for line in visit.lines]
    visit_session.show_first(list(visit.first))
    st.multiselect(
        "Wanted before all others, in this order",
        ids,
        key=visit_session.FIRST_KEY,
        placeholder="None: any order that works",
        format_func=plain,
        on_change=visit_session.pin_as_chosen,
    )


def show_visit_picture(plan: VisitPlan, visit: Visit) -> None:
    """All lines on the frame, seen from the side."""
    wide, narrow = (draw_visit(plan, visit, width_mm=width_mm, is_bare=True) for width_mm in (WIDE_MM, NARROW_MM))
    show_picture(wide, narrow=narrow, key="visit_side_view")


def show_shared_holes(plan: VisitPlan) -> None:
    """Who lies in each shared hole, before the work and after every step."""
    wide, narrow = (draw_visit_strips(plan, width_mm=width_mm) for width_mm in (180.0, NARROW_MM))
    for place_id, strip in wide.items():
        show_picture(strip, narrow=narrow[place_id], key=f"strip_{place_id}")
    if not wide:
        st.caption("No hole is shared by two lines at any moment." if plan.order else "There is no order to show.")
