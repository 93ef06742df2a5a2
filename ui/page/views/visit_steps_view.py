"""Show the one work order of a visit: what is shared stands once, each step says for which lines it is done."""

from itertools import groupby

import streamlit as st

from planner import PART_TITLES, ToldStep, VisitPlan, needs_of_visit, time_words, told_steps
from planner import in_markdown as plain


def show_visit_steps(plan: VisitPlan) -> None:
    """What to have ready, what can hurt, and the steps of all lines together."""
    if not plan.steps or plan.totals is None:
        st.caption("No steps: there is no plan to work from.")
        return
    parts = " · ".join(f"{part.quantity} × {part.name}" for part in plan.totals.parts)
    rows = (("Have ready", parts), ("Also needed", " · ".join(needs_of_visit(plan))))
    if ready := [f"**{name}:** {plain(words)}" for name, words in rows if words]:
        st.markdown("\n\n".join(ready))
    if plan.cautions:
        told = "\n".join(f"- {plain(caution)}" for caution in plan.cautions)
        st.warning(f"**What can hurt**\n{told}")
    pieces = [f"{plain(time_words(plan.totals))}, repeats of what fails counted."]
    for part, steps in groupby(told_steps(plan), key=lambda row: row.step.part):
        pieces += [f"**{PART_TITLES[part]}**", *map(_row_words, steps)]
    st.markdown("\n\n".join(pieces))


def _row_words(row: ToldStep) -> str:
    words = f"{row.numbers}\\. **{plain(row.whose)}:** {plain(row.step.text)}"
    words += f"  \n:small[{plain(row.step.why)}]" if row.step.why else ""
    return words + "".join(f"  \n:material/warning: {plain(caution)}" for caution in row.cautions)
