"""How the store talks to its database: one set of manners for SQLite, one for PostgreSQL.

SQLite: write-ahead log, foreign keys on, every commit on the disk before it is acknowledged, and writers take their
lock at the start (BEGIN IMMEDIATE): a transaction that reads first and then wants to write would else be refused.
PostgreSQL: READ COMMITTED; the optimistic lock decides between two who edit the same thing.
"""

import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, event, make_url
from sqlalchemy.engine import URL
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError, OperationalError
from sqlalchemy.exc import TimeoutError as PoolTimeout
from sqlalchemy.pool import NullPool
from sqlmodel import Session, create_engine

from catalog.store_errors import StoreRefused, StoreUnreachable

BUSY_TIMEOUT_MS = 30_000
"""How long a writer waits for the others before it is told that the store is busy."""


def url_of_store(place: str | Path) -> URL:
    """The database address that a file path or a URL stands for."""
    text = str(place)
    if "://" not in text:
        return URL.create("sqlite", database=text)
    try:
        url = make_url(text)
    except ArgumentError as problem:
        raise StoreRefused(
            thing="store", given=text.partition("@")[2] or text, rule="it is no database URL"
        ) from problem
    if url.get_backend_name() == "postgresql":
        return url.set(drivername="postgresql+psycopg")
    if url.get_backend_name() == "sqlite":
        return url
    raise StoreRefused(
        thing="store", given=url.get_backend_name(), rule="it must be a file, a sqlite: URL or a postgresql: URL"
    )


def shown_place(url: URL) -> str:
    """The address as a person may read it: never with a password."""
    if url.get_backend_name() == "sqlite":
        return str(url.database)
    return url.render_as_string(hide_password=True)


def make_engine(url: URL, *, keep_connections: bool = True) -> Engine:
    """An engine with the manners of this store; it must not be carried over a fork."""
    arguments: dict[str, Any] = {} if keep_connections else {"poolclass": NullPool}
    try:
        if url.get_backend_name() == "sqlite":
            engine = create_engine(url, connect_args={"timeout": BUSY_TIMEOUT_MS / 1000}, **arguments)
            event.listen(engine, "connect", _prepare_sqlite)
            event.listen(engine, "begin", _begin_sqlite)
            return engine
        return create_engine(url, pool_pre_ping=True, connect_args={"connect_timeout": 10}, **arguments)
    except (ImportError, NoSuchModuleError) as problem:
        raise StoreUnreachable(place=shown_place(url), why=f"its driver is not installed ({problem})") from problem


def _prepare_sqlite(raw: Any, _record: object) -> None:
    raw.isolation_level = None  # the driver would else open its own, plain transactions
    raw.execute(f"PRAGMA busy_timeout = {BUSY_TIMEOUT_MS:d}")
    raw.execute("PRAGMA foreign_keys = ON")
    raw.execute("PRAGMA synchronous = FULL")


def switch_to_write_ahead_log(raw: Any) -> None:
    """Switch once in the life of a file; whoever comes second at the same moment waits, for SQLite does not."""
    for attempt in range(50):
        try:
            raw.execute("PRAGMA journal_mode = WAL")
            return
        except Exception as problem:
            if "locked" not in str(problem) or attempt == 49:
                raise
            time.sleep(0.02)


def _begin_sqlite(connection: Connection) -> None:
    mode = connection.get_execution_options().get("lineplan_begin", "DEFERRED")
    connection.exec_driver_sql(f"BEGIN {mode}")


@contextmanager
def reading(engine: Engine) -> Iterator[Session]:
    """A session that sees one moment of the store and changes nothing."""
    options = {"isolation_level": "REPEATABLE READ"} if engine.dialect.name == "postgresql" else {}
    with translated(engine), Session(engine.execution_options(**options)) as session:
        yield session
        session.rollback()


@contextmanager
def writing(engine: Engine) -> Iterator[Session]:
    """A session whose whole work is kept at the end, or none of it."""
    with (
        translated(engine),
        Session(engine.execution_options(lineplan_begin="IMMEDIATE"), expire_on_commit=False) as session,
    ):
        yield session
        session.commit()


@contextmanager
def translated(engine: Engine) -> Iterator[None]:
    """The one place where the database's own complaints become the store's."""
    try:
        yield
    except PoolTimeout as problem:
        raise StoreUnreachable(place=shown_place(engine.url), why="no free connection") from problem
    except OperationalError as problem:
        raise StoreUnreachable(place=shown_place(engine.url), why=_reason(problem)) from problem
    except DBAPIError as problem:
        if problem.connection_invalidated or "not a database" in str(problem.orig) or "malformed" in str(problem.orig):
            raise StoreUnreachable(place=shown_place(engine.url), why=_reason(problem)) from problem
        raise


def _reason(problem: DBAPIError) -> str:
    said = str(problem.orig).strip().splitlines()
    first = said[0] if said else type(problem.orig).__name__
    if "database is locked" in first:
        return f"another program kept it locked for {BUSY_TIMEOUT_MS / 1000:g} s; nothing was saved, try again"
    if "readonly" in first or "unable to open" in first:
        return f"{first}; check that the folder exists and may be written"
    return first
