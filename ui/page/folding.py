"""The job's form folded away behind a button, so that its answer comes first."""

from dataclasses import dataclass
from typing import Any

from ui.page import session


@dataclass(frozen=True, slots=True, kw_only=True)
class _Folded:
    """What was asked when the form was last drawn, its choices then, and whether it lay open since."""

    asked: Any
    choices: dict[str, Any]
    was_open: bool = False


def is_form_folded() -> bool:
    """Whether a job stands on the form, so that its answer comes first."""
    return session.held(session.FOLDED) is not None


def fold_form(asked: object, *, is_drawn_once_more: bool = False) -> None:
    """Hold on to what was asked on the form, and to its choices, until it is drawn again or the job is forgotten."""
    was_open = is_drawn_once_more or (is_form_folded() and session.held(session.FOLDED).was_open)
    session.hold(session.FOLDED, _Folded(asked=asked, choices=session.job_choices(), was_open=was_open))


def unfold_form() -> None:
    """Show the form in place of an answer again."""
    session.let_go(session.FOLDED)


def is_form_drawn(*, is_open: bool) -> bool:
    """Whether the folded form is to be drawn: while it is open, and once more when it was put away.

    A folded form is not drawn: a browser that was too busy to show its choices would send them back empty with the next
    click, and the job would be lost. The once more is for what was typed last: a field tells it as it is left.
    """
    folded = session.held(session.FOLDED)
    session.hold(session.FOLDED, _Folded(asked=folded.asked, choices=folded.choices, was_open=is_open))
    if not folded.was_open:
        session.put_choices(folded.choices)
    return is_open or bool(folded.was_open)


def asked_when_folded() -> Any:
    """What was asked on the form when it was last drawn."""
    return session.held(session.FOLDED).asked
