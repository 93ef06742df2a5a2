"""What is kept of a job: its fields as they stand in its file, and the exact revisions that it uses."""

from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from catalog.edit_yaml import edit_yaml
from catalog.errors import CatalogProblems
from catalog.read_files import read_document
from catalog.store_things import Pin
from planner import parts

CHOSEN_KINDS = frozenset({"frame", "line", "fitting", "brake"})
"""A job uses the few of these that it names; of all other kinds, such as methods, every one has a say in its plan."""


def job_fields_in(path: Path) -> dict[str, Any]:
    """The fields of a job as they stand in its file; whether they make sense is asked when the job is opened.

    Raises CatalogProblems when the file cannot be read, or holds no job.
    """
    document = read_document(path)
    if document.problems:
        raise CatalogProblems(document.problems)
    fields = document.text.value.get("job") if isinstance(document.text.value, dict) else None
    if not isinstance(fields, dict):
        problem = document.problem((), given="job is missing", allowed="a job file has format and job")
        raise CatalogProblems([problem])
    return dict(fields)


def job_file_text(fields: Mapping[str, Any]) -> str:
    """The text of a job file that says just this.

    Raises TextNotEditable when there is no such text.
    """
    return edit_yaml("format: 1\n", {"format": 1, "job": dict(fields)})


def pins_used(job: parts.Job | parts.Visit, pins: Sequence[Pin]) -> tuple[Pin, ...]:
    """Those of a catalog's revisions that have a say in a job: all but the things it does not name."""
    named = set(_things_named(job))
    return tuple(pin for pin in pins if pin.kind not in CHOSEN_KINDS or (pin.kind, pin.id) in named)


def _things_named(job: parts.Job | parts.Visit) -> Iterator[tuple[str, str]]:
    yield "frame", job.frame.id
    for staying in job.staying:
        yield "line", staying.line.id
    for line in job.lines if isinstance(job, parts.Visit) else (job,):
        for side in (line.old, line.new):
            if side is not None:
                yield from _things_of(side)


def _things_of(side: parts.OldLine | parts.NewLine) -> Iterator[tuple[str, str]]:
    yield "line", side.line.id
    ends = [side.from_end, side.to_end]
    if side.brake is not None:
        yield "brake", side.brake.id
        yield "line", side.brake.line.id
        ends += [side.brake.lever_end, side.brake.caliper_end]
    yield from (("fitting", end.fitting.id) for end in ends if end.fitting is not None)
