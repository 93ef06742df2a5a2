"""What an outcome and a fit class are called, and the mark beside it: the same on paper, page and terminal."""

from planner.verdicts import FitClass, Outcome

OUTCOME_WORDS = {
    Outcome.FITS: "fits",
    Outcome.TIGHT: "tight",
    Outcome.UNKNOWN: "not proven",
    Outcome.NO_FIT: "does not fit",
}
OUTCOME_MARKS = {Outcome.FITS: "✓", Outcome.TIGHT: "~", Outcome.UNKNOWN: "?", Outcome.NO_FIT: "✗"}
"""A sign for each, so that none is told by its colour alone."""


def outcome_word(outcome: Outcome) -> str:
    """An outcome in a word for people; the word of the file formats is `outcome.word`."""
    return OUTCOME_WORDS[outcome]


def marked_outcome(outcome: Outcome) -> str:
    """An outcome with its mark before it."""
    return f"{OUTCOME_MARKS[outcome]} {OUTCOME_WORDS[outcome]}"


def fit_class_words(fit_class: FitClass | None) -> str:
    """A fit class; one that follows from no measured, proven clearance is not guessed."""
    return "not proven" if fit_class is None else fit_class.value
