"""`lineplan store export`: the catalog written out as files, never over something the store has not read."""

import os
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import TYPE_CHECKING

from catalog import FileNotWritten, Problem, file_obstacle, file_problem, folder_obstacle, make_folder, write_file
from planner import printable_line
from ui.reports.refusals import refusals_as_sentences
from ui.shared.exit_status import ExitStatus
from ui.shared.store_place import opened_store

if TYPE_CHECKING:
    from catalog import Store


def run_export(folder: Path, *, place: str, replaces: bool) -> int:
    """Write every catalog file into a folder; returns the exit status."""
    with refusals_as_sentences():
        with opened_store(place, creates=False) as store:
            from catalog import exported_texts

            texts = exported_texts(store)
            as_read = _texts_as_read(store)
        problems = list(_slips(texts, as_read, folder, replaces=replaces))
        if problems:
            raise FileNotWritten(problems)
        make_folder(folder)
        was = {} if replaces else {name: text.encode("utf-8") for name, text in as_read.items()}
        written = [
            name
            for name, text in texts.items()
            if write_file(folder / name, text, replaces=replaces, was=was.get(name))
        ]
    told = f"{len(written)} of {len(texts)} files written, the others say the same already"
    print(f"{printable_line(str(folder))}: {told}.")
    return ExitStatus.DONE


def _texts_as_read(store: "Store") -> dict[str, str]:
    """The text of every file as the store read it last, by name."""
    return {str(file.content["name"]): str(file.content["text"]) for file in store.documents.list_current("file")}


def _slips(texts: Mapping[str, str], as_read: Mapping[str, str], folder: Path, *, replaces: bool) -> Iterator[Problem]:
    """Whatever stands in the way, all at once and before anything is written."""
    if not texts:
        yield file_problem(folder, given="the store holds no catalog", allowed="`lineplan store import FILES` first")
    in_the_way = folder_obstacle(folder)
    if in_the_way is not None:
        yield in_the_way
        return
    for name, text in texts.items():
        path = folder / name
        if Path(name).name != name:
            yield file_problem(path, given=f"the store names a file {name}", allowed="a name without a folder")
        elif not replaces and os.path.isfile(path) and _content(path) not in (text, as_read.get(name)):
            allowed = "`lineplan store import` reads it in first, --replace loses it"
            yield file_problem(path, given="it says something that the store has not read", allowed=allowed)
        elif folder.is_dir() and (problem := file_obstacle(path, replaces=True)) is not None:
            yield problem


def _content(path: Path) -> str | None:
    """What a file says; None where that cannot be told."""
    try:
        return path.read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError):
        return None
