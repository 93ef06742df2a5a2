"""From the names of files and folders to what stands in the files, byte for byte, before any of it is understood."""

import os
import stat
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from catalog.errors import CatalogFileUnreadable

CATALOG_SUFFIXES = (".yaml", ".yml")
BIGGEST_FILE_BYTES = 5_000_000


@dataclass(frozen=True, slots=True, kw_only=True)
class FileContent:
    """One file.

    file : as the user named it
    content : byte for byte; nothing where it could not be read
    unreadable : why it could not
    """

    file: str
    content: bytes = b""
    unreadable: CatalogFileUnreadable | None = None


def read_contents(paths: Sequence[Path]) -> list[FileContent]:
    """Every file named, and every catalog or job file in the folders named, in order and each once."""
    contents: list[FileContent] = []
    seen: set[str] = set()
    for path in paths:
        try:
            for file, place in _files_in(path):
                if place not in seen:
                    seen.add(place)
                    contents.append(content_at(file))
        except CatalogFileUnreadable as unreadable:
            contents.append(FileContent(file=str(path), unreadable=unreadable))
    return contents


def _files_in(path: Path) -> list[tuple[Path, str]]:
    """The file, or the files in the folder, each with the place where it truly lies."""
    try:
        if not path.is_dir():
            return [(path, str(path) if "\0" in str(path) else os.path.realpath(path))]
        with os.scandir(path) as found:
            files = [
                entry for entry in found if os.path.splitext(entry.name)[1] in CATALOG_SUFFIXES and entry.is_file()
            ]
        folder = os.path.realpath(path)
    except (OSError, ValueError) as error:
        raise _unreadable(path, error) from error
    if not files:
        raise CatalogFileUnreadable(
            path=str(path), line=0, found="a folder without catalog files", expected="files that end in .yaml or .yml"
        )
    return [(Path(entry.path), _place_of(entry, folder)) for entry in sorted(files, key=lambda entry: entry.name)]


def _place_of(entry: os.DirEntry[str], folder: str) -> str:
    return os.path.realpath(entry.path) if entry.is_symlink() else os.path.join(folder, entry.name)


def content_at(path: Path) -> FileContent:
    """One file; that it cannot be read is told with it."""
    try:
        return FileContent(file=str(path), content=read_content(path))
    except (OSError, ValueError) as error:
        return FileContent(file=str(path), unreadable=_unreadable(path, error))


def ordinary_content(path: Path) -> bytes:
    """What stands in one file that a person named.

    Raises CatalogFileUnreadable where it cannot be read.
    """
    found = content_at(path)
    if found.unreadable is not None:
        raise found.unreadable
    return found.content


def read_content(path: Path) -> bytes:
    """What stands in an ordinary file; of one that is too big to be read, as much as shows it.

    Raises OSError where it cannot be read, or is a pipe, a device or anything else that need not have an end.
    """
    with open(os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0)), "rb") as file:
        if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
            raise OSError(None, "it is no ordinary file")
        return file.read(BIGGEST_FILE_BYTES + 1)


def _unreadable(path: Path, error: Exception) -> CatalogFileUnreadable:
    if isinstance(error, FileNotFoundError):
        return CatalogFileUnreadable(
            path=str(path), line=0, found="there is no such file", expected="the name of a file or a folder"
        )
    reason = getattr(error, "strerror", None) or str(error)
    return CatalogFileUnreadable(
        path=str(path), line=0, found=f"it cannot be read: {reason}", expected="a readable file"
    )
