"""Show what to have on the bench, what can hurt, and the work step by step."""

import streamlit as st

from planner import RoutingPlan, caution_letters, need_words
from planner import in_markdown as plain


def show_steps(plan: RoutingPlan) -> None:
    """Parts, cautions and numbered steps."""
    if plan.parts:
        ready = ", ".join(f"{part.quantity} × {part.name}" for part in plan.parts)
        st.markdown(f"**Have ready:** {plain(ready)}")
    if plan.needs:
        st.markdown(f"**Also needed:** {plain('; '.join(need_words(need, names=plan.names) for need in plan.needs))}")
    letters = caution_letters(plan)
    if letters:
        told = "\n".join(f"- **{letter}** {plain(caution)}" for caution, letter in letters.items())
        st.warning(f"**What can hurt**\n{told}")
    if not plan.steps:
        st.caption("No steps: there is no plan to work from.")
        return
    least, likely, most = (
        sum(getattr(step, f"{name}_min") for step in plan.steps) for name in ("least", "likely", "most")
    )
    st.markdown(f"About **{likely:.0f} min** at the bench ({least:.0f} to {most:.0f} min).")
    for step in plan.steps:
        told = f"{step.n}\\. {plain(step.text)}"
        told += f"  \n:small[{plain(step.why)}]" if step.why else ""
        told += "".join(f"  \n:material/warning: **{letters[caution]}** {plain(caution)}" for caution in step.cautions)
        st.markdown(told)
