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
    show_bench_rows(bench_rows(plan))
    letters = caution_letters(plan)
    show_what_can_hurt([(letters[caution], caution) for caution in plan.cautions])
    if not plan.steps:
        st.caption("No steps: there is no plan to work from.")
        return
    pieces: list[str] = []
    if plan.options:
        minutes = whole_minutes(plan.options[0].work_min)
        pieces.append(f"<p>About <strong>{minutes} min</strong>, repeats of what fails counted.</p>")
    for title, steps in steps_by_part(plan):
        pieces.append(title_words(title))
        for step in steps:
            pieces.append(_lettered_words(plan, step, letters))
            if step is step_with_rescue(plan):
                show_work(pieces)
                pieces = []
                _show_rescue(plan)
    show_work(pieces)


def show_bench_rows(rows: Sequence[tuple[str, str]]) -> None:
    """What to have on the bench.

    rows : what each is called, and what it is
    """
    if rows:
        st.markdown("\n\n".join(f"**{name}:** {plain(words)}" for name, words in rows))


def show_what_can_hurt(cautions: Sequence[tuple[str, str]]) -> None:
    """Cautions that belong to no step alone.

    cautions : each with the letter that steps name it by, or ""
    """
    if cautions:
        rows = (f"- **{letter}** {plain(words)}" if letter else f"- {plain(words)}" for letter, words in cautions)
        st.warning("\n".join(("**What can hurt**", *rows)))


def show_work(pieces: Sequence[str]) -> None:
    """Steps and their titles in one piece, and no Markdown: a browser takes long to read so much of it every time."""
    if pieces:
        show_markup(f'<div class="lp-work">{"".join(pieces)}</div>')


def title_words(title: str) -> str:
    """The title of a part of the work."""
    return f"<h3>{safe(title)}</h3>"


def step_words(told: str, *, why: str, cautions: Sequence[str]) -> str:
    """One step: what is done, why, and what can hurt at it.

    told, cautions : markup already
    """
    small = f"<br><small>{safe(why)}</small>" if why else ""
    return f"<p>{told}{small}{''.join(f'<br>{caution}' for caution in cautions)}</p>"


def caution_words(caution: str, *, letter: str = "") -> str:
    """A caution at the step that tells it first.

    letter : by which later steps name it; "" where they do not
    """
    return f"{_SIGN} <strong>{letter}</strong> {safe(caution)}" if letter else f"{_SIGN} {safe(caution)}"


def _show_rescue(plan: RoutingPlan) -> None:
    with st.expander("When it sticks or parts"):
        pieces = []
        for title, told in rescue_sheet(plan):
            pieces.append(f"**{title}**")
            pieces += ["  \n".join((f"{words}:", *map(plain, texts))) for words, texts in told]
        st.markdown("\n\n".join(pieces))


def _lettered_words(plan: RoutingPlan, step: Step, letters: dict[str, str]) -> str:
    first = told_first(plan, step)
    again = [letters[caution] for caution in step.cautions if caution not in first]
    told = f"{step.n}. {safe(step.text)}"
    told += f" {_SIGN} <strong>{', '.join(again)}</strong>" if again else ""
    cautions = [caution_words(caution, letter=letters[caution]) for caution in first]
    return step_words(told, why=step.why, cautions=cautions)
