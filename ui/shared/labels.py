"""Words and rules that terminal and page share."""

from planner.parts import Job
from planner.verdicts import Outcome

ADVISORY_WORDS = {
    Outcome.FITS: "in order",
    Outcome.TIGHT: "take care",
    Outcome.UNKNOWN: "to settle",
    Outcome.NO_FIT: "does not go together",
}
"""What an advisory asks for, by its outcome."""


def labels_of(job: Job) -> dict[str, str]:
    """Names of ports for people, by id."""
    return {port.id: port.label or port.id for port in job.frame.ports.values()}
