"""Words and rules that terminal and page share."""

from planner.verdicts import Outcome

ADVISORY_WORDS = {
    Outcome.FITS: "in order",
    Outcome.TIGHT: "take care",
    Outcome.UNKNOWN: "to settle",
    Outcome.NO_FIT: "does not go together",
}
"""What an advisory asks for, by its outcome."""
