"""The quick question: an opening, a tilt, a wall and round things; does it pass?"""

import streamlit as st

from catalog import CatalogError
from planner import in_markdown as plain
from planner.errors import PlannerError
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.fit_form import FIT_FORM, ask_question
from ui.page.views.fit_view import show_answer
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.shared.fit_question import find_answer, find_problems

take_up(FIT_FORM)
with st.container(horizontal=True, vertical_alignment="center"):
    st.title("Will it pass?", anchor=False)
    steps_back = st.container(horizontal=True, width="content")
st.markdown("Round things side by side through one hole, as in an internally routed frame.")
question = ask_question()
keep(FIT_FORM)
with steps_back:
    show_steps_back(FIT_FORM)
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
