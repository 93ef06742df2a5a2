"""Ask under which name a job is kept, for whom and why, and keep it with its plan and its catalog."""

from collections.abc import Mapping
from typing import Any

import streamlit as st

from catalog import CatalogError, Store, job_file_text
from planner import in_markdown as plain
from planner.errors import PlannerError
from ui.page import kept, session, typed_beside
from ui.page.catalog_source import choice_in_use
from ui.page.forms.name_field import ask_who
from ui.page.uploads import Upload, files_on_disk
from ui.page.views.problem_view import show_refusal
from ui.shared.catalog_choice import CatalogChoice
from ui.shared.job_keeping import KeptJob, KeptMeanwhile, SaveQuestion, keep_job
from ui.shared.store_place import page_store_place

SAVE_KEY = "save_the_job"
"""Key of the place behind which this form is folded; true in the session while it is open."""

SAVED = "saved_words"
"""Under which name it is held what was kept last, to be told once."""


def show_save_button(fields: Mapping[str, Any], *, saved_as: str = session.SAVED_AS) -> None:
    """The form behind a button, drawn only while it is open.

    saved_as : under which name it is held what the store has of it
    """
    close_once_saved()
    save = st.popover("Save", icon=":material/save:", key=SAVE_KEY, on_change="rerun")
    if save.open:
        with save:
            show_save_form(fields, saved_as=saved_as)


def close_once_saved() -> None:
    """Fold the form away where something was just kept, which is told beside the answer; before either is drawn."""
    if session.held(SAVED):
        session.put_choices({SAVE_KEY: False})


def show_save_form(fields: Mapping[str, Any], *, saved_as: str = session.SAVED_AS) -> None:
    """Name, owner and reason, with the button that keeps the job; what is in the way is told above it."""
    if why := kept.why_nothing_is_kept():
        st.error(plain(why), icon=":material/error:")
        return
    before = session.held(saved_as) or {}
    begins = f"{_begins(saved_as)}{fields['id']}|"
    id = _ask("Kept under", before.get("id", fields["id"]), key=f"{begins}id", most=120)
    title = _ask("Title", fields["title"], key=f"{begins}title", most=200)
    for_whom = _ask("For whom", before.get("for_whom", ""), key=f"{begins}for", most=200)
    note = _ask("Why, for the history", "", key=f"{begins}note", most=500)
    by = ask_who(key=f"save_{fields['id']}_by")
    named = {**fields, "id": id.strip(), "title": title.strip()}
    over = before.get("version") if before.get("id") == named["id"] else None
    if st.button("Save the job and its plan", type="primary", icon=":material/save:", disabled=not by):
        _save(named, saved_as, over=over, by=by, for_whom=for_whom.strip(), note=note)
    _show_clash(named, saved_as, by=by, for_whom=for_whom.strip(), note=note)


def _begins(saved_as: str) -> str:
    """How the keys of its fields begin, which are kept with the draft of the job."""
    return f"{typed_beside.prefix_of(is_visit=saved_as == session.VISIT_SAVED_AS)}save|"


def _ask(label: str, start: str, *, key: str, most: int) -> str:
    typed_beside.start(key, start)
    return st.text_input(label, key=key, max_chars=most) or ""


def show_saved() -> None:
    """What was just kept, once, with the way to it."""
    told = session.held(SAVED)
    if told:
        session.let_go(SAVED)
        st.success(plain(told["words"]), icon=":material/check_circle:")
        st.page_link("screens/jobs.py", label="Show it among the jobs", query_params={"job": told["id"]})


def keep_fields(fields: Mapping[str, Any], *, over: int | None, by: str, for_whom: str | None, note: str) -> KeptJob:
    """Keep a job with its plan, and read in the catalog it rests on where that is not the store's."""
    text = job_file_text(fields).encode("utf-8")
    with choice_in_use() as choice, files_on_disk([Upload(name=f"{fields['id']}.job.yaml", content=text)]) as paths:
        path = str(next(iter(paths)))
        question = SaveQuestion(asked=path, choice=choice, by=by, for_whom=for_whom, note=note, over=over)
        return keep_job(kept.store(), question, by=by)


def keep_saved_again(store: Store, name: str, *, by: str) -> None:
    """Plan a saved job with the store's catalog as it is now, and keep that plan."""
    choice = CatalogChoice(place=page_store_place())
    keep_job(store, SaveQuestion(asked=name, choice=choice, by=by, for_whom=None, note="", over=None), by=by)


def _save(fields: Mapping[str, Any], saved_as: str, *, over: int | None, by: str, for_whom: str, note: str) -> None:
    session.let_go("clash")
    try:
        with st.spinner("Saving"):
            done = keep_fields(fields, over=over, by=by, for_whom=for_whom, note=note)
    except KeptMeanwhile as clash:
        session.hold("clash", clash)
        return
    except (CatalogError, PlannerError) as refusal:
        show_refusal(refusal)
        return
    job = done.job
    session.hold(saved_as, {"id": job.id, "version": job.version, "for_whom": job.for_whom})
    news = f"version {job.version}" if done.is_new_job else f"version {job.version}, unchanged"
    words = f"Kept: {job.title} ({job.id}, {news}), with plan {done.plan.id}."
    session.hold(SAVED, {"id": job.id, "words": words})
    session.forget_beginning(_begins(saved_as))
    st.rerun()


def _show_clash(fields: Mapping[str, Any], saved_as: str, *, by: str, for_whom: str, note: str) -> None:
    """Somebody else's version of the job, and the two ways on: neither is lost."""
    clash = session.held("clash")
    if clash is None:
        return
    who = f" by {clash.saved_by}" if clash.saved_by else ""
    told = (
        f"The store has version {clash.version} of {fields['id']}, kept{who}. Here it is: {'; '.join(clash.changed)}."
    )
    st.warning(plain(told), icon=":material/sync_problem:")
    st.caption("Save over it: theirs stays in the history. Or keep yours under another name, above.")
    if st.button("Save over it", key="save_over"):
        _save(fields, saved_as, over=clash.version, by=by, for_whom=for_whom, note=note)
