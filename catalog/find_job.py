"""The job in a file: found as it was kept when the same file was read with the same catalog, else opened and kept."""

from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar, cast

from catalog.file_contents import FileContent, content_at
from catalog.kept_files import as_text, find_value, hash_of, keep, key_of
from catalog.plain_parts import NotPlainParts, as_plain, from_plain
from catalog.ready_catalog import Catalog
from planner import parts

Opened = TypeVar("Opened")


def read_job(path: Path, catalog: Catalog) -> parts.Job:
    """The job in a job file, with everything it names taken from the catalog.

    Raises CatalogProblems with everything that is wrong in the file.
    """
    return _found(path, catalog, parts.Job, _open_job)


def read_job_or_visit(path: Path, catalog: Catalog) -> parts.Job | parts.Visit:
    """The job in a job file, or the visit where it lists several lines.

    Raises CatalogProblems with everything that is wrong in the file.
    """
    return _found(path, catalog, parts.Job | parts.Visit, _open_job_or_visit)


def _found(path: Path, catalog: Catalog, kind: Any, in_full: Callable[[FileContent, Catalog], Opened]) -> Opened:
    content = content_at(path)
    if content.unreadable is not None or not catalog.key:
        return in_full(content, catalog)
    key = key_of("job", catalog.key, hash_of(content.content))
    try:
        kept = from_plain(find_value(key))
    except NotPlainParts:
        kept = None
    if isinstance(kept, kind):
        return cast(Opened, kept)
    opened = in_full(content, catalog)
    keep(key, lambda: as_text(as_plain(opened)))
    return opened


def _open_job(content: FileContent, catalog: Catalog) -> parts.Job:
    from catalog.open_job import open_job

    return open_job(content, catalog)


def _open_job_or_visit(content: FileContent, catalog: Catalog) -> parts.Job | parts.Visit:
    from catalog.open_job import open_job_or_visit

    return open_job_or_visit(content, catalog)
