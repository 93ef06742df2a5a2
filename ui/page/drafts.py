"""Forms kept while one types: a reload, another window and the back button lose nothing, and steps can be taken back.

The address names the draft; a form that always stands beside what it is about, such as the quote of a job, has one
under a name of its own, which is shown wherever that thing is shown. Two windows may hold one draft: a window that is
behind is told, and what is typed there goes on as a draft of its own, so that neither is lost. What was saved or put
away in another window is kept again only where somebody wants it.
"""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from secrets import token_hex
from typing import TYPE_CHECKING, Any

import streamlit as st

from catalog import CatalogError, EditConflict, NotInStore, StoredDraft
from planner import in_markdown as plain
from ui.page import kept, session
from ui.page.draft_form import Form

if TYPE_CHECKING:
    from catalog import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class _Held:
    """The draft on a form: as it was kept last, and whether the form was only just filled from it."""

    draft: StoredDraft
    text: str
    is_fresh: bool = False


def take_up(form: Form) -> None:
    """Show the draft that the address names since the last click, where the form shows another one; else its own."""
    held = _held(form)
    wanted = st.query_params.get(form.address, "") or _own_draft(form, held)
    if not wanted or wanted == _address(form) or (held is not None and held.draft.id == wanted):
        return
    store = kept.store_or_none()
    if store is None:
        return
    try:
        draft = store.drafts.get(wanted)
        if draft.form != form.name or (form.is_beside and not wanted.startswith(form.own)):
            raise NotInStore(thing=f"draft {wanted} of this form")
        _put(form, draft)
    except CatalogError as refusal:
        st.query_params.pop(form.address, None)
        told = f"Not opened: {refusal}. What was filled in may have been saved since, or put away."
        st.warning(plain(told), icon=":material/warning:")


def take_up_own(form: Form) -> bool:
    """Show the draft that a form has of its own in place of what it shows; whether there is one."""
    store = kept.store_or_none()
    if not form.own or store is None or store.drafts.version(form.own) is None:
        return False
    _put(form, store.drafts.get(form.own))
    return True


def changed_last(forms: Mapping[str, Form]) -> str:
    """The name of the form whose own draft was changed last; "" where none of them has one."""
    store = kept.store_or_none()
    if store is None:
        return ""
    begun = {
        name: store.drafts.get(form.own).changed_at
        for name, form in forms.items()
        if store.drafts.version(form.own) is not None
    }
    return max(begun, key=begun.__getitem__, default="")


def _own_draft(form: Form, held: "_Held | None") -> str:
    """The draft that a form has of its own and does not show yet; "" where there is none, or something is typed."""
    if not form.own or held is not None or form.shown():
        return ""
    store = kept.store_or_none()
    return form.own if store is not None and store.drafts.version(form.own) is not None else ""


def put_away(form: Form) -> None:
    """The form is done with: its draft is kept no more."""
    held = _held(form)
    session.let_go(f"draft_{form.key}")
    session.let_go(_other(form))
    if held is not None:
        kept.store().drafts.forget(held.draft.id)
    if st.query_params.get(form.address) == _address(form):
        _name_in_address(form, "")


def keep(form: Form) -> None:
    """Keep what the form shows now, where that is news; tell where another window has been quicker."""
    now = form.shown()
    if now and (why := kept.why_nothing_is_kept()):
        st.warning(plain(f"Nothing typed here is kept: {why}"), icon=":material/cloud_off:")
    elif now:
        _keep(form, now)
    elif st.query_params.get(form.address) == _address(form):
        _name_in_address(form, "")


def _keep(form: Form, now: dict[str, Any]) -> None:
    store, text, held = kept.store(), _text(now), _held(form)
    version = None if held is None else store.drafts.version(held.draft.id)
    if held is not None and version is None and (held.is_fresh or text == held.text):
        _hold(form, held.draft, text)
        _tell_gone(form)
        return
    if held is None or version is None:
        _begin(form, store, now)
    elif held.is_fresh:
        _hold(form, held.draft, text)  # a form fills in its defaults when it is first shown: no change of the user's
    elif text != held.text:
        _keep_change(form, store, held, now)
    elif version != held.draft.version:
        _tell_newer(form, held.draft.id)
    _tell_other(form)
    found = _held(form)
    _name_in_address(form, "" if found is None else found.draft.id)


def _begin(form: Form, store: "Store", now: dict[str, Any]) -> None:
    """A new draft; where another window has begun the form's own one meanwhile, one beside it."""
    session.let_go(_other(form))
    first = now if form.blank is None else form.blank
    save = partial(store.drafts.save, form=form.name, title=form.title())
    try:
        saved = save(form.own or _new_id(form), first)
    except EditConflict:
        saved = save(_new_id(form), first)
        session.hold(_other(form), form.own)
    if first is not now:
        saved = save(saved.id, now, based_on=saved.version)
    _hold(form, saved, _text(now))


def _new_id(form: Form) -> str:
    """Of a draft beside the one that a form has of its own, or of one that has none."""
    return f"{form.own}-{token_hex(5)}" if form.own else token_hex(5)


def _address(form: Form) -> str:
    """The draft of this form that was named in the address last."""
    return session.held(f"address_{form.key}") or ""


def _name_in_address(form: Form, draft_id: str) -> None:
    named = "" if form.is_beside and draft_id == form.own else draft_id
    session.hold(f"address_{form.key}", named)
    if not named:
        st.query_params.pop(form.address, None)
    elif st.query_params.get(form.address) != named:
        st.query_params[form.address] = named


def show_steps_back(form: Form) -> None:
    """Buttons that take the last change back, or make it again."""
    held = _held(form)
    if held is None:
        return
    for label, icon, back, can in (
        ("Undo", ":material/undo:", True, held.draft.has_before),
        ("Redo", ":material/redo:", False, held.draft.has_after),
    ):
        st.button(label, icon=icon, key=f"{form.name}_{label}", disabled=not can, on_click=_step, args=(form, back))


def _keep_change(form: Form, store: "Store", held: _Held, now: dict[str, Any]) -> None:
    draft, title = held.draft, form.title()
    amends = _without(form, now) == _without(form, json.loads(held.text))
    try:
        saved = store.drafts.save(draft.id, now, form=form.name, title=title, based_on=draft.version, amends=amends)
    except EditConflict:
        saved = store.drafts.save(_new_id(form), now, form=form.name, title=title)
        session.hold(_other(form), draft.id)
    _hold(form, saved, _text(now))


def _tell_other(form: Form) -> None:
    """That the form goes on as another draft than the one another window changed, until that was read."""
    other = session.held(_other(form))
    if not other:
        return
    told = "This form was changed in another window. What you have here goes on as a draft of its own."
    st.warning(told, icon=":material/call_split:")
    with st.container(horizontal=True):
        st.button("Show the other one", on_click=_show, args=(form, other), key=f"{form.name}_other")
        st.button("Go on with this one", on_click=session.let_go, args=(_other(form),), key=f"{form.name}_this")


def _other(form: Form) -> str:
    """Under which name it is held which draft another window changed."""
    return f"other_{form.key}"


def _without(form: Form, content: Mapping[str, Any]) -> dict[str, Any]:
    """What a step is about: all but what stays when steps are taken back."""
    return {name: value for name, value in json.loads(_text(content)).items() if name not in form.lasting}


def _tell_newer(form: Form, draft_id: str) -> None:
    st.warning("This form was changed in another window.", icon=":material/sync_problem:")
    st.button("Show the newer one", on_click=_show, args=(form, draft_id), key=f"{form.name}_newer")


def _tell_gone(form: Form) -> None:
    """That what stands here is kept no more: saved or put away is not begun again by a window that only looks."""
    _name_in_address(form, "")
    told = "What stands here was saved or put away meanwhile, and is kept again once something in it is changed."
    st.warning(told, icon=":material/sync_problem:")
    held = f"draft_{form.key}"
    st.button("Keep it as it stands", on_click=session.let_go, args=(held,), key=f"{form.name}_again")


def _step(form: Form, back: bool) -> None:
    held, drafts = _held(form), kept.store().drafts
    if held is None or drafts.version(held.draft.id) is None:
        return
    try:
        draft = drafts.step(held.draft.id, back=back, based_on=held.draft.version)
    except EditConflict:
        draft = drafts.get(held.draft.id)
    before = json.loads(held.text or "{}")
    _put(form, draft, lasting={name: before[name] for name in form.lasting if name in before})


def _show(form: Form, draft_id: str) -> None:
    """Show another draft of the form; where it is gone meanwhile, the one that is shown stays."""
    drafts = kept.store().drafts
    if drafts.version(draft_id) is None:
        session.let_go(_other(form))
        return
    _put(form, drafts.get(draft_id))
    _name_in_address(form, draft_id)


def _put(form: Form, draft: StoredDraft, *, lasting: Mapping[str, Any] | None = None) -> None:
    form.put({**draft.content, **(lasting or {})})
    if draft.id == session.held(_other(form)):
        session.let_go(_other(form))
    session.hold(f"draft_{form.key}", _Held(draft=draft, text="", is_fresh=True))


def _hold(form: Form, draft: StoredDraft, text: str) -> None:
    session.hold(f"draft_{form.key}", _Held(draft=draft, text=text))


def _held(form: Form) -> _Held | None:
    found: _Held | None = session.held(f"draft_{form.key}")
    return found


def _text(content: Mapping[str, Any]) -> str:
    return json.dumps(content, sort_keys=True)
