"""What is typed beside the answer to a job: its name and why it is saved, what it was measured with.

It is kept with the draft of the job, and is no step of it: nothing is planned anew by it.
"""

from typing import Any

from ui.page import session

LASTING = "beside"
"""What it is called in the draft."""


def prefix_of(*, is_visit: bool) -> str:
    """How the keys of such fields begin, of a job of one line or of several."""
    return session.BESIDE_VISIT if is_visit else session.BESIDE_JOB


def start(key: str, value: str) -> None:
    """What a field shows until somebody types something else; what only stood there follows it."""
    if session.chosen(key) in (None, session.held(f"start_{key}")):
        session.put_choices({key: value})
    session.hold(f"start_{key}", value)


def typed(*, is_visit: bool) -> dict[str, Any]:
    """What is typed that the fields did not begin with; emptied fields too."""
    found = session.choices_beginning(prefix_of(is_visit=is_visit))
    return {key: value for key, value in found.items() if value != session.held(f"start_{key}")}
