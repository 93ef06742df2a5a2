"""Show what was not accepted: every problem at once, each with its place, what was given and what is allowed."""

from collections.abc import Sequence
from pathlib import Path

import streamlit as st

from catalog import MOST_TOLD, Catalog, CatalogError, EntryNotAccepted, Problem
from planner import in_markdown as plain
from planner.errors import PlannerError
from ui.page import session


def show_refusal(refusal: CatalogError | PlannerError) -> None:
    """Whatever the catalog or the planner refused, in sentences."""
    if isinstance(refusal, EntryNotAccepted):
        show_problems(refusal.problems)
    else:
        st.error(plain(str(refusal)), icon=":material/error:")


def catalog_or_stop() -> Catalog:
    """The catalog in use; where its files are not accepted, why, and the rest of the screen is left out."""
    try:
        return session.catalog_in_use()
    except CatalogError as refusal:
        show_refusal(refusal)
        st.stop()


def show_problems(problems: Sequence[Problem]) -> None:
    """A count, then one paragraph for each problem."""
    count = len(problems)
    st.error("One thing is not right." if count == 1 else f"{count} things are not right.", icon=":material/error:")
    _show_each(problems)


def show_questions(questions: Sequence[Problem]) -> None:
    """What is likely a slip though nothing is wrong: a count, then one paragraph for each; nothing for none."""
    count = len(questions)
    if count:
        told = "One thing to look at once more" if count == 1 else f"{count} things to look at once more"
        st.warning(f"{told}: was that meant?", icon=":material/help:")
        _show_each(questions)


def _show_each(problems: Sequence[Problem]) -> None:
    count = len(problems)
    for problem in problems[:MOST_TOLD]:
        file = Path(problem.file).name
        where = f"{file}, line {problem.line}" if problem.line else file
        about = f"{problem.thing} › {problem.field}" if problem.field else problem.thing
        allowed = f"  \n{plain(problem.allowed)}" if problem.allowed else ""
        st.markdown(f"**{plain(about)}** ({plain(where)})  \n{plain(problem.given)}{allowed}")
    if count > MOST_TOLD:
        st.markdown(f"... and {count - MOST_TOLD} more")
