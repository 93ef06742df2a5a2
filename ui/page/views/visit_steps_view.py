"""Show the one work order of a visit: what is shared stands once, each step says for which lines it is done."""

from itertools import groupby

import streamlit as st

from planner import PART_TITLES, ToldStep, VisitPlan, needs_of_visit, time_words, told_steps
from ui.page.views.markup import safe
from ui.page.views.steps_view import (
    caution_words,
    show_bench_rows,
    show_what_can_hurt,
    show_work,
    step_words,
    title_words,
)


def show_visit_steps(plan: VisitPlan) -> None:
    """What to have ready, what can hurt, and the steps of all lines together."""
    if not plan.steps or plan.totals is None:
        st.caption("No steps: there is no plan to work from.")
        return
    parts = " · ".join(f"{part.quantity} × {part.name}" for part in plan.totals.parts)
    rows = (("Have ready", parts), ("Also needed", " · ".join(needs_of_visit(plan))))
    show_bench_rows([row for row in rows if row[1]])
    show_what_can_hurt([("", caution) for caution in plan.cautions])
    pieces = [f"<p>{safe(time_words(plan.totals))}, repeats of what fails counted.</p>"]
    for part, steps in groupby(told_steps(plan), key=lambda row: row.step.part):
        pieces += [title_words(PART_TITLES[part]), *map(_row_words, steps)]
    show_work(pieces)


def _row_words(row: ToldStep) -> str:
    told = f"{row.numbers}. <strong>{safe(row.whose)}:</strong> {safe(row.step.text)}"
    return step_words(told, why=row.step.why, cautions=[caution_words(caution) for caution in row.cautions])
