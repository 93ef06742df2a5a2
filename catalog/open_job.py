"""A job opened: a job file, or choices made on a form, turned into the planner's job."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import islice
from typing import TypeVar

from pydantic import ValidationError

from catalog.errors import MOST_PROBLEMS, CatalogProblems, EntryNotAccepted, Problem, with_end
from catalog.file_contents import FileContent
from catalog.job_checks import KnownFrame, KnownThings, job_complaints
from catalog.job_to_parts import to_job, to_visit
from catalog.jobs import CaseEntry, JobEntry
from catalog.mechanic_errors import Complaint, complaints_of, did_you_mean
from catalog.read_files import Document, document_with, format_problems
from catalog.ready_catalog import Catalog
from catalog.visit_checks import visit_complaints
from catalog.visits import JobFile, VisitEntry
from catalog.yaml_text import YamlText
from planner import old_ways_not_told, parts

Form = TypeVar("Form", JobEntry, VisitEntry, CaseEntry)

OLD_WAY_WANTED = "through: [...] with its ports, for what lies beside the others must be known"

TAKE_SEVERAL = "`lineplan plan`, `card`, `quote`, `save` and `cuts`"
"""What takes a visit."""

FORM = "form"
"""What stands in place of a file name in complaints about choices made on a form."""


def open_job(content: FileContent, catalog: Catalog) -> parts.Job:
    """The job in a job file, with everything it names taken from the catalog.

    Raises CatalogProblems with everything that is wrong in the file.
    """
    return _as_job(document_with(content), catalog)


def open_job_or_visit(content: FileContent, catalog: Catalog) -> parts.Job | parts.Visit:
    """The job in a job file, or the visit where it lists several lines.

    Raises CatalogProblems with everything that is wrong in the file.
    """
    document = document_with(content)
    job, problems = opened_job(document, known=known_things(catalog))
    if job is None or problems:
        raise CatalogProblems(problems)
    if isinstance(job, JobEntry):
        return to_job(job, catalog=catalog)
    return _visit_of(job, document, catalog)


def job_from_fields(fields: Mapping[str, object], catalog: Catalog) -> parts.Job:
    """The job described by the fields of a form, named as in a job file.

    Raises EntryNotAccepted with everything that is wrong with the choices.
    """
    text = YamlText({"format": 1, "job": dict(fields)}, {(): 0})
    return _as_job(Document(file=FORM, text=text), catalog)


def job_complaints_by_path(fields: Mapping[str, object], catalog: Catalog) -> dict[tuple[str | int, ...], str]:
    """What is wrong with the fields of a form, named as in a job file, each by its place in them; empty for none."""
    complaints: list[Complaint] = []
    try:
        JobEntry.model_validate(fields)
    except ValidationError as error:
        complaints.extend(complaints_of(error, annotation=JobEntry, value=fields))
    complaints.extend(islice(job_complaints(fields, known=known_things(catalog)), MOST_PROBLEMS))
    return {tuple(path): f"{given}; {allowed}" if allowed else given for path, given, allowed in complaints}


def _as_job(document: Document, catalog: Catalog) -> parts.Job:
    job, problems = opened_job(document, known=known_things(catalog))
    if isinstance(job, VisitEntry) and not problems:
        allowed = f"a job of one line; {TAKE_SEVERAL} take several"
        problems.append(document.problem(("job", "lines"), given="several lines were given", allowed=allowed))
    if not isinstance(job, JobEntry) or problems:
        raise CatalogProblems(problems)
    return to_job(job, catalog=catalog)


def visit_from_fields(fields: Mapping[str, object], catalog: Catalog) -> parts.Visit:
    """The visit described by the fields of a form, named as in a job file.

    Raises EntryNotAccepted with everything that is wrong with the choices; the line of a problem is the place of its
    line in the visit, from 1, or 0 for what is about the visit as a whole.
    """
    lines = fields.get("lines")
    count = len(lines) if isinstance(lines, list) else 0
    places: dict[tuple[str | int, ...], int] = {(): 0, **{("job", "lines", nth): nth + 1 for nth in range(count)}}
    document = Document(file=FORM, text=YamlText({"format": 1, "job": dict(fields)}, places))
    entry, problems = opened_job(document, known=known_things(catalog))
    if not isinstance(entry, VisitEntry) or problems:
        raise EntryNotAccepted(problems)
    return _visit_of(entry, document, catalog)


def _visit_of(entry: VisitEntry, document: Document, catalog: Catalog) -> parts.Visit:
    visit = to_visit(entry, catalog=catalog)
    problems = [
        document.problem(("job", "lines", nth, "old"), given=given, allowed=OLD_WAY_WANTED)
        for nth, given in old_ways_not_told(visit)
    ]
    if problems:
        raise CatalogProblems(problems)
    return visit


def has_several_lines(value: object) -> bool:
    """Whether what stands in a job file asks for several lines in one visit."""
    job = value.get("job") if isinstance(value, Mapping) else None
    return isinstance(job, Mapping) and "lines" in job


def opened_job(document: Document, *, known: KnownThings) -> tuple[JobEntry | VisitEntry | None, list[Problem]]:
    """The job or visit as accepted, or None, and everything that is wrong with it."""
    if has_several_lines(document.text.value):
        return _opened(document, VisitEntry, visit_complaints, known)
    return _opened(document, JobEntry, job_complaints, known)


def opened_case(document: Document, *, known: KnownThings) -> tuple[CaseEntry | None, list[Problem]]:
    """The job without its new line as accepted, or None, and everything that is wrong with it."""
    return _opened(document, CaseEntry, job_complaints, known)


def _opened(
    document: Document, form: type[Form], asked: Callable[..., Iterator[Complaint]], known: KnownThings
) -> tuple[Form | None, list[Problem]]:
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
    job: Form | None = None
    complaints: list[Complaint] = []
    try:
        job = form.model_validate(raw)
    except ValidationError as error:
        complaints.extend(complaints_of(error, annotation=form, value=raw))
    complaints.extend(islice(asked(raw, known=known), MOST_PROBLEMS))
    problems.extend(_told(document, complaints))
    return job, with_end(sorted(dict.fromkeys(problems), key=lambda problem: problem.line))


def _told(document: Document, complaints: Iterable[Complaint]) -> Iterator[Problem]:
    for path, given, allowed in complaints:
        yield document.problem(("job", *path), given=given, allowed=allowed)


def known_things(catalog: Catalog) -> KnownThings:
    """What a job may name when the catalog is sound."""
    return KnownThings(
        frames=_FramesAsKnown(catalog.frames),
        brakes=frozenset(catalog.brakes),
        lines=frozenset(catalog.lines),
        fittings=frozenset(catalog.fittings),
        read_from=catalog.read_from,
    )


class _FramesAsKnown(Mapping[str, KnownFrame]):
    """What may be named of each frame, looked up when a job names it: a catalog may have thousands."""

    def __init__(self, frames: Mapping[str, parts.Frame]) -> None:
        self._frames = frames

    def __getitem__(self, id: str) -> KnownFrame:
        frame = self._frames[id]
        return KnownFrame(anchors=frozenset(frame.anchors), ports=frozenset(frame.ports), runs=frozenset(frame.runs))

    def __iter__(self) -> Iterator[str]:
        return iter(self._frames)

    def __len__(self) -> int:
        return len(self._frames)
