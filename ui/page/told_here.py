"""Frames and jobs that are told question by question: what is forgotten of them, and which frame was told here."""

from ui.page import session
from ui.page.draft_form import Form, form_of_choices

FRAME_FORM = form_of_choices("new_frame", prefix=session.NEW_FRAME, title="A frame that is being told")
JOB_FORM = form_of_choices("new_job", prefix=session.NEW_JOB, title="A job that is being told")
_FRAME = "frame_told_here"


def forget_new_frame() -> None:
    """Nothing told of a new frame any more."""
    _forget(FRAME_FORM, session.NEW_FRAME)
    session.let_go(_FRAME)


def forget_new_job() -> None:
    """Nothing told of a new job any more."""
    _forget(JOB_FORM, session.NEW_JOB)


def remember_told_here(frame_id: str) -> None:
    """Which frame of the catalog in use was told on the page, so that it may be told again under its name."""
    session.hold(_FRAME, frame_id)


def frame_told_here() -> str:
    """The frame that was told on the page and is planned with; "" where none is."""
    return session.held(_FRAME) or ""


def _forget(form: Form, prefix: str) -> None:
    session.forget_beginning(prefix)
    session.let_go(f"draft_{form.name}")
