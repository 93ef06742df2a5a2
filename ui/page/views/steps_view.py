"""Show what to have on the bench, what can hurt, and the work step by step."""

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
        pieces.append(f"About **{whole_minutes(plan.options[0].work_min)} min**, repeats of what fails counted.")
    for title, steps in steps_by_part(plan):
        pieces.append(f"**{title}**")
        for step in steps:
            pieces.append(_step_words(plan, step, letters))
            if step is step_with_rescue(plan):
                st.markdown("\n\n".join(pieces))  # in one piece: each piece costs the browser time at every change
                pieces = []
                _show_rescue(plan)
    if pieces:
        st.markdown("\n\n".join(pieces))


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
    told = f"{step.n}\\. {plain(step.text)}"
    told += f" :material/warning: **{', '.join(again)}**" if again else ""
    told += f"  \n:small[{plain(step.why)}]" if step.why else ""
    return told + "".join(f"  \n:material/warning: **{letters[caution]}** {plain(caution)}" for caution in first)
