"""The files that `lineplan cuts` writes: the picture of the cuts, the sheet to print, the stock that is left."""

import os
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from catalog import (
    Catalog,
    FileNotWritten,
    Stock,
    file_problem,
    folder_to_oneself,
    holds_stock,
    stock_text_after,
    taken_entry,
    write_file,
)
from planner import JobCuts, cut_sheet_pdf, draw_cut_list
from ui.shared.extras import refuse_without
from ui.shared.target_files import Target, target_problems


@dataclass(frozen=True, slots=True, kw_only=True)
class CutFiles:
    """Which files to write; None for each that is not wanted.

    picture : the cuts as SVG
    pdf : the cuts to print
    stock : the stock that is left, as a stock file; the one that is read may be named, and is then kept up to date
    replaces : whether other files that are there may be lost
    """

    picture: Path | None = None
    pdf: Path | None = None
    stock: Path | None = None
    replaces: bool = False


def refuse_bad_cut_files(files: CutFiles, *, stock_file: Path) -> None:
    """Tell, before anything is planned, which of the files to be written cannot be meant or would lose something.

    Raises FileNotWritten where there is any.
    """
    if files.pdf is not None:
        refuse_without("paper")
    problems = target_problems(
        Target(path=files.picture, endings=(".svg",), replaces=files.replaces),
        Target(path=files.pdf, endings=(".pdf",), replaces=files.replaces),
        _stock_target(files, stock_file),
    )
    if _is_lost_on_stock(files.stock):
        given, allowed = "it is there and is no stock file", "a stock file or a new name, so that nothing is lost"
        problems.append(file_problem(files.stock, given=given, allowed=allowed))
    if problems:
        raise FileNotWritten(problems)


def write_cut_files(
    files: CutFiles, *, cuts: JobCuts, stock: Stock, stock_file: Path, catalog: Catalog, taken_on: date | None
) -> None:
    """Write each of the files that was asked for, the stock last; none where the stock was changed meanwhile.

    taken_on : the day the stock is taken; None where it was taken before, and stays as it is

    Raises FileNotWritten where one cannot be written, or the stock was changed since it was read.
    """
    was = stock.content if _is_kept_up(files, stock_file) else None
    with folder_to_oneself(stock_file):
        if was is not None and _content_now(stock_file) != was:
            allowed = "once more from the start, with what it says now"
            raise FileNotWritten([file_problem(stock_file, given="it was changed since it was read", allowed=allowed)])
        text = stock.text
        if taken_on is not None:
            text = stock_text_after(stock, cuts.cut_list, taken=taken_entry(cuts, on=taken_on))
        if files.picture is not None:
            write_file(files.picture, draw_cut_list(cuts.cut_list).svg, replaces=files.replaces)
        if files.pdf is not None:
            names = {line.id: line.name for line in catalog.lines.values()}
            write_file(files.pdf, cut_sheet_pdf(cuts=cuts, line_names=names), replaces=files.replaces)
        if files.stock is not None and (was is None or taken_on is not None):
            write_file(files.stock, text, replaces=files.replaces, was=was)


def _content_now(path: Path) -> bytes:
    try:
        return path.read_bytes()
    except OSError:
        return b""  # it is not what was read, whatever became of it


def _stock_target(files: CutFiles, stock_file: Path) -> Target:
    """A stock file that is there may have any name; one that is no stock file is told on its own."""
    path = files.stock
    if path is None or _is_lost_on_stock(path):
        return Target(path=None, endings=(), replaces=False)
    endings = (path.suffix.lower(),) if os.path.isfile(path) else (".yaml", ".yml")
    return Target(path=path, endings=endings, replaces=files.replaces or _is_kept_up(files, stock_file))


def _is_lost_on_stock(path: Path | None) -> bool:
    return path is not None and os.path.isfile(path) and not holds_stock(path)


def _is_kept_up(files: CutFiles, stock_file: Path) -> bool:
    """Whether the stock that is left goes into the file it was read from."""
    return files.stock is not None and os.path.realpath(files.stock) == os.path.realpath(stock_file)
