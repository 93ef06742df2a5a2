"""Tell a frame hole by hole: the questions of `lineplan new frame` as a form, with the holes drawn beside it."""

import streamlit as st

from catalog import CatalogError
from planner import in_markdown as plain
from ui.page import session, told_here
from ui.page.drafts import keep, show_steps_back, take_up
from ui.page.forms.photo_form import ask_photo
from ui.page.forms.questions_form import ask_questions
from ui.page.uploads import Upload
from ui.page.views.halves import show_halves
from ui.page.views.problem_view import catalog_or_stop, show_refusal
from ui.page.views.route_view import show_frame
from ui.shared.dialogue.draft_frame import draft_of
from ui.shared.dialogue.frame_fields import frame_entry, unknown_words
from ui.shared.dialogue.frame_questions import frame_script
from ui.shared.dialogue.told_files import frame_text, wrong_with_frame


def _plan_with(name: str, text: str, *, frame_id: str) -> None:
    try:
        session.use_uploads([Upload(name=name, content=text.encode("utf-8"))], is_beside_first=True)
    except CatalogError as refusal:
        show_refusal(refusal)
        return
    session.start_choice("choice_frame", frame_id)
    st.switch_page("screens/plan_a_job.py")


take_up(told_here.FRAME_FORM)
with st.container(horizontal=True, vertical_alignment="center"):
    st.title("New frame", anchor=False)
    steps_back = st.container(horizontal=True, width="content")
catalog = catalog_or_stop()
st.markdown("Tell the holes from the lever to the caliper. Grey words in a field are taken where it stays empty.")
asked, seen = show_halves()
photographed = st.container()  # as wide as the window: points are set on it
with asked:
    known = tuple(one for one in catalog.frames if one != told_here.frame_told_here())
    found = ask_questions(lambda: frame_script(known_ids=known), prefix=session.NEW_FRAME)
    count = next((answer.value for answer in found.answers if answer.question.key == "holes"), 0)
with photographed:
    ask_photo(hole_count=count)
    st.button("Start again with nothing told", icon=":material/restart_alt:", on_click=told_here.forget_new_frame)
keep(told_here.FRAME_FORM)
with steps_back:
    show_steps_back(told_here.FRAME_FORM)
with seen:
    draft = draft_of({answer.question.key: answer for answer in found.answers})
    if draft is not None:
        show_frame(draft)
    if found.next is not None or found.told is None:
        st.info(plain(f"Next: {found.next.asks if found.next else ''}"), icon=":material/edit:")
        st.stop()
    entry = frame_entry(found.told)
    text, name = frame_text(entry), f"{entry['id']}.frame.yaml"
    problems = list(wrong_with_frame(entry))
    for problem in problems:
        st.error(plain(problem), icon=":material/error:")
    if unknown := unknown_words(found.told):
        st.markdown("**Still unknown**\n" + "\n".join(f"- {plain(words)}" for words in unknown))
    st.download_button("Frame (YAML)", text, name, "application/yaml", on_click="ignore")
    if not problems and st.button("Plan with this frame", type="primary"):
        told_here.remember_told_here(entry["id"])
        _plan_with(name, text, frame_id=entry["id"])
