"""The one writer of files: whole or not at all, and over a file of yours only where you asked for it.

The new file lies complete on the disk, beside the old one, before it takes its name; then the folder is settled too.
Links are followed. An old file's owner, group and mode are kept; a new file's mode is the one the umask leaves. A
second name of the same file (a hard link) goes on naming the old one.
"""

import os
import stat
import sys
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from secrets import token_hex
from typing import BinaryIO

from catalog.errors import FileNotWritten, Problem, file_problem

BESIDE = ".lineplan-{}.new"
"""The name a file has until it is whole; short, for the name it is to take may be as long as names can be."""


def write_file(path: Path, content: str | bytes, *, replaces: bool = False, was: bytes | None = None) -> bool:
    """Write a file; tells whether there was anything to write, for one that says just this already is left alone.

    replaces : whether a file that is there may be lost
    was : what the file said when it was read: as long as it still does, it may be replaced; once it says anything
        else it is not, whatever `replaces` says

    Raises FileNotWritten where something stands in the way; then everything is as it was.
    """
    new, found = _bytes(content), _content(path)
    if found == new:
        return False
    if was is not None and found is not None and found != was:
        allowed = "once more from the start, with what it says now"
        raise FileNotWritten([file_problem(path, given="it was changed since it was read", allowed=allowed)])
    may_replace = replaces or was is not None
    in_the_way = file_obstacle(path, replaces=may_replace)
    if in_the_way is not None:
        raise FileNotWritten([in_the_way])
    try:
        _put(_behind_links(path), [new], may_replace=may_replace)
    except OSError as error:
        raise FileNotWritten([_refused(path, error)]) from error
    return True


def write_pieces(path: Path, pieces: Iterable[bytes], *, replaces: bool) -> None:
    """Write a file too large to be held at once; whole or not at all.

    replaces : whether a file that is there may be lost

    Raises FileNotWritten where something stands in the way; then everything is as it was.
    """
    in_the_way = file_obstacle(path, replaces=replaces)
    if in_the_way is not None:
        raise FileNotWritten([in_the_way])
    try:
        _put(_behind_links(path), pieces, may_replace=replaces)
    except OSError as error:
        raise FileNotWritten([_refused(path, error)]) from error


def write_all(contents: Mapping[Path, str | bytes], *, replaces: bool) -> None:
    """Write several files; where anything stands in the way of one, none.

    replaces : whether files that say something else may be lost

    Raises FileNotWritten with everything that stands in the way.
    """
    found = (file_obstacle(path, replaces=replaces, content=content) for path, content in contents.items())
    problems = [problem for problem in found if problem is not None]
    if problems:
        raise FileNotWritten(problems)
    for path, content in contents.items():
        write_file(path, content, replaces=replaces)


def file_obstacle(path: Path, *, replaces: bool, content: str | bytes | None = None) -> Problem | None:
    """What stands in the way of writing a file, found without writing it; None where nothing does.

    replaces : whether a file that is there may be lost
    content : what it is to say, once that is known: a file that says just this is not in the way
    """
    if content is not None and _content(path) == _bytes(content):
        return None
    try:
        before = _stat(path)
        if before is not None and stat.S_ISDIR(before.st_mode):
            return file_problem(path, given="this is a folder", allowed="the name of a file")
        if before is not None and not stat.S_ISREG(before.st_mode):
            return file_problem(path, given="this is no ordinary file", allowed="the name of a file")
        if before is not None and not replaces:
            allowed = "a name that is not in use, or --replace to lose what it says"
            return file_problem(path, given="it is there already", allowed=allowed)
        target = _behind_links(path)
        if not target.parent.is_dir():
            missing = target.parent if path.is_symlink() else path.parent
            return file_problem(path, given=f"there is no folder {missing}", allowed="a folder that is there")
        if before is not None and not _is_writable(target):
            return file_problem(path, given="it is read-only", allowed="a file to write to")
        with _new_file_beside(target, before):
            return None
    except (OSError, ValueError) as error:
        return _refused(path, error)


def folder_obstacle(folder: Path) -> Problem | None:
    """What stands in the way of writing into a folder, which may be still to be made; None where nothing does."""
    try:
        place = next(place for place in (folder, *folder.absolute().parents) if _stat(place) is not None)
        if not place.is_dir():
            return file_problem(folder, given=f"{place} is a file", allowed="the name of a folder")
        with _new_file_beside(place / "any", None):
            return None
    except (OSError, ValueError) as error:
        return _refused(folder, error, allowed="a folder to write to")


def make_folder(folder: Path) -> None:
    """Make a folder where there is none, and those above it.

    Raises FileNotWritten where that cannot be done.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except (OSError, ValueError) as error:
        raise FileNotWritten([_refused(folder, error, allowed="a folder to write to")]) from error


def _refused(path: Path, error: OSError | ValueError, *, allowed: str = "a file to write to") -> Problem:
    """What the system says against it."""
    reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return file_problem(path, given=f"it cannot be written: {reason}", allowed=allowed)


def _behind_links(path: Path) -> Path:
    return Path(os.path.realpath(path))


def _stat(path: Path) -> os.stat_result | None:
    """What is known of a file, behind its links; None where there is none."""
    try:
        return os.stat(path)
    except FileNotFoundError:
        return None


def _bytes(content: str | bytes) -> bytes:
    return content.encode("utf-8") if isinstance(content, str) else content


def _content(path: Path) -> bytes | None:
    """What a file says; None where there is none, or none that can be read."""
    try:
        there = _stat(path)
        return path.read_bytes() if there is not None and stat.S_ISREG(there.st_mode) else None
    except (OSError, ValueError):
        return None


def _is_writable(path: Path) -> bool:
    return os.access(path, os.W_OK, effective_ids=os.access in os.supports_effective_ids)


def _put(target: Path, pieces: Iterable[bytes], *, may_replace: bool) -> None:
    before = _stat(target) if may_replace else None
    with _new_file_beside(target, before) as (file, beside):
        file.writelines(pieces)
        file.flush()
        os.fsync(file.fileno())
        file.close()
        if before is None:
            _take_free_name(beside, target)
        else:
            os.replace(beside, target)
    _settle(target.parent)


@contextmanager
def _new_file_beside(target: Path, before: os.stat_result | None) -> Iterator[tuple[BinaryIO, Path]]:
    """A file in the same folder, owned and allowed as the one it is to replace; gone unless it is renamed."""
    beside = target.parent / BESIDE.format(token_hex(8))
    kind = os.O_WRONLY | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)
    handle = os.open(beside, kind, 0o666 if before is None else 0o600)
    try:
        with os.fdopen(handle, "wb") as file:
            if before is not None:
                _give(handle, before)
            yield file, beside
    finally:
        beside.unlink(missing_ok=True)


def _give(handle: int, before: os.stat_result) -> None:
    """Owner, group and mode of the file that was; one that cannot be given back to its owner is not taken from them."""
    if sys.platform == "win32":
        return
    made = os.fstat(handle)
    if (made.st_uid, made.st_gid) != (before.st_uid, before.st_gid):
        try:
            os.fchown(handle, before.st_uid, before.st_gid)
        except PermissionError as error:
            raise PermissionError(error.errno, "it belongs to somebody else, and would not any more") from error
    os.fchmod(handle, stat.S_IMODE(before.st_mode))


def _take_free_name(beside: Path, target: Path) -> None:
    """Give a new file its name, but never one that somebody else took meanwhile."""
    try:
        os.link(beside, target)
    except FileExistsError:
        raise
    except OSError:  # some disks know no second name of a file
        if os.path.lexists(target):
            raise
        os.replace(beside, target)


def _settle(folder: Path) -> None:
    """The new name is on the disk too; where folders cannot be opened (Windows), the system sees to it."""
    try:
        handle = os.open(folder, os.O_RDONLY)
    except OSError:
        return
    try:
        os.fsync(handle)
    except OSError:
        pass  # some network folders cannot; the file itself is safe
    finally:
        os.close(handle)
