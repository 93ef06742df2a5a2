"""A store kept in one file, copied while it is used, and put back from such a copy.

SQLite copies itself page by page as the store was at one moment; whoever saves meanwhile waits for nothing. Putting
back goes the same way round, so that programs which have the store open go on with what was put back. A database server
has its own tools for both.
"""

import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any
from urllib.parse import quote

from sqlalchemy.engine import URL

from catalog.errors import CatalogError
from catalog.store_address import shown_place, url_of_store
from catalog.store_check import StoreCheck, check_store
from catalog.store_engine import BUSY_TIMEOUT_MS, make_engine, switch_to_write_ahead_log, translated
from catalog.store_errors import BackupRefused, StoreRefused, StoreUnreachable
from catalog.store_upgrade import make_store_file, upgrade_store
from catalog.store_version import newest_version, refuse_newer, version_of
from catalog.write_files import write_pieces

PIECE_BYTES = 1 << 20
SERVER_WAYS = (
    "that is a database server's: back it up with its own tools, such as pg_dump and pg_restore; "
    "`lineplan store export` writes its catalog out as files"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class StoreCopy:
    """A copy of a store, as long as it lies in a folder of its own.

    path : where it lies
    check : what a look through it found
    """

    path: Path
    check: StoreCheck

    def pieces(self) -> Iterator[bytes]:
        """All of it, piece by piece."""
        with open(self.path, "rb") as file:
            while piece := file.read(PIECE_BYTES):
                yield piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Restored:
    """What was put back.

    counts : how many there are of each, by what they are
    aside : where the store lies that was there before; None where there was none
    upgraded_from : the version its tables had; "" where it was this program's
    can_undo : whether what lies aside can be put back in turn
    """

    counts: dict[str, int]
    aside: Path | None
    upgraded_from: str
    can_undo: bool


@contextmanager
def copied_store(place: str | Path) -> Iterator[StoreCopy]:
    """A copy of the store as it is at one moment, looked through; everything acknowledged before is in it.

    Raises StoreRefused for a database server's.
    """
    file = _file_of(place)
    with TemporaryDirectory(prefix="lineplan-") as folder:
        copy = Path(folder) / "copy.sqlite"
        with translated(make_engine(_url(file))):
            _copy(file, copy)
        yield StoreCopy(path=copy, check=check_store(make_engine(_url(copy), keep_connections=False)))


def keep_aside(place: str | Path, aside: Path) -> None:
    """Lay a copy of the store beside it, whatever version its tables have.

    Raises FileNotWritten where something has this name, StoreRefused for a database server's.
    """
    file = _file_of(place)
    with TemporaryDirectory(prefix="lineplan-") as folder, translated(make_engine(_url(file))):
        copy = Path(folder) / "copy.sqlite"
        _copy(file, copy)
        _write(copy, aside)


def restore_store(place: str | Path, backup: Path, *, aside: Path) -> Restored:
    """Put a copy back in place of the store, once it was looked through; what was there is laid aside first.

    backup : the copy, or a store that is in use; it stays as it is
    aside : the name for what was there before

    Raises BackupRefused where the copy is damaged, newer than this program or no store at all: nothing is changed then.
    """
    file = _file_of(place, may_be_missing=True)
    can_undo = True
    with TemporaryDirectory(prefix="lineplan-") as folder:
        copy = Path(folder) / "copy.sqlite"
        check, upgraded_from = _sound_copy(backup, copy)
        if not file.exists():
            _write(copy, file)
            _prepare(file)
            return Restored(counts=check.counts, aside=None, upgraded_from=upgraded_from, can_undo=False)
        with translated(make_engine(_url(file))):
            try:
                _put_back(copy, file, aside)
            except sqlite3.DatabaseError as problem:
                if not _is_beyond_reading(problem):
                    raise
                can_undo = False
                _put_in_place_of(copy, file, aside)
    return Restored(counts=check.counts, aside=aside, upgraded_from=upgraded_from, can_undo=can_undo)


def draft_versions_in(backup: Path) -> dict[str, int]:
    """The forms that were being filled in when a copy was made, with their versions; none of what cannot be read."""
    try:
        with closing(_connect(backup)) as connection:
            return dict(connection.execute("SELECT id, version FROM draft"))
    except sqlite3.DatabaseError:
        return {}


def file_of_store(place: str | Path) -> Path | None:
    """The file that a store is; None where it is a database server's."""
    url = url_of_store(place)
    return Path(url.database or "") if url.get_backend_name() == "sqlite" else None


def _file_of(place: str | Path, *, may_be_missing: bool = False) -> Path:
    file = file_of_store(place)
    if file is None:
        raise StoreRefused(thing="store", given=shown_place(url_of_store(place)), rule=SERVER_WAYS)
    if not may_be_missing and not os.path.isfile(file):
        raise StoreUnreachable(place=str(file), why="there is no such file")
    return file


def _url(file: Path) -> URL:
    return URL.create("sqlite", database=str(file))


def _connect(file: Path) -> sqlite3.Connection:
    """A connection that makes no file, and waits as long as the store's own."""
    address = f"file:{quote(os.path.abspath(file))}?mode=rw"
    return sqlite3.connect(address, uri=True, timeout=BUSY_TIMEOUT_MS / 1000, isolation_level=None)


def _copy(file: Path, to: Path) -> None:
    """All pages in one step, so as they were at one moment; in one file, without a log beside it."""
    with closing(_connect(file)) as source, closing(sqlite3.connect(to)) as target:
        source.backup(target, progress=_waiting())
        target.execute("PRAGMA journal_mode = DELETE")
    os.chmod(to, 0o600)


def _waiting() -> Any:
    """Told after each step of a copy; one that is kept out for too long is given up, for SQLite never does."""
    end = time.monotonic() + BUSY_TIMEOUT_MS / 1000

    def step(status: int, _left: int, _all: int) -> None:
        if status in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED) and time.monotonic() > end:
            raise sqlite3.OperationalError("database is locked")

    return step


def _sound_copy(backup: Path, copy: Path) -> tuple[StoreCheck, str]:
    """The backup copied, upgraded and looked through; with the version it had, "" for this program's."""
    name = backup.name
    if not os.path.isfile(backup):
        raise BackupRefused(name=name, why="there is no such file")
    try:
        _copy(backup, copy)
        engine = make_engine(_url(copy), keep_connections=False)
        found = version_of(engine)
        if not found:
            raise BackupRefused(name=name, why="it is no store of this program")
        refuse_newer(engine, found)
        if found != newest_version():
            upgrade_store(copy)
        _refuse_other_tables(copy, name)
        check = check_store(engine)
    except sqlite3.DatabaseError as problem:
        raise BackupRefused(name=name, why=f"it cannot be read as a store ({problem})") from problem
    except BackupRefused:
        raise
    except CatalogError as problem:
        raise BackupRefused(name=name, why=str(problem).replace(str(copy), name)) from problem
    if check.damages:
        told = "; ".join(str(damage) for damage in check.damages[:3])
        raise BackupRefused(name=name, why=f"what is in it is not as it was saved, in {len(check.damages)}: {told}")
    return check, "" if found == newest_version() else found


def _refuse_other_tables(copy: Path, name: str) -> None:
    """Tables and triggers are those a new store gets, so that nothing comes along that this program did not make."""
    fresh = copy.with_name("fresh.sqlite")
    make_store_file(fresh)
    if _made_of(fresh) != _made_of(copy):
        raise BackupRefused(name=name, why="its tables are not those of a store")


def _made_of(file: Path) -> dict[tuple[str, ...], list[str]]:
    """How each table and trigger was made, line by line: in which order a table tells its constraints is chance."""
    with closing(_connect(file)) as connection:
        rows = connection.execute("SELECT type, name, tbl_name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%'")
        return {row[:3]: sorted(line.strip().rstrip(",") for line in str(row[3]).splitlines()) for row in rows}


def _put_back(copy: Path, file: Path, aside: Path) -> None:
    """Page by page into the store as it lies there.

    From the first step on nobody else can save: what was acknowledged by then goes aside, and nothing is lost between.
    """
    waits, is_aside = _waiting(), False

    def step(status: int, left: int, whole: int) -> None:
        nonlocal is_aside
        waits(status, left, whole)
        if status == sqlite3.SQLITE_OK and not is_aside:
            is_aside = True
            kept = copy.with_name("aside.sqlite")
            _copy(file, kept)
            _write(kept, aside)

    with closing(_connect(file)) as target:
        _match_pages(copy, page_bytes=target.execute("PRAGMA page_size").fetchone()[0])
        with closing(_connect(copy)) as source:
            source.backup(target, pages=1, progress=step)
        switch_to_write_ahead_log(target)


def _match_pages(copy: Path, *, page_bytes: int) -> None:
    """A store in use cannot change the size of its pages."""
    with closing(_connect(copy)) as connection:
        connection.execute(f"PRAGMA page_size = {page_bytes:d}")
        connection.execute("VACUUM")


def _is_beyond_reading(problem: sqlite3.DatabaseError) -> bool:
    return problem.sqlite_errorcode in (sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_CORRUPT)


def _put_in_place_of(copy: Path, file: Path, aside: Path) -> None:
    """A store that nobody can read any more is moved aside as it is, with its log."""
    if not os.path.lexists(aside):  # it lies there already where reading failed later
        with open(file, "rb") as damaged:
            write_pieces(aside, iter(lambda: damaged.read(PIECE_BYTES), b""), replaces=False)
    for ending in ("-wal", "-shm", "-journal"):
        if os.path.exists(f"{file}{ending}"):
            os.replace(f"{file}{ending}", f"{aside}{ending}")
    _write(copy, file, replaces=True)
    _prepare(file)


def _write(copy: Path, to: Path, *, replaces: bool = False) -> None:
    with open(copy, "rb") as file:
        write_pieces(to, iter(lambda: file.read(PIECE_BYTES), b""), replaces=replaces)


def _prepare(file: Path) -> None:
    with closing(_connect(file)) as connection:
        switch_to_write_ahead_log(connection)
