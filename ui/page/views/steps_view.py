"""Show what to have on the bench, what can hurt, and the work step by step."""

from collections.abc import Sequence

import streamlit as st

from planner import (
    RoutingPlan,
    Step,
    bench_rows,
    caution_letters,
    rescue_sheet,
    step_with_rescue,
    steps_by_part,
    told_first,
    whole_minutes,
)
from planner import in_markdown as plain
from ui.page.views.markup import safe, show_markup

_SIGN = '<span class="lp-icon">warning</span>'
"""Seen as a triangle, read out as the word."""


def show_steps(plan: RoutingPlan) -> None:
    """Parts, cautions and numbered steps."""
    if rows := bench_rows(plan):
        st.markdown("\n\n".join(f"**{name}:** {plain(words)}" for name, words in rows))
    letters = caution_letters(plan)
    if plan.cautions:
        told = "\n".join(f"- **{letters[caution]}** {plain(caution)}" for caution in plan.cautions)
        st.warning(f"**What can hurt**\n{told}")
    if not plan.steps:
        st.caption("No steps: there is no plan to work from.")
        return
    pieces: list[str] = []
    if plan.options:
        minutes = whole_minutes(plan.options[0].work_min)
        pieces.append(f"<p>About <strong>{minutes} min</strong>, repeats of what fails counted.</p>")
    for title, steps in steps_by_part(plan):
        pieces.append(f"<h3>{safe(title)}</h3>")
        for step in steps:
            pieces.append(_step_words(plan, step, letters))
            if step is step_with_rescue(plan):
                _show_pieces(pieces)
                pieces = []
                _show_rescue(plan)
    _show_pieces(pieces)


def _show_pieces(pieces: Sequence[str]) -> None:
    """In one piece, and no Markdown: a browser takes long to read so much of it at every change."""
    if pieces:
        show_markup(f'<div class="lp-work">{"".join(pieces)}</div>')


def _show_rescue(plan: RoutingPlan) -> None:
    with st.expander("When it sticks or parts"):
        pieces = []
        for title, told in rescue_sheet(plan):
            pieces.append(f"**{title}**")
            pieces += ["  \n".join((f"{words}:", *map(plain, texts))) for words, texts in told]
        st.markdown("\n\n".join(pieces))


def _step_words(plan: RoutingPlan, step: Step, letters: dict[str, str]) -> str:
    first = told_first(plan, step)
    again = [letters[caution] for caution in step.cautions if caution not in first]
    told = f"{step.n}. {safe(step.text)}"
    told += f" {_SIGN} <strong>{', '.join(again)}</strong>" if again else ""
    told += f"<br><small>{safe(step.why)}</small>" if step.why else ""
    told += "".join(f"<br>{_SIGN} <strong>{letters[caution]}</strong> {safe(caution)}" for caution in first)
    return f"<p>{told}</p>"
