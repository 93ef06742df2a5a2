"""Check catalog, job and stock files together, without planning anything."""

from collections.abc import Callable, Sequence
from pathlib import Path

from catalog.errors import Problem
from catalog.file_contents import read_contents
from catalog.frame_checks import known_frame
from catalog.job_checks import KnownThings
from catalog.open_catalog import Contents, contents_of
from catalog.open_job import known_things, opened_job
from catalog.open_stock import opened_stock
from catalog.read_ahead import read_ahead
from catalog.read_files import Document, Placed, document_of, read_documents
from catalog.ready_catalog import Catalog
from catalog.starter_place import STARTER_FOLDER, STARTER_NAME, names_of


def check_files(
    paths: Sequence[Path],
    *,
    over_starter: bool = False,
    against: Callable[[], Catalog] | None = None,
    on_all_cores: bool = False,
) -> list[Problem]:
    """Every problem in some catalog, job and stock files; none means they are sound.

    A file with a `job` is a job file, one with `stock` a stock file. Both are held against the catalog files given with
    them, or against the starter catalog when none are.

    over_starter : whether the catalog files are laid over the starter catalog, or stand for themselves
    against : makes the catalog that jobs are held against where no catalog files are given; None for the starter
    on_all_cores : whether other processes may read along, each with the main program loaded anew
    """
    if on_all_cores:
        read_ahead(read_contents(paths))
    documents = read_documents(paths)
    catalogs, starter = _catalogs_among(documents, over_starter=over_starter)
    has_catalog = _holds_catalog(catalogs)
    contents = contents_of([*catalogs, *starter])
    if against is not None and not has_catalog:
        known = known_things(against())
    else:
        known = known_things_in(contents.placed, read_from=_names(catalogs, has_starter=bool(starter)))
    problems = list(contents.problems)
    for document in documents:
        if document.is_job:
            problems.extend(opened_job(document, known=known)[1])
        elif document.is_stock:
            problems.extend(opened_stock(document, line_ids=known.lines)[1])
    return problems


def problems_of_text(name: str, text: str) -> tuple[Problem, ...]:
    """Every problem in the text of a catalog file that is not written yet, taken by itself.

    name : what to call it
    """
    return contents_of([document_of(name, text.encode("utf-8"))]).problems


def contents_of_files(paths: Sequence[Path], *, over_starter: bool) -> Contents:
    """What stands in the catalog files among some files.

    over_starter : whether they are laid over the starter catalog, or stand for themselves
    """
    catalogs, starter = _catalogs_among(read_documents(paths), over_starter=over_starter)
    return contents_of([*catalogs, *starter])


def _catalogs_among(documents: Sequence[Document], *, over_starter: bool) -> tuple[list[Document], list[Document]]:
    """The catalog files, and those of the starter that lie under them or stand for them."""
    catalogs = [document for document in documents if document.is_catalog]
    starter = read_documents([STARTER_FOLDER]) if over_starter or not _holds_catalog(catalogs) else []
    return catalogs, _not_among(starter, catalogs)


def _holds_catalog(catalogs: Sequence[Document]) -> bool:
    return any(document.text.value is not None or document.problems for document in catalogs)


def _not_among(documents: Sequence[Document], others: Sequence[Document]) -> list[Document]:
    there = {Path(document.file).resolve() for document in others if "\0" not in document.file}
    return [document for document in documents if Path(document.file).resolve() not in there]


def _names(catalogs: Sequence[Document], *, has_starter: bool) -> tuple[str, ...]:
    starter = (STARTER_NAME,) if has_starter else ()
    return tuple(dict.fromkeys((*starter, *names_of([Path(document.file) for document in catalogs]))))


def known_things_in(placed: Sequence[Placed], *, read_from: tuple[str, ...]) -> KnownThings:
    """What a job may name, also where an entry itself is not accepted."""

    def ids(section: str) -> frozenset[str]:
        return frozenset(item.id for item in placed if item.section == section and item.id)

    return KnownThings(
        frames={item.id: known_frame(item) for item in placed if item.section == "frames" and item.id},
        brakes=ids("brakes"),
        lines=ids("lines"),
        fittings=ids("fittings"),
        read_from=read_from,
    )
