"""How an outcome looks on a screen: by a colour of the terminal or a sign of the page, beside its word."""

from dataclasses import dataclass

from planner.verdicts import Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class OutcomeLook:
    """The look of one outcome.

    terminal_style : name of a colour that every terminal has
    page_icon : name of a sign in the page's font
    """

    terminal_style: str
    page_icon: str


OUTCOME_LOOKS = {
    Outcome.FITS: OutcomeLook(terminal_style="green", page_icon=":material/check_circle:"),
    Outcome.TIGHT: OutcomeLook(terminal_style="yellow", page_icon=":material/warning:"),
    Outcome.UNKNOWN: OutcomeLook(terminal_style="magenta", page_icon=":material/help:"),
    Outcome.NO_FIT: OutcomeLook(terminal_style="red", page_icon=":material/block:"),
}
