"""Frames and jobs that are told question by question: what is forgotten of them, and which frame was told here."""

from ui.page import session

_FRAME = "frame_told_here"


def forget_new_frame() -> None:
    """Nothing told of a new frame any more."""
    session.forget_beginning(session.NEW_FRAME)
    session.let_go(_FRAME)


def forget_new_job() -> None:
    """Nothing told of a new job any more."""
    session.forget_beginning(session.NEW_JOB)


def remember_told_here(frame_id: str) -> None:
    """Which frame of the catalog in use was told on the page, so that it may be told again under its name."""
    session.hold(_FRAME, frame_id)


def frame_told_here() -> str:
    """The frame that was told on the page and is planned with; "" where none is."""
    return session.held(_FRAME) or ""
