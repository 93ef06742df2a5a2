"""What was worked out once and kept in the user's own cache folder, as plain JSON, by the content it was made from.

A thing is kept under the hash of everything it depends on: the bytes of the files it was read from, and this program.
So nothing in the folder is ever out of date, and all of it may be deleted at any time. Whatever is not as it was
written, or lies where others can write, is as good as not there, and is worked out anew.

`LINEPLAN_CACHE=off` keeps nothing and looks at nothing.
"""

import json
import os
import stat
import sys
from collections.abc import Callable, Iterator
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any

SWITCH = "LINEPLAN_CACHE"

ROOM_BYTES = 200_000_000
"""What the folder may take; the oldest things give way."""

_PACKAGES = ("catalog", "planner")
"""Whoever changes a file of these may change what is made of a catalog."""


def key_of(kind: str, *contents: str) -> str:
    """The name of a thing of some kind made from some contents, given by their hashes."""
    return hash_of(json.dumps([kind, _this_program(), *contents]).encode())


def hash_of(content: bytes) -> str:
    """The hash of some bytes."""
    return sha256(content).hexdigest()


def find_value(key: str) -> Any:
    """The plain value kept under a key; None where there is none, or it is not as it was written."""
    text = find_text(key)
    try:
        return None if text is None else json.loads(text)
    except ValueError:
        return None


def as_text(value: object) -> bytes:
    """A plain value as the text of JSON that is kept."""
    return json.dumps(value, separators=(",", ":")).encode()


def find_text(key: str) -> bytes | None:
    """The same before it is read: whole, and as it was written under this very key."""
    folder = _folder()
    if folder is None:
        return None
    try:
        seal, _, text = (folder / key).read_bytes().partition(b"\n")
    except OSError:
        return None
    return text if seal == _seal(key, text) else None


def keep(key: str, make: Callable[[], bytes]) -> None:
    """Keep a text of JSON under a key; where that cannot be, it is not kept, and nobody needs to know.

    make : makes the text, and is only called where it is kept
    """
    folder = _folder()
    if folder is None:
        return
    text = make()
    half = folder / f"{key}.{os.getpid()}.part"
    try:
        with open(os.open(half, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600), "wb") as file:
            file.write(_seal(key, text) + b"\n" + text)
        os.replace(half, folder / key)
        _make_room(folder)
    except OSError:
        return


@cache
def _this_program() -> str:
    """The hash of this program as it is installed now: the names, sizes and dates of its files, and its Python."""
    root = Path(__file__).parents[1]
    files = sorted(file for package in _PACKAGES for file in _files_below(str(root / package)))
    return hash_of("\n".join((sys.version, *files)).encode())


def _files_below(folder: str) -> Iterator[str]:
    with os.scandir(folder) as entries:
        for entry in entries:
            if entry.is_dir():
                yield from () if entry.name == "__pycache__" else _files_below(entry.path)
            else:
                found = entry.stat()
                yield f"{entry.path} {found.st_size} {found.st_mtime_ns}"


def _seal(key: str, text: bytes) -> bytes:
    """What stands before the text: it fits neither another text nor another key."""
    return sha256(key.encode() + text).hexdigest().encode()


def _folder() -> Path | None:
    """The folder, made where it is not there; None where nothing is to be kept, or others could write into it."""
    if os.environ.get(SWITCH, "").lower() == "off":
        return None
    try:
        folder = _place_of_caches() / "lineplan"
        folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        found = os.lstat(folder)
    except (OSError, RuntimeError, ValueError):  # no home, no right, no such name
        return None
    return folder if stat.S_ISDIR(found.st_mode) and _is_our_own(found) else None


def _is_our_own(found: os.stat_result) -> bool:
    """Whether nobody else may write there, or even look; on Windows the user's own folders are."""
    return sys.platform == "win32" or (found.st_uid == os.getuid() and stat.S_IMODE(found.st_mode) & 0o077 == 0)


def _place_of_caches() -> Path:
    told = os.environ.get("XDG_CACHE_HOME", "")
    if os.path.isabs(told):
        return Path(told)
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    return Path.home() / ("Library/Caches" if sys.platform == "darwin" else ".cache")


@cache
def _make_room(folder: Path) -> None:
    """Let the oldest things go until the rest has room; once in the life of a program is often enough."""
    kept = sorted((entry.stat().st_mtime_ns, entry.stat().st_size, entry.path) for entry in os.scandir(folder))
    taken = sum(size for _, size, _ in kept)
    for _, size, path in kept:
        if taken <= ROOM_BYTES:
            return
        os.unlink(path)
        taken -= size
