"""The entry that is edited: as it was opened, as it is now, kept as a draft with steps back."""

from collections.abc import Mapping
from typing import Any

from catalog import NotInStore, Store
from ui.page import session
from ui.page.drafts import Form
from ui.page.forms.entry_form import PREFIX

OPEN = "entry_open"
"""Under which name the edited entry is held: kind, id, value, based_on, turn."""


def edited() -> dict[str, Any] | None:
    """The entry that is edited; None where none is."""
    found: dict[str, Any] | None = session.held(OPEN)
    return found


def open_entry(store: Store, kind: str, id: str) -> None:
    """Begin to edit an entry as it is in the store now."""
    revision = store.documents.current(kind, id)
    _begin(kind, id, revision.content, based_on=revision.pin.revision)


def open_new(kind: str, value: Mapping[str, Any]) -> None:
    """Begin to edit an entry that is not in the store yet."""
    _begin(kind, "", value, based_on=None)


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
    """No entry is edited any more."""
    session.let_go(OPEN)
    session.let_go("draft_entry")
    session.forget_beginning(PREFIX)


def is_in_store(store: Store, kind: str, id: str) -> bool:
    """Whether there is such an entry, in use or not."""
    try:
        store.documents.current(kind, id)
    except NotInStore:
        return False
    return True


def _begin(kind: str, id: str, value: Mapping[str, Any], *, based_on: int | None) -> None:
    turn = (edited() or {"turn": 0})["turn"] + 1
    close_entry()
    session.hold(
        OPEN, {"kind": kind, "id": id, "value": dict(value), "based_on": based_on, "turn": turn, "opened": dict(value)}
    )


def _shown() -> dict[str, Any]:
    now = edited()
    if now is None:
        return {}
    return {name: now[name] for name in ("kind", "id", "value", "based_on", "opened")}


def _put(content: Mapping[str, Any]) -> None:
    turn = (edited() or {"turn": 0})["turn"] + 1
    session.hold(OPEN, {**content, "turn": turn})


def _title() -> str:
    now = edited() or {}
    return f"{now.get('kind', '')} {now.get('value', {}).get('id', '')}".strip()


ENTRY_FORM = Form(name="entry", shown=_shown, put=_put, title=_title)
