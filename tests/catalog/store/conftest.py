"""Places for stores: a fresh file, and a fresh database on the tests' own PostgreSQL."""

import os
import shutil
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from catalog.store import Store, open_store
from tests.catalog.store.postgres_server import PostgresServer, empty_tables, reason_without_server, running_server


@pytest.fixture(scope="session")
def postgres_server() -> Iterator[PostgresServer]:
    """The server, started when the first test asks for it."""
    if reason := reason_without_server():
        if os.environ.get("LINEPLAN_POSTGRES_REQUIRED") == "1":
            pytest.fail(reason)
        pytest.skip(reason)
    with running_server() as server:
        yield server


@pytest.fixture(scope="session")
def filled_file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """An SQLite store with its tables, to copy from."""
    path = tmp_path_factory.mktemp("store") / "filled.sqlite"
    open_store(path).close()
    return path


@pytest.fixture(scope="session")
def filled_database(postgres_server: PostgresServer) -> str:
    """A PostgreSQL store with its tables, emptied before each test."""
    url = postgres_server.new_database()
    open_store(url).close()
    return url


@pytest.fixture(params=["sqlite", "postgresql"])
def empty_place(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """Where a store may be made, on each database in turn."""
    if request.param == "sqlite":
        return str(tmp_path / "empty.sqlite")
    server: PostgresServer = request.getfixturevalue("postgres_server")
    return server.new_database()


@pytest.fixture(params=["sqlite", "postgresql"])
def store_place(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """A store with its tables and nothing in them, on each database in turn."""
    if request.param == "sqlite":
        return str(shutil.copy(request.getfixturevalue("filled_file"), tmp_path / "bench.sqlite"))
    url: str = request.getfixturevalue("filled_database")
    empty_tables(url)
    return url


class Clock:
    """A clock that a test moves by hand."""

    def __init__(self) -> None:
        self.moment = datetime(2031, 3, 14, 9, 26, tzinfo=UTC)

    def __call__(self) -> datetime:
        return self.moment

    def advance(self, **by: float) -> None:
        self.moment += timedelta(**by)


@pytest.fixture
def clock() -> Clock:
    return Clock()


@pytest.fixture
def store(store_place: str, clock: Callable[[], datetime]) -> Iterator[Store]:
    """An empty store on each database in turn."""
    with open_store(store_place, clock=clock) as store:
        yield store


@pytest.fixture
def file_store(filled_file: Path, tmp_path: Path, clock: Callable[[], datetime]) -> Iterator[Store]:
    """An empty store on SQLite only, for what does not depend on the database."""
    with open_store(shutil.copy(filled_file, tmp_path / "bench.sqlite"), clock=clock) as store:
        yield store
