"""Keeping other runs of this program off the files of a folder for a moment."""

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

try:
    import fcntl
except ImportError:  # Windows
    fcntl = None  # type: ignore[assignment]


@contextmanager
def folder_to_oneself(file: Path) -> Iterator[None]:
    """While this lasts, no other run that asks for the same holds the folder of this file; whoever is later waits.

    The folder itself is locked, so nothing is left behind, not even by a run that is killed. Editors do not ask, and
    where folders cannot be locked (Windows, some network disks) nobody waits: whoever reads, changes and writes a file
    still has to look once more, before writing, whether it says what was read.
    """
    if fcntl is None:
        yield
        return
    handle = os.open(Path(os.path.realpath(file)).parent, os.O_RDONLY)
    try:
        with suppress(OSError):  # a disk that knows no locks; the look before writing stays
            fcntl.flock(handle, fcntl.LOCK_EX)
        yield
    finally:
        os.close(handle)
