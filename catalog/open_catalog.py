"""A catalog opened: everything in its files, checked, and ready for the planner."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import islice
from typing import Any

from catalog.catalog_file import CatalogFile
from catalog.cross_checks import cross_problems
from catalog.errors import MOST_PROBLEMS, CatalogProblems, Problem
from catalog.read_files import LIST_SECTIONS, Document, Placed, document_of, read_documents, read_entries
from catalog.ready_catalog import Catalog, Written
from catalog.shop import ShopEntry, over
from catalog.starter_files import WORK_FILES, Layers, lay_over_starter
from catalog.starter_place import STARTER_FOLDER
from catalog.to_parts import to_brake, to_frame
from catalog.workshop_to_parts import to_workshop


@dataclass(frozen=True, slots=True, kw_only=True)
class Contents:
    """All entries of several files, with what is wrong with them.

    layers : own entries over those of the starter catalog
    """

    layers: Layers
    problems: tuple[Problem, ...]

    @property
    def placed(self) -> tuple[Placed, ...]:
        """What counts."""
        return self.layers.placed


def catalog_of_text(name: str, text: str) -> Catalog:
    """The catalog in the text of one file that is not written yet, for itself.

    name : what to call it

    Raises CatalogProblems with everything that is wrong in it.
    """
    return catalog_of_documents((document_of(name, text.encode("utf-8")),), read_from=(name,))


def catalog_of_documents(documents: tuple[Document, ...], *, read_from: tuple[str, ...]) -> Catalog:
    """The catalog in files already read.

    read_from : where they come from, as people are told of it
    """
    catalog, problems = _opened(tuple(_ByContent(document) for document in documents), read_from)
    if catalog is None:
        raise CatalogProblems(problems)
    return catalog


def contents_of(documents: Sequence[Document]) -> Contents:
    """Every entry of some catalog files, and every problem in and between them."""
    return _contents(tuple(_ByContent(document) for document in documents))


@lru_cache(maxsize=4)
def _contents(keys: tuple["_ByContent", ...]) -> Contents:
    documents = [key.document for key in keys]
    problems = [problem for document in documents for problem in document.problems]
    placed: list[Placed] = []
    for document in documents:
        more, wrong = read_entries(document)
        placed.extend(more)
        problems.extend(wrong)
    layers = lay_over_starter(placed)
    if len(problems) < MOST_PROBLEMS:  # else a file was not read to its end, and what it holds would be missed
        crossing = cross_problems(layers.placed, starter_cautions=_starter_cautions())
        problems.extend(islice(crossing, MOST_PROBLEMS))
    return Contents(layers=layers, problems=tuple(_in_file_order(problems, documents)))


class _ByContent:
    """A document as a cache key: documents are shared by content, so being the same object is being equal."""

    def __init__(self, document: Document) -> None:
        self.document = document

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _ByContent) and self.document is other.document

    def __hash__(self) -> int:
        return id(self.document)


@lru_cache(maxsize=16)
def _opened(keys: tuple[_ByContent, ...], read_from: tuple[str, ...]) -> tuple[Catalog | None, tuple[Problem, ...]]:
    contents = contents_of([key.document for key in keys])
    if contents.problems:
        return None, contents.problems
    return _assembled(contents, read_from=read_from), ()


def _in_file_order(problems: list[Problem], documents: Sequence[Document]) -> list[Problem]:
    order = {document.file: place for place, document in reversed(list(enumerate(documents)))}
    unique = dict.fromkeys(problems)
    return sorted(unique, key=lambda problem: (order.get(problem.file, len(order)), problem.line))


def _collected(placed: Sequence[Placed]) -> CatalogFile:
    lists: dict[str, Any] = {
        section: tuple(item.entry for item in placed if item.section == section) for section in LIST_SECTIONS
    }
    shop = next((item.entry for item in placed if item.section == "shop"), None)
    return CatalogFile.model_construct(format=1, shop=shop, **lists)


@lru_cache(maxsize=1)
def starter_work() -> CatalogFile:
    """The starter catalog's shop limits, steps and cautions."""
    documents = read_documents([STARTER_FOLDER / name for name in WORK_FILES])
    placed = [item for document in documents for item in read_entries(document)[0]]
    return _collected(placed)


def _starter_cautions() -> frozenset[str]:
    return frozenset(caution.id for caution in starter_work().cautions)


def _assembled(contents: Contents, *, read_from: tuple[str, ...]) -> Catalog:
    entries = _collected(contents.placed)
    work = starter_work()
    shop = over(entries.shop, work.shop or ShopEntry())
    cautions = {caution.id: caution for caution in (*work.cautions, *entries.cautions)}
    whole = entries.model_copy(
        update={
            "steps": entries.steps or work.steps,
            "cautions": tuple(cautions.values()),
            "rescues": entries.rescues or work.rescues,
            "measures": entries.measures or work.measures,
            "at_hand": entries.at_hand or work.at_hand,
        }
    )
    workshop = to_workshop(whole, shop=shop)
    brakes = {entry.id: to_brake(entry, lines=workshop.lines, fittings=workshop.fittings) for entry in entries.brakes}
    written = Written(entries=entries, shop=shop)
    return Catalog(
        frames={entry.id: to_frame(entry, shop=shop) for entry in entries.frames},
        lines=workshop.lines,
        fittings=workshop.fittings,
        brakes=brakes,
        workshop=replace(workshop, brakes=brakes),
        opening_tolerance_mm=shop.opening_tolerance or 0.0,
        written=lambda: written,
        read_from=read_from,
        stands_in=contents.layers.told,
    )
