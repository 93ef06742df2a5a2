"""The entry that is edited: as it was opened, as it is now, kept as a draft with steps back.

An entry of the store has one draft of its own, from the first change until it is saved or left: whoever changes it next
finds what was typed.
"""

from collections.abc import Mapping
from typing import Any

from catalog import NotInStore, Store
from ui.page import session
from ui.page.draft_form import Form, is_begun, own_draft
from ui.page.drafts import put_away, take_up_own
from ui.page.forms.entry_form import PREFIX

OPEN = "entry_open"
"""Under which name the edited entry is held: kind, id, value, based_on, turn, opened, is_taken_up."""

NOTE = "choice_place_entry_note"
"""Key of the field for why it is changed, kept with it."""

_NAME = "entry"


def edited() -> dict[str, Any] | None:
    """The entry that is edited; None where none is."""
    found: dict[str, Any] | None = session.held(OPEN)
    return found


def open_entry(store: Store, kind: str, id: str) -> None:
    """Edit an entry as it is in the store now, or go on with changes that were begun and not saved."""
    revision = store.documents.current(kind, id)
    _open(kind, id, revision.content, based_on=revision.pin.revision)


def open_new(kind: str, value: Mapping[str, Any]) -> None:
    """Begin to edit an entry that is not in the store yet."""
    _open(kind, "", value, based_on=None)


def go_on_from(store: Store) -> None:
    """The entry says what the store has of it now; what was changed here can be taken back."""
    now = edited()
    if now is not None:
        revision = store.documents.current(now["kind"], now["id"])
        change(revision.content, by_hand=False)
        held = {**(edited() or now), "opened": dict(revision.content), "based_on": revision.pin.revision}
        session.hold(OPEN, held)


def change(value: Mapping[str, Any], *, by_hand: bool) -> None:
    """The entry says this now.

    by_hand : whether its fields show that already
    """
    now = edited()
    if now is not None:
        turn = now["turn"] if by_hand else now["turn"] + 1
        session.hold(OPEN, {**now, "value": dict(value), "turn": turn})
        if not by_hand:
            session.forget_beginning(f"{PREFIX}{now['turn']}_")


def rebase(revision: int) -> None:
    """What is saved next takes the place of this revision."""
    now = edited()
    if now is not None:
        session.hold(OPEN, {**now, "based_on": revision})


def close_entry() -> None:
    """No entry is edited any more, and nothing is kept of what was changed of it."""
    put_away(entry_form())
    _let_go()


def is_in_store(store: Store, kind: str, id: str) -> bool:
    """Whether there is such an entry, in use or not."""
    try:
        store.documents.current(kind, id)
    except NotInStore:
        return False
    return True


def entry_form() -> Form:
    """The form of the entry that is edited; where none is, of whatever the address names."""
    now, own, blank = edited(), "", None
    if now is not None:
        id = now["id"] or ("shop" if now["kind"] == "shop" else "")
        own = own_draft(_NAME, now["kind"], id) if id else ""
        blank = {**_content(now), "value": now["opened"]}
    return Form(name=_NAME, shown=_shown, put=_put, title=_title, lasting=("note",), own=own, blank=blank)


def _open(kind: str, id: str, value: Mapping[str, Any], *, based_on: int | None) -> None:
    _begin(kind, id, value, based_on=based_on)
    if not take_up_own(entry_form()):
        return
    taken_up = edited() or {}
    if taken_up["value"] == taken_up["opened"]:  # everything was taken back before it was left
        put_away(entry_form())
        _begin(kind, id, value, based_on=based_on)
    else:
        session.hold(OPEN, {**taken_up, "is_taken_up": True})


def _begin(kind: str, id: str, value: Mapping[str, Any], *, based_on: int | None) -> None:
    turn = _next_turn()
    _let_go()
    session.hold(
        OPEN, {"kind": kind, "id": id, "value": dict(value), "based_on": based_on, "turn": turn, "opened": dict(value)}
    )


def _let_go() -> None:
    session.let_go(OPEN)
    session.let_go(f"draft_{_NAME}")
    session.forget_beginning(PREFIX)
    session.forget_choice(NOTE)


def _next_turn() -> int:
    return int((edited() or {"turn": 0})["turn"]) + 1


def _shown() -> dict[str, Any]:
    now = edited()
    if now is None or not (now["value"] != now["opened"] or session.chosen(NOTE) or is_begun(_NAME)):
        return {}
    return _content(now)


def _content(now: Mapping[str, Any]) -> dict[str, Any]:
    content = {name: now[name] for name in ("kind", "id", "value", "based_on", "opened")}
    note = session.chosen(NOTE)
    return {**content, "note": note} if note else content


def _put(content: Mapping[str, Any]) -> None:
    told = {name: value for name, value in content.items() if name != "note"}
    session.hold(OPEN, {**told, "turn": _next_turn()})
    session.put_choices({NOTE: content.get("note", "")})


def _title() -> str:
    now = edited() or {"value": {}}
    return f"{now.get('kind', '')} {now['value'].get('name') or now['value'].get('id', '')}".strip()[:200]
