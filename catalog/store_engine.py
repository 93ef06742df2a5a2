"""How the store talks to its database: one set of manners for SQLite, one for PostgreSQL.

SQLite: write-ahead log, foreign keys on, every commit on the disk before it is acknowledged, and writers take their
lock at the start (BEGIN IMMEDIATE): a transaction that reads first and then wants to write would else be refused.
PostgreSQL: READ COMMITTED; the optimistic lock decides between two who edit the same thing.
"""

import re
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from typing import Any

from sqlalchemy import Connection, Engine, event
from sqlalchemy.engine import URL
from sqlalchemy.exc import ArgumentError, IntegrityError, NoSuchModuleError, SQLAlchemyError
from sqlalchemy.orm.exc import StaleDataError
from sqlalchemy.pool import NullPool
from sqlmodel import Session, create_engine

from catalog.store_address import shown_place, without_secrets
from catalog.store_errors import StoreDamaged, StoreUnreachable, WrittenMeanwhile

BUSY_TIMEOUT_MS = 30_000
"""How long a writer waits for the others before it is told that the store is busy."""


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
    except (ImportError, NoSuchModuleError, ArgumentError) as problem:
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
    if (joined := _joined(engine)) is not None:
        yield joined
        return
    options = {"isolation_level": "REPEATABLE READ"} if engine.dialect.name == "postgresql" else {}
    with translated(engine), Session(engine.execution_options(**options)) as session:
        yield session
        session.rollback()


@contextmanager
def writing(engine: Engine) -> Iterator[Session]:
    """A session whose whole work is kept at the end, or none of it; inside `together`, kept when that ends."""
    if (joined := _joined(engine)) is not None:
        with translated(engine), joined.begin_nested():
            yield joined
        return
    with translated(engine), _session_to_write(engine) as session:
        yield session
        session.commit()


@contextmanager
def together(engine: Engine) -> Iterator[None]:
    """Everything this thread reads and writes until the end is one transaction: all of it is kept, or nothing."""
    with translated(engine), _session_to_write(engine) as session:
        before = _JOINED.set((engine, session))
        try:
            yield
            session.commit()
        finally:
            _JOINED.reset(before)


_JOINED: ContextVar[tuple[Engine, Session] | None] = ContextVar("joined", default=None)


def _joined(engine: Engine) -> Session | None:
    found = _JOINED.get()
    return found[1] if found is not None and found[0] is engine else None


def _session_to_write(engine: Engine) -> Session:
    return Session(engine.execution_options(lineplan_begin="IMMEDIATE"), expire_on_commit=False)


@contextmanager
def translated(engine: Engine) -> Iterator[None]:
    """The one place where the complaints of databases and their drivers become the store's."""
    try:
        yield
    except (IntegrityError, StaleDataError) as problem:
        raise WrittenMeanwhile(place=shown_place(engine.url), why=_reason(problem, engine)) from problem
    except (SQLAlchemyError, sqlite3.Error, OverflowError) as problem:
        raise StoreUnreachable(place=shown_place(engine.url), why=_reason(problem, engine)) from problem
    except ValueError as problem:  # a day, state or text that was not written by us
        raise StoreDamaged(thing=f"the store {shown_place(engine.url)}", why=_reason(problem, engine)) from problem


_WHAT_TO_DO = (
    (
        r"database is locked|database table is locked",
        "another program kept it locked for {wait} s; nothing was saved, try again",
    ),
    (r"database or disk is full", "the disk is full; nothing was saved"),
    (r"disk I/O error", "its disk cannot be written or read (full, out of quota, or damaged); nothing was saved"),
    (r"readonly database|read-only transaction", "it may only be read here: {said}"),
    (r"unable to open", "{said}; check that the folder exists and may be written"),
    (r"permission denied|must be owner", "{said}; whoever runs the database can give you the right"),
    (r"No space left|could not extend file", "the disk of the database is full: {said}"),
    (r"QueuePool limit", "no free connection"),
)
"""What databases say, and what it means at the bench."""


def _reason(problem: Exception, engine: Engine) -> str:
    """What the database said, first line only and without a password, with what can be done about it."""
    told = without_secrets(str(getattr(problem, "orig", None) or problem), engine.url).strip().splitlines()
    said = told[0].strip() if told else type(problem).__name__
    wait = f"{BUSY_TIMEOUT_MS / 1000:g}"
    for pattern, meaning in _WHAT_TO_DO:
        if re.search(pattern, said, re.IGNORECASE):
            return meaning.format(said=said, wait=wait)
    return said
