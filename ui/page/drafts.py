"""Forms kept while one types: a reload, another window and the back button lose nothing, and steps can be taken back.

The address names the draft. Two windows may hold one: a window that is behind is told, and what is typed there goes on
as a draft of its own, so that neither is lost.
"""

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from secrets import token_hex
from typing import TYPE_CHECKING, Any

import streamlit as st

from catalog import CatalogError, EditConflict, NotInStore, StoredDraft
from planner import in_markdown as plain
from ui.page import kept, session

if TYPE_CHECKING:
    from catalog import Store

ADDRESS = "draft"
"""Names the draft in the address."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """A form that is kept.

    name : what it is called in the store
    shown : what it shows now, as plain values; empty where nothing is chosen yet
    put : shows something else on it
    title : what people call it
    lasting : fields of what it shows that stay when a step is taken back
    own : id of its draft, where it has one of its own whatever window it is filled in; "" for a new one each time
    blank : what it showed before the first thing was typed, which can then be taken back; None where a draft begins
        before anything is typed
    """

    name: str
    shown: Callable[[], dict[str, Any]]
    put: Callable[[Mapping[str, Any]], None]
    title: Callable[[], str]
    lasting: tuple[str, ...] = ()
    own: str = ""
    blank: Mapping[str, Any] | None = None

    @property
    def key(self) -> str:
        """Under which name its draft is held in this window."""
        return f"{self.name}{self.own}"


def form_of_choices(name: str, *, prefix: str, title: str) -> Form:
    """A form of plain choices, whose keys all begin so."""

    def shown() -> dict[str, Any]:
        found = session.choices_beginning(prefix)
        return {"choices": found} if any(value not in _NOTHING for value in found.values()) else {}

    def put(content: Mapping[str, Any]) -> None:
        session.forget_beginning(prefix)
        session.put_choices(content["choices"])

    return Form(name=name, shown=shown, put=put, title=lambda: title)


_NOTHING: tuple[object, ...] = (None, "", [], False)
"""What a choice shows that nobody has made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class _Held:
    """The draft on a form: as it was kept last, and whether the form was only just filled from it."""

    draft: StoredDraft
    text: str
    is_fresh: bool = False


def is_draft_named() -> bool:
    """Whether the address names a draft of any form."""
    return ADDRESS in st.query_params


def take_up(form: Form) -> None:
    """Show the draft that the address names since the last click, where the form shows another one; else its own."""
    held = _held(form)
    wanted = st.query_params.get(ADDRESS, "") or _own_draft(form, held)
    if not wanted or wanted == _address(form) or (held is not None and held.draft.id == wanted):
        return
    store = kept.store_or_none()
    if store is None:
        return
    try:
        draft = store.drafts.get(wanted)
        if draft.form != form.name:
            raise NotInStore(thing=f"draft {wanted} of this form")
        _put(form, draft)
    except CatalogError as refusal:
        st.query_params.pop(ADDRESS, None)
        st.warning(plain(f"Not opened: {refusal}"), icon=":material/warning:")


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
    if st.query_params.get(ADDRESS) == _address(form):
        _name_in_address(form, "")


def keep(form: Form) -> None:
    """Keep what the form shows now, where that is news; tell where another window has been quicker."""
    now = form.shown()
    if now and (why := kept.why_nothing_is_kept()):
        st.warning(plain(f"Nothing typed here is kept: {why}"), icon=":material/cloud_off:")
    elif now:
        _keep(form, now)
    elif st.query_params.get(ADDRESS) == _address(form):
        _name_in_address(form, "")


def _keep(form: Form, now: dict[str, Any]) -> None:
    store, text, held = kept.store(), _text(now), _held(form)
    version = None if held is None else store.drafts.version(held.draft.id)
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
        saved = save(form.own or token_hex(5), first)
    except EditConflict:
        saved = save(token_hex(5), first)
        session.hold(_other(form), form.own)
    if first is not now:
        saved = save(saved.id, now, based_on=saved.version)
    _hold(form, saved, _text(now))


def _address(form: Form) -> str:
    """The draft of this form that was named in the address last."""
    return session.held(f"address_{form.key}") or ""


def _name_in_address(form: Form, draft_id: str) -> None:
    session.hold(f"address_{form.key}", draft_id)
    if not draft_id:
        st.query_params.pop(ADDRESS, None)
    elif st.query_params.get(ADDRESS) != draft_id:
        st.query_params[ADDRESS] = draft_id


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
        saved = store.drafts.save(token_hex(5), now, form=form.name, title=title)
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


def _step(form: Form, back: bool) -> None:
    held = _held(form)
    if held is None:
        return
    drafts = kept.store().drafts
    try:
        draft = drafts.step(held.draft.id, back=back, based_on=held.draft.version)
    except EditConflict:
        draft = drafts.get(held.draft.id)
    before = json.loads(held.text or "{}")
    _put(form, draft, lasting={name: before[name] for name in form.lasting if name in before})


def _show(form: Form, draft_id: str) -> None:
    _put(form, kept.store().drafts.get(draft_id))
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
