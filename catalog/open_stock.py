"""A stock file opened: what there is to cut from, ready for the planner."""

from collections.abc import Collection, Iterator
from dataclasses import dataclass
from itertools import islice
from pathlib import Path

from pydantic import ValidationError

from catalog.errors import MOST_PROBLEMS, CatalogProblems, Problem, with_end
from catalog.mechanic_errors import Complaint, complaints_of, did_you_mean
from catalog.read_files import Document, format_problems, read_document
from catalog.ready_catalog import Catalog
from catalog.stock import StockEntry, StockFile
from planner import StockLength


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """What there is to cut from.

    entries : as written
    lengths : the same for the planner
    kerf_mm : what one cut takes [mm]
    keep_offcut_from_mm : end pieces at least this long are kept; None when none are [mm]
    content : of the file, byte for byte
    """

    entries: StockFile
    lengths: tuple[StockLength, ...]
    kerf_mm: float
    keep_offcut_from_mm: float | None
    content: bytes

    @property
    def text(self) -> str:
        """What the file says."""
        return self.content.decode("utf-8-sig", errors="replace")


def read_stock(path: Path, catalog: Catalog) -> Stock:
    """The stock in a stock file, of lines in the catalog.

    Raises CatalogProblems with everything that is wrong in the file.
    """
    document = read_document(path)
    entries, problems = opened_stock(document, line_ids=catalog.lines)
    if entries is None or problems:
        raise CatalogProblems(problems)
    return Stock(
        entries=entries,
        lengths=tuple(_to_length(entry) for entry in entries.stock),
        kerf_mm=entries.kerf,
        keep_offcut_from_mm=entries.keep_offcut_from,
        content=document.content,
    )


def _to_length(entry: StockEntry) -> StockLength:
    return StockLength(
        id=entry.id,
        line_id=entry.line,
        length_mm=entry.length,
        quantity=entry.quantity,
        is_offcut=entry.offcut,
        price=entry.price,
    )


def holds_stock(path: Path) -> bool:
    """Whether a file is a stock file, sound or not."""
    return read_document(path).is_stock


def opened_stock(document: Document, *, line_ids: Collection[str]) -> tuple[StockFile | None, list[Problem]]:
    """The stock file as accepted, or None, and everything that is wrong with it."""
    problems = list(document.problems)
    raw = document.text.value
    if not isinstance(raw, dict):
        return None, problems
    if document.is_job:
        given, allowed = "this is a job file", "a stock file is wanted here"
        return None, [*problems, document.problem((), given=given, allowed=allowed)]
    problems.extend(format_problems(document))
    entries: StockFile | None = None
    complaints: list[Complaint] = []
    try:
        entries = StockFile.model_validate(raw)
    except ValidationError as error:
        found = complaints_of(error, annotation=StockFile, value=raw)
        complaints.extend(complaint for complaint in found if complaint[0] != ("format",))
    complaints.extend(islice(_between_entries(document, line_ids), MOST_PROBLEMS))
    problems.extend(document.problem(path, given=given, allowed=allowed) for path, given, allowed in complaints)
    return entries, with_end(sorted(dict.fromkeys(problems), key=lambda problem: problem.line))


def _between_entries(document: Document, line_ids: Collection[str]) -> Iterator[Complaint]:
    """Ids given twice, lines that are not there, offcuts without end: told also where another field is refused."""
    raw = document.text.value
    items = raw.get("stock") if isinstance(raw, dict) else None
    first: dict[str, int] = {}
    for place, item in enumerate(items if isinstance(items, list) else ()):
        if not isinstance(item, dict):
            continue
        id_, line = item.get("id"), item.get("line")
        if isinstance(id_, str) and first.setdefault(id_, place) != place:
            where = f"{document.file}:{document.text.line_of(('stock', first[id_], 'id'))}"
            yield ("stock", place, "id"), f"{id_} is already given at {where}", "an id of its own for each"
        if isinstance(line, str) and line not in line_ids:
            yield ("stock", place, "line"), f"there is no line {line}", did_you_mean(line, line_ids)
        if item.get("offcut") is True and item.get("quantity") is None:
            given = "nothing was given"
            yield ("stock", place, "quantity"), given, "how many there are must be given for an offcut, such as 1"
