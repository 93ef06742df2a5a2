"""States of jobs and quotes as they are typed and told."""

from enum import StrEnum
from typing import TypeVar

from catalog import QuoteState
from ui.shared.command_refused import CommandRefused

ENDED = (QuoteState.LAPSED, QuoteState.CALLED_OFF, QuoteState.TURNED_DOWN)
"""Where a quote no longer stands."""

State = TypeVar("State", bound=StrEnum)


def state_of(text: str, kind: type[State], *, command: str) -> State:
    """The state a word stands for; a blank or a hyphen may stand for the line between two words."""
    word = text.strip().lower().replace("-", "_").replace(" ", "_")
    for state in kind:
        if state.value == word:
            return state
    allowed = ", ".join(state.value for state in kind)
    raise CommandRefused(command=command, option="state", given=f"{text} was given", allowed=allowed)


def told(state: str) -> str:
    """A state in words."""
    return state.replace("_", " ")
