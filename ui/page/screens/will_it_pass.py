"""The quick question: an opening, a tilt, a wall and round things; does it pass?"""

import streamlit as st

from catalog import CatalogError
from planner import in_markdown as plain
from planner.errors import PlannerError
from ui.page.forms.fit_form import ask_question
from ui.page.views.fit_view import show_answer
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.shared.fit_question import find_answer, find_problems

st.title("Will it pass?")
st.markdown("Round things side by side through one hole, as in an internally routed frame.")
question = ask_question()
if isinstance(question, str):
    st.info(question, icon=":material/arrow_upward:")
    st.stop()
catalog = catalog_or_stop()
try:
    problems = list(find_problems(question, catalog))
    answer = None if problems else find_answer(question, catalog)
except (CatalogError, PlannerError) as refusal:
    show_refusal(refusal)
    st.stop()
for problem in problems:
    st.error(plain(problem.removeprefix("fit > ")), icon=":material/error:")
if answer is not None:
    show_answer(question, answer)
