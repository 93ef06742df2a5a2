"""What a dialogue makes: the text of a file, and what is wrong with it before it is written anywhere."""

from collections.abc import Iterator, Mapping
from typing import Any

from catalog import Catalog, EntryNotAccepted, commented_text, job_from_fields, problems_of_text, without_notes

FRAME_HEAD = ("Told in a dialogue. mm and degrees; what is marked default or not known was not measured: look again.",)
JOB_HEAD = ("Told in a dialogue. mm.",)


def frame_text(entry: Mapping[str, Any]) -> str:
    """A catalog file with one frame."""
    return commented_text({"format": 1, "frames": [entry]}, head=FRAME_HEAD)


def job_text(fields: Mapping[str, Any]) -> str:
    """A job file."""
    return commented_text({"format": 1, "job": dict(fields)}, head=JOB_HEAD)


def wrong_with_frame(entry: Mapping[str, Any]) -> Iterator[str]:
    """Everything that a check of the frame's file would refuse."""
    for problem in problems_of_text("told", frame_text(entry)):
        field = f" > {problem.field}" if problem.field else ""
        yield f"{problem.thing}{field}: {problem.given}, {problem.allowed}"


def wrong_with_job(fields: Mapping[str, Any], catalog: Catalog) -> Iterator[str]:
    """Everything that a check of the job's file would refuse."""
    try:
        job_from_fields(without_notes(fields), catalog)
    except EntryNotAccepted as refusal:
        yield from str(refusal).splitlines()
