"""A job opened: a job file, or choices made on a form, turned into the planner's job."""

from collections.abc import Mapping
from itertools import islice
from pathlib import Path

from pydantic import ValidationError

from catalog.errors import MOST_PROBLEMS, CatalogProblems, EntryNotAccepted, Problem, with_end
from catalog.job_checks import KnownFrame, KnownThings, job_complaints
from catalog.job_to_parts import to_job
from catalog.jobs import JobEntry, JobFile
from catalog.mechanic_errors import Complaint, complaints_of, did_you_mean
from catalog.open_catalog import Catalog
from catalog.read_files import Document, format_problems, read_document
from catalog.yaml_text import YamlText
from planner import parts

FORM = "form"
"""What stands in place of a file name in complaints about choices made on a form."""


def read_job(path: Path, catalog: Catalog) -> parts.Job:
    """The job in a job file, with everything it names taken from the catalog.

    Raises CatalogProblems with everything that is wrong in the file.
    """
    job, problems = opened_job(read_document(path), known=known_things(catalog))
    if job is None or problems:
        raise CatalogProblems(problems)
    return to_job(job, catalog=catalog)


def job_from_fields(fields: Mapping[str, object], catalog: Catalog) -> parts.Job:
    """The job described by the fields of a form, named as in a job file.

    Raises EntryNotAccepted with everything that is wrong with the choices.
    """
    value = {"format": 1, "job": dict(fields)}
    job, problems = opened_job(Document(file=FORM, text=YamlText(value, {(): 0})), known=known_things(catalog))
    if job is None or problems:
        raise EntryNotAccepted(problems)
    return to_job(job, catalog=catalog)


def opened_job(document: Document, *, known: KnownThings) -> tuple[JobEntry | None, list[Problem]]:
    """The job as accepted, or None, and everything that is wrong with it."""
    problems = list(document.problems)
    value = document.text.value
    if not isinstance(value, dict):
        return None, problems
    problems.extend(format_problems(document))
    for key in islice(value, MOST_PROBLEMS):
        if key not in JobFile.model_fields:
            hint = did_you_mean(key, JobFile.model_fields)
            problems.append(document.problem((key,), given=f"{key} is not known here", allowed=hint))
    if "job" not in value:
        problems.append(document.problem((), given="job is missing", allowed="a job file has format and job"))
        return None, problems
    raw = value["job"]
    job: JobEntry | None = None
    complaints: list[Complaint] = []
    try:
        job = JobEntry.model_validate(raw)
    except ValidationError as error:
        complaints.extend(complaints_of(error, annotation=JobEntry, value=raw))
    complaints.extend(islice(job_complaints(raw, known=known), MOST_PROBLEMS))
    problems.extend(
        document.problem(("job", *path), given=given, allowed=allowed) for path, given, allowed in complaints
    )
    return job, with_end(sorted(dict.fromkeys(problems), key=lambda problem: problem.line))


def known_things(catalog: Catalog) -> KnownThings:
    """What a job may name when the catalog is sound."""
    return KnownThings(
        frames={
            frame.id: KnownFrame(
                anchors=frozenset(frame.anchors), ports=frozenset(frame.ports), runs=frozenset(frame.runs)
            )
            for frame in catalog.frames.values()
        },
        brakes=frozenset(catalog.brakes),
        lines=frozenset(catalog.lines),
        fittings=frozenset(catalog.fittings),
        read_from=catalog.read_from,
    )
