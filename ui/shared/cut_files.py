"""The files that `lineplan cuts` writes: the picture of the cuts, the sheet to print, the stock that is left."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from catalog import Catalog, CatalogFileUnreadable, CatalogProblems, Problem, Stock, holds_stock, stock_text_after
from planner import JobCuts, draw_cut_list
from ui.shared.whole_files import write_whole


@dataclass(frozen=True, slots=True, kw_only=True)
class CutFiles:
    """Which files to write; None for each that is not wanted.

    picture : the cuts as SVG
    pdf : the cuts to print
    stock : the stock that is left, as a stock file
    """

    picture: Path | None = None
    pdf: Path | None = None
    stock: Path | None = None


def refuse_bad_targets(files: CutFiles) -> None:
    """Tell, before anything is planned, which of the files to be written cannot be meant."""
    problems = [
        *_slips(files.picture, endings=(".svg",)),
        *_slips(files.pdf, endings=(".pdf",)),
        *_slips(files.stock, endings=(".yaml", ".yml"), is_stock=True),
    ]
    if problems:
        raise CatalogProblems(problems)


def _slips(path: Path | None, *, endings: tuple[str, ...], is_stock: bool = False) -> Iterator[Problem]:
    if path is None:
        return
    if not path.parent.is_dir():
        yield _problem(path, given=f"there is no folder {path.parent}", allowed="a folder that is there")
    elif path.is_dir():
        yield _problem(path, given="this is a folder", allowed="the name of a file")
    elif is_stock and path.exists():
        if not holds_stock(path):
            allowed = "a stock file or a new name, so that nothing is lost"
            yield _problem(path, given="it is there and is no stock file", allowed=allowed)
    elif path.suffix.lower() not in endings:
        yield _problem(path, given=f"{path.name} was given", allowed=f"a name that ends in {' or '.join(endings)}")


def _problem(path: Path, *, given: str, allowed: str) -> Problem:
    return Problem(file=str(path), line=0, thing="file", field="", given=given, allowed=allowed)


def write_cut_files(files: CutFiles, *, cuts: JobCuts, stock: Stock, catalog: Catalog) -> None:
    """Write each of the files that was asked for, whole or not at all; the stock last."""
    if files.picture is not None:
        _write(files.picture, draw_cut_list(cuts.cut_list))
    if files.pdf is not None:
        _write(files.pdf, _sheet(files.pdf, cuts, catalog))
    if files.stock is not None:
        _write(files.stock, stock_text_after(stock, cuts.cut_list))


def _sheet(path: Path, cuts: JobCuts, catalog: Catalog) -> bytes:
    from planner import cut_sheet_pdf

    try:
        return cut_sheet_pdf(cuts=cuts, line_names={line.id: line.name for line in catalog.lines.values()})
    except ModuleNotFoundError as missing:
        raise CatalogFileUnreadable(
            path=str(path), line=0, found=f"{missing.name} is not installed", expected="lineplan with the extra paper"
        ) from missing


def _write(path: Path, content: str | bytes) -> None:
    try:
        write_whole(path, content)
    except OSError as error:
        reason = f"it cannot be written: {error.strerror or error}"
        raise CatalogFileUnreadable(path=str(path), line=0, found=reason, expected="a file to write to") from error
