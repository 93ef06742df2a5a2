"""The files that `lineplan cuts` writes: the picture of the cuts and the stock that is left."""

from pathlib import Path

from catalog import CatalogFileUnreadable, CatalogProblems, Problem, Stock, holds_stock, stock_text_after
from planner import CutList, draw_cut_list
from ui.whole_files import write_whole


def refuse_bad_targets(*, picture: Path | None, write_stock: Path | None) -> None:
    """Tell, before anything is planned, which of the files to be written cannot be meant."""
    problems: list[Problem] = []
    for path in (picture, write_stock):
        if path is not None and not path.parent.is_dir():
            problems.append(_problem(path, given=f"there is no folder {path.parent}", allowed="a folder that is there"))
        elif path is not None and path.is_dir():
            problems.append(_problem(path, given="this is a folder", allowed="the name of a file"))
        elif path is not None and path == picture and path.suffix.lower() != ".svg":
            problems.append(_problem(path, given=f"{path.name} was given", allowed="a name that ends in .svg"))
        elif path is not None and path == write_stock and path.exists() and not holds_stock(path):
            given = "it is there and is no stock file"
            problems.append(_problem(path, given=given, allowed="a stock file or a new name, so that nothing is lost"))
    if problems:
        raise CatalogProblems(problems)


def write_cut_files(cut_list: CutList, stock: Stock, *, picture: Path | None, write_stock: Path | None) -> None:
    """Write each of the files that was asked for, whole or not at all."""
    texts = {}
    if picture is not None:
        texts[picture] = draw_cut_list(cut_list)
    if write_stock is not None:
        texts[write_stock] = stock_text_after(stock, cut_list)
    for path, text in texts.items():
        try:
            write_whole(path, text)
        except OSError as error:
            reason = f"it cannot be written: {error.strerror or error}"
            raise CatalogFileUnreadable(path=str(path), line=0, found=reason, expected="a file to write to") from error


def _problem(path: Path, *, given: str, allowed: str) -> Problem:
    return Problem(file=str(path), line=0, thing="file", field="", given=given, allowed=allowed)
