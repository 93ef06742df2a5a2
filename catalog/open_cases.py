"""Frames and brakes for a table: frame files, job files without their new line, brake files, read together."""

import os
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

from catalog.checking import known_things_in
from catalog.errors import CatalogProblems, Problem
from catalog.job_to_parts import to_case
from catalog.jobs import CaseEntry
from catalog.open_catalog import catalog_of_documents, contents_of
from catalog.open_job import opened_case
from catalog.read_files import Document, read_documents
from catalog.ready_catalog import Catalog
from catalog.starter_place import STARTER_FOLDER, names_of
from planner import parts


@dataclass(frozen=True, slots=True, kw_only=True)
class TableFiles:
    """What a table is asked about.

    catalog : everything named, over the starter catalog or for itself
    cases : those of job files, in the order they were named
    frames : those that no case is about, with the file each stands in
    brakes : those asked about
    """

    catalog: Catalog
    cases: tuple[parts.Case, ...]
    frames: tuple[tuple[parts.Frame, str], ...]
    brakes: tuple[parts.Brake, ...]


def read_table_files(
    *, frames: Sequence[Path], brakes: Sequence[Path], catalogs: Sequence[Path], over_starter: bool
) -> TableFiles:
    """Everything in the files and folders named.

    frames : frame files, and job files without new, which say what lies in a frame
    brakes : files with brakes; none for every brake there is
    catalogs : what else may be named in them
    over_starter : whether all is laid over the starter catalog, or stands for itself

    Raises CatalogProblems with everything that is wrong in any of the files.
    """
    groups = [read_documents(paths) for paths in ([STARTER_FOLDER] if over_starter else [], catalogs, frames, brakes)]
    documents = {_place(document): document for group in groups for document in group}.values()
    held = [document for document in documents if document.is_catalog]
    contents = contents_of(held)
    named = names_of([*catalogs, *frames, *brakes])
    known = known_things_in(contents.placed, read_from=named)
    of_frames, of_brakes = groups[2], groups[3]
    opened = [(document, *opened_case(document, known=known)) for document in of_frames if document.is_job]
    problems = [*contents.problems, *(problem for _, _, wrong in opened for problem in wrong)]
    problems += _doubled(opened)
    problems += _without("frames", of_frames, "a frame file, or a job file without new")
    problems += _without("brakes", of_brakes, "a catalog file with brakes")
    if problems:
        raise CatalogProblems(list(dict.fromkeys(problems)))
    catalog = catalog_of_documents(tuple(held), read_from=named)
    cases = tuple(to_case(entry, catalog=catalog) for _, entry, _ in opened if entry is not None)
    in_cases = {case.frame.id for case in cases}
    return TableFiles(
        catalog=catalog,
        cases=cases,
        frames=tuple(
            (catalog.frames[id_], file) for id_, file in _ids("frames", of_frames).items() if id_ not in in_cases
        ),
        brakes=tuple(catalog.brakes[id_] for id_ in (_ids("brakes", of_brakes) if brakes else catalog.brakes)),
    )


def _place(document: Document) -> str:
    return document.file if "\0" in document.file else os.path.realpath(document.file)


def _ids(section: str, documents: Iterable[Document]) -> dict[str, str]:
    """Ids in the files' lists, with the file each stands in."""
    return {
        item["id"]: document.file
        for document in documents
        if document.is_catalog and isinstance(document.text.value, dict)
        for item in document.text.value.get(section) or ()
        if isinstance(item, dict) and isinstance(item.get("id"), str)
    }


def _without(section: str, documents: Sequence[Document], allowed: str) -> list[Problem]:
    """Files named for what they do not hold; those in a folder beside others are passed over."""
    if not documents or _ids(section, documents) or any(document.is_job for document in documents):
        return []
    return [
        document.problem((), given=f"there are no {section} in it", allowed=allowed)
        for document in documents
        if not document.problems
    ]


def _doubled(opened: Sequence[tuple[Document, CaseEntry | None, list[Problem]]]) -> list[Problem]:
    first: dict[str, str] = {}
    problems: list[Problem] = []
    for document, entry, _ in opened:
        if entry is not None and first.setdefault(entry.id, document.file) != document.file:
            given = f"{entry.id} is also the id in {first[entry.id]}"
            problems.append(document.problem(("job", "id"), given=given, allowed="an id of its own for each"))
    return problems
