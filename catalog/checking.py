"""Check catalog, job and stock files together, without planning anything."""

from collections.abc import Sequence
from pathlib import Path

from catalog.errors import Problem
from catalog.frame_checks import known_frame
from catalog.job_checks import KnownThings
from catalog.open_catalog import STARTER_FOLDER, contents_of
from catalog.open_job import opened_job
from catalog.open_stock import opened_stock
from catalog.read_files import Placed, read_documents


def check_files(paths: Sequence[Path]) -> list[Problem]:
    """Every problem in some catalog, job and stock files; none means they are sound.

    A file with a `job` is a job file, one with `stock` a stock file. Both are held against the catalog files given with
    them, or against the starter catalog when none are.
    """
    documents = read_documents(paths)
    catalogs = [document for document in documents if document.is_catalog]
    has_catalog = any(document.text.value is not None or document.problems for document in catalogs)
    contents = contents_of(catalogs if has_catalog else read_documents([STARTER_FOLDER]))
    known = _known_things(contents.placed)
    problems = list(contents.problems)
    for document in documents:
        if document.is_job:
            problems.extend(opened_job(document, known=known)[1])
        elif document.is_stock:
            problems.extend(opened_stock(document, line_ids=known.lines)[1])
    return problems


def _known_things(placed: Sequence[Placed]) -> KnownThings:
    """What a job may name, also where an entry itself is not accepted."""

    def ids(section: str) -> frozenset[str]:
        return frozenset(item.id for item in placed if item.section == section and item.id)

    return KnownThings(
        frames={item.id: known_frame(item) for item in placed if item.section == "frames" and item.id},
        brakes=ids("brakes"),
        lines=ids("lines"),
        fittings=ids("fittings"),
    )
