"""Tell a job question by question, as `lineplan new job` does: only parts that belong together are offered."""

from typing import Any

import streamlit as st

from catalog import job_from_fields, without_notes
from planner import in_markdown as plain
from ui.page import session, told_here
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.job_opener import open_job
from ui.page.forms.questions_form import ask_questions
from ui.page.views.halves import show_halves
from ui.page.views.nothing_yet import show_no_frames
from ui.page.views.problem_view import catalog_or_stop
from ui.page.views.route_view import show_frame
from ui.shared.dialogue.job_questions import job_script
from ui.shared.dialogue.told_files import job_text, wrong_with_job

take_up(told_here.JOB_FORM)
with st.container(horizontal=True, vertical_alignment="center"):
    st.title("New job", anchor=False)
    steps_back = st.container(horizontal=True, width="content")
catalog = catalog_or_stop()
if not catalog.frames:
    show_no_frames()
    st.stop()
st.markdown("Only parts that belong together are offered. Grey words in a field are taken where it stays empty.")
asked, seen = show_halves()
with asked:
    if told_here.frame_told_here() in catalog.frames:
        session.start_choice(f"{session.NEW_JOB}frame", told_here.frame_told_here())
    found = ask_questions(lambda: job_script(catalog), prefix=session.NEW_JOB)
    st.button("Start again with nothing told", icon=":material/restart_alt:", on_click=told_here.forget_new_job)
keep(told_here.JOB_FORM)
with steps_back:
    show_steps_back(told_here.JOB_FORM)
with seen:
    frame_id: Any = next((answer.value for answer in found.answers if answer.question.key == "frame"), None)
    if frame_id in catalog.frames:
        show_frame(catalog.frames[frame_id])
    if found.next is not None or found.told is None:
        st.info(plain(f"Next: {found.next.asks if found.next else ''}"), icon=":material/edit:")
        st.stop()
    problems = list(wrong_with_job(found.told, catalog))
    for problem in problems:
        st.error(plain(problem), icon=":material/error:")
    file = f"{found.told['id']}.job.yaml"
    st.download_button("Job (YAML)", job_text(found.told), file, "application/yaml", on_click="ignore")
    if not problems and st.button("Plan this job", type="primary"):
        open_job(job_from_fields(without_notes(found.told), catalog))
        st.switch_page("screens/plan_a_job.py")
