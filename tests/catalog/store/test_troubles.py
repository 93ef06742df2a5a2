"""Whatever the database says no to is a sentence: rights, locks, full disks, files that may only be read."""

import os
import resource
import sqlite3
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from catalog.store import Store, open_store
from catalog.store_errors import NotInStore, StoreError, StoreUnreachable
from catalog.store_things import QuoteState
from catalog.store_upgrade import upgrade_store
from catalog.store_version import known_versions
from tests.catalog.store.postgres_server import PostgresServer
from tests.catalog.store.test_documents import hose
from tests.ui.shop_samples import CATALOG, TRAIL, lineplan

NOBODY = 65534


@contextmanager
def as_a_stranger() -> Iterator[None]:
    """Files may be read and written as somebody may who does not own them; root could else do everything."""
    was = os.geteuid()
    if was == 0:
        os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(was)


@pytest.fixture
def open_folder() -> Iterator[Path]:
    """A folder that strangers may look into."""
    with tempfile.TemporaryDirectory(prefix="lineplan-store-") as name:
        os.chmod(name, 0o755)
        yield Path(name)


def refused_like(place: str, *said: str) -> None:
    """Every kind of work that writes says why it may not, in one sentence; what only reads may be allowed."""
    by = ("--by", "Mira")
    for words in (
        ("jobs",),
        ("save", TRAIL, *CATALOG, *by),
        ("store", "import", CATALOG[1], *by),
        ("store", "upgrade"),
    ):
        result = lineplan(*words, "--store", place)
        if result.exit_code == 0 and "--by" not in words:
            continue
        assert result.exit_code == 2, (words, result.output)
        assert any(word in result.stderr for word in said), (words, result.stderr)
        assert len(result.stderr.strip().splitlines()) == 1, result.stderr


def test_a_role_without_rights_is_told_what_is_missing(postgres_server: PostgresServer) -> None:
    import psycopg

    url = postgres_server.new_database()
    open_store(url).close()
    with psycopg.connect(url, autocommit=True) as connection:
        connection.execute("DROP ROLE IF EXISTS visitor")
        connection.execute("CREATE ROLE visitor LOGIN")
    place = url.replace("bench@", "visitor@", 1)
    refused_like(place, "permission denied", "must be owner")
    with pytest.raises(StoreUnreachable, match=r"permission denied for table .*; whoever runs the database"):
        open_store(place)


def test_a_role_that_may_only_look_is_told_at_the_first_save(postgres_server: PostgresServer) -> None:
    import psycopg

    url = postgres_server.new_database()
    open_store(url).close()
    with psycopg.connect(url, autocommit=True) as connection:
        connection.execute("DROP ROLE IF EXISTS reader")
        connection.execute("CREATE ROLE reader LOGIN")
        connection.execute("GRANT SELECT ON ALL TABLES IN SCHEMA public TO reader")
    with open_store(url.replace("bench@", "reader@", 1)) as store:
        assert store.documents.list_current() == ()
        with pytest.raises(StoreUnreachable, match=r"permission denied for table document"):
            store.documents.save(hose(5.0), by="Mira")


def test_a_database_that_may_only_be_read_is_told(postgres_server: PostgresServer) -> None:
    import psycopg

    url = postgres_server.new_database()
    empty = postgres_server.new_database()
    open_store(url).close()
    with psycopg.connect(url, autocommit=True) as connection:
        for one in (url, empty):
            name = one.rpartition("/")[2]
            connection.execute(f"ALTER DATABASE {name} SET default_transaction_read_only = on".encode())
    for one in (url, empty):
        refused_like(one, "it may only be read here", "has tables of version none")


def test_a_file_that_may_only_be_read_is_told(open_folder: Path) -> None:
    place = open_folder / "bench.sqlite"
    upgrade_store(place, to_version=known_versions()[1])
    with as_a_stranger():
        with pytest.raises(StoreUnreachable, match=r"only be read|may be written"):
            upgrade_store(place)
        refused_like(str(place), "may only be read", "may be written", "needs")
        with pytest.raises(StoreUnreachable, match="may be written"):
            open_store(open_folder / "new.sqlite")
    assert sorted(path.name for path in open_folder.iterdir()) == ["bench.sqlite"]


def test_an_upgrade_waits_for_its_turn_and_then_says_who_is_in_the_way(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("catalog.store_engine.BUSY_TIMEOUT_MS", 100)
    place = tmp_path / "bench.sqlite"
    upgrade_store(place, to_version=known_versions()[1])
    with closing(sqlite3.connect(place, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(StoreUnreachable, match=r"kept it locked for 0\.1 s; nothing was saved, try again"):
            upgrade_store(place)
        result = lineplan("store", "upgrade", "--store", place)
    assert (result.exit_code, "kept it locked" in result.stderr) == (2, True)
    upgrade_store(place)


@contextmanager
def tiny_disk(folder: Path, *, size: str = "128k") -> Iterator[Path]:
    """A disk of its own, that fills up soon."""
    done = subprocess.run(
        ["mount", "-t", "tmpfs", "-o", f"size={size}", "none", str(folder)], capture_output=True, text=True
    )
    if done.returncode:
        pytest.skip(f"no disk can be mounted here: {done.stderr.strip()}")
    try:
        yield folder
    finally:
        subprocess.run(["umount", str(folder)], check=True)


def test_a_first_save_on_a_full_disk_leaves_nothing_behind(tmp_path: Path) -> None:
    with tiny_disk(tmp_path) as disk:
        (disk / "filler").write_bytes(b"x" * 60_000)
        result = lineplan("save", TRAIL, *CATALOG, "--store", disk / "bench.sqlite", "--by", "Mira")
        assert (result.exit_code, "the disk is full; nothing was saved" in result.stderr) == (2, True), result.stderr
        assert [path.name for path in disk.iterdir()] == ["filler"]


def test_a_later_save_on_a_full_disk_keeps_what_was_there(tmp_path: Path) -> None:
    with tiny_disk(tmp_path, size="640k") as disk, open_store(tmp_path / "bench.sqlite") as store:
        store.documents.save(hose(5.0), by="Mira")
        large = hose(5.1, based_on=1)
        large.content["note"] = "x" * 800_000
        with pytest.raises(StoreUnreachable, match=r"disk is full|cannot be written"):
            store.documents.save(large, by="Mira")
        assert store.documents.current("line", "hose-50").pin.revision == 1
        assert disk


def limit_files() -> None:
    resource.setrlimit(resource.RLIMIT_FSIZE, (30_000, 30_000))


def test_a_file_that_may_not_grow_leaves_nothing_behind_either(tmp_path: Path) -> None:
    words = [sys.executable, "-m", "ui.terminal", "save", str(TRAIL), "--store", "bench.sqlite", "--by", "Mira"]
    code = "import sys; from ui.terminal import main; sys.argv = ['lineplan', *sys.argv[1:]]; main()"
    words = [sys.executable, "-B", "-c", code, *words[3:]]
    done = subprocess.run(words, cwd=tmp_path, preexec_fn=limit_files, capture_output=True, text=True, timeout=120)
    assert (done.returncode, done.stderr.count("\n")) == (2, 1), done.stderr
    assert "its disk cannot be written or read" in done.stderr
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("number", [2**31, 2**63, 10**30])
def test_a_number_beyond_all_numbers_is_not_in_the_store(store: Store, number: int) -> None:
    def ask(work: Any) -> None:
        with pytest.raises(NotInStore):
            work()

    ask(lambda: store.quotes.get(number))
    ask(lambda: store.plans.get(number))
    ask(lambda: store.quotes.move(number, QuoteState.HANDED_OVER, today=date(2031, 3, 14), based_on=1, by="Mira"))


def test_a_name_too_long_for_any_file_is_refused(tmp_path: Path) -> None:
    for create in (True, False):
        with pytest.raises(StoreError):
            open_store(tmp_path / ("x" * 300), create=create)
