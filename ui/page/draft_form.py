"""What a form tells so that it can be kept as a draft: its name, what it shows, and where its draft is named."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from hashlib import sha256
from typing import Any

from ui.page import session

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
    own : id of its draft, where what it is about has one, whatever window it is filled in; "" for a new one each time
    is_beside : whether it always stands on the page of what it is about, where its own draft is shown unnamed; what
        the address names otherwise is what is being filled in, one at a time
    blank : what it showed before the first thing was typed, which can then be taken back; None where a draft begins
        before anything is typed
    usual : what choices show that nobody has made, by their keys; only of a form of plain choices
    """

    name: str
    shown: Callable[[], dict[str, Any]]
    put: Callable[[Mapping[str, Any]], None]
    title: Callable[[], str]
    lasting: tuple[str, ...] = ()
    own: str = ""
    is_beside: bool = False
    blank: Mapping[str, Any] | None = None
    usual: Mapping[str, Any] = field(default_factory=dict)

    @property
    def key(self) -> str:
        """Under which name its draft is held in this window."""
        return f"{self.name}{self.own}" if self.is_beside else self.name

    @property
    def address(self) -> str:
        """Under which name its draft stands in the address: several forms beside each other have one each."""
        return f"{ADDRESS}_{self.name}" if self.is_beside else ADDRESS


def own_draft(what: str, *of: str) -> str:
    """Id of the draft that a form of this kind has for this very thing.

    of : words that tell the thing apart from all others
    """
    return f"{what}-{sha256(chr(0).join(of).encode()).hexdigest()[:24]}"


def is_begun(key: str) -> bool:
    """Whether a draft is held in this window for the form with this key."""
    return session.held(f"draft_{key}") is not None


def form_of_choices(
    name: str,
    *,
    prefix: str,
    title: str,
    usual: Mapping[str, Any] | None = None,
    own: str = "",
    is_beside: bool = False,
) -> Form:
    """A form of plain choices, whose keys all begin so.

    usual : what choices show that nobody has made, by their keys; those not named show nothing then
    own, is_beside : as with every form
    """
    starts = usual or {}

    def shown() -> dict[str, Any]:
        found = session.choices_beginning(prefix)
        is_typed = any(value != starts[key] if key in starts else value not in _NOTHING for key, value in found.items())
        return {"choices": found} if is_typed or is_begun(form.key) else {}

    def put(content: Mapping[str, Any]) -> None:
        session.forget_beginning(prefix)
        session.put_choices(content["choices"])

    blank = None if usual is None and not own else {"choices": dict(starts)}
    form = Form(
        name=name, shown=shown, put=put, title=lambda: title, own=own, is_beside=is_beside, blank=blank, usual=starts
    )
    return form


_NOTHING: tuple[object, ...] = (None, "", [], False)
"""What a choice shows that nobody has made."""
