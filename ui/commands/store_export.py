"""`lineplan store export`: the catalog written out as files, never over something the store has not read."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from catalog import CatalogFileUnreadable, CatalogProblems, Problem
from planner import printable_line
from ui.reports.refusals import refusals_as_sentences
from ui.shared.store_place import opened_store
from ui.shared.target_files import write_target

if TYPE_CHECKING:
    from catalog import Store

EXIT_DONE = 0


def run_export(folder: Path, *, place: str, replaces: bool) -> int:
    """Write every catalog file into a folder; returns the exit status."""
    with refusals_as_sentences():
        with opened_store(place, creates=False) as store:
            from catalog import exported_texts

            texts = exported_texts(store)
            as_read = _texts_as_read(store)
        problems = list(_slips(texts, as_read, folder, replaces=replaces))
        if problems:
            raise CatalogProblems(problems)
        _make_folder(folder)
        written = [name for name, text in texts.items() if _write(folder / name, text)]
    told = f"{len(written)} of {len(texts)} files written, the others say the same already"
    print(f"{printable_line(str(folder))}: {told}.")
    return EXIT_DONE


def _texts_as_read(store: "Store") -> dict[str, str]:
    """The text of every file as the store read it last, by name."""
    return {str(file.content["name"]): str(file.content["text"]) for file in store.documents.list_current("file")}


def _slips(texts: Mapping[str, str], as_read: Mapping[str, str], folder: Path, *, replaces: bool) -> Iterator[Problem]:
    """Whatever stands in the way, all at once and before anything is written."""
    if not texts:
        yield _problem(folder, given="the store holds no catalog", allowed="`lineplan store import FILES` first")
    if folder.exists() and not folder.is_dir():
        yield _problem(folder, given="this is a file", allowed="the name of a folder")
    for name, text in texts.items():
        path = folder / name
        if Path(name).name != name:
            yield _problem(path, given=f"the store names a file {name}", allowed="a name without a folder")
        elif not replaces and path.exists() and _content(path) not in (text, as_read.get(name)):
            allowed = "`lineplan store import` reads it in first, --replace loses it"
            yield _problem(path, given="it says something that the store has not read", allowed=allowed)


def _problem(path: Path, *, given: str, allowed: str) -> Problem:
    return Problem(file=str(path), line=0, thing="file", field="", given=given, allowed=allowed)


def _content(path: Path) -> str | None:
    """What a file says; None where that cannot be told."""
    try:
        return path.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError):
        return None


def _make_folder(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        reason = f"it cannot be made: {error.strerror or error}"
        raise CatalogFileUnreadable(path=str(folder), line=0, found=reason, expected="a folder") from error


def _write(path: Path, text: str) -> bool:
    """Write a file unless it says the same already."""
    if path.exists() and _content(path) == text:
        return False
    write_target(path, text)
    return True
