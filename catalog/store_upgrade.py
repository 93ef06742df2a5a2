"""The one command that brings the store's tables up to date."""

import os
from contextlib import suppress
from io import StringIO
from pathlib import Path
from typing import Any
from uuid import uuid4

from alembic import command
from alembic.config import Config
from sqlalchemy import Connection, Engine, inspect, text

from catalog.store_address import shown_place, url_of_store
from catalog.store_engine import make_engine, reading, switch_to_write_ahead_log, translated
from catalog.store_errors import StoreDamaged, StoreUnreachable
from catalog.store_version import MIGRATIONS, VERSION_TABLE, refuse_newer, version_of

_ONE_AT_A_TIME = 0x6C696E65
"""PostgreSQL advisory lock held while tables change; any number that no other program uses."""


def upgrade_store(place: str | Path, *, to_version: str = "head") -> str:
    """Bring the tables to a version, all steps or none; returns the version they have now."""
    engine = make_engine(url_of_store(place), keep_connections=False)
    found = version_of(engine)
    refuse_newer(engine, found)
    if not found:
        _refuse_other_tables(engine)
    _run(engine, lambda config: command.upgrade(config, to_version))
    return version_of(engine)


def make_store_file(path: Path) -> None:
    """A new store in a file that is not there yet: whole or not at all, also on a full disk.

    It is made beside its place under another name; of two programs that make it at once, one file is taken by both.
    """
    beside = path.with_name(f".{path.name}.{uuid4().hex}.new")
    try:
        upgrade_store(beside)
        try:
            os.link(beside, path)
        except FileExistsError:
            return
        except OSError:  # a disk without links
            if not path.exists():
                os.rename(beside, path)
    except OSError as problem:
        raise StoreUnreachable(place=str(path), why=f"it cannot be made: {problem.strerror or problem}") from problem
    except StoreUnreachable as problem:
        raise StoreUnreachable(place=str(path), why=problem.why) from problem
    finally:
        for ending in ("", "-wal", "-shm", "-journal"):
            with suppress(OSError):  # it is not there, or could not even be named
                os.unlink(f"{beside}{ending}")


def downgrade_store(place: str | Path, *, to_version: str) -> str:
    """Take the tables back to an older version, losing what only the newer ones could hold."""
    engine = make_engine(url_of_store(place), keep_connections=False)
    _run(engine, lambda config: command.downgrade(config, to_version))
    return version_of(engine)


def check_tables(place: str | Path) -> None:
    """Complain when the tables that the migrations make are not the ones that the code expects."""
    engine = make_engine(url_of_store(place), keep_connections=False)
    _run(engine, command.check)


def _refuse_other_tables(engine: Engine) -> None:
    with reading(engine) as session:
        names = [name for name in inspect(session.connection()).get_table_names() if name != VERSION_TABLE]
        version = version_of(engine)  # another program may have made the tables a moment ago
    if names and not version:
        why = f"it holds other tables ({', '.join(sorted(names)[:3])}): name an empty place"
        raise StoreUnreachable(place=shown_place(engine.url), why=why)


def _config() -> Config:
    config = Config(stdout=StringIO())
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.set_main_option("file_template", "rev_%%(rev)s_%%(slug)s")
    config.set_main_option("path_separator", "os")
    return config


def _run(engine: Engine, work: Any) -> None:
    """Run one Alembic command in one transaction that nobody else can enter."""
    with translated(engine), engine.execution_options(lineplan_begin="IMMEDIATE").connect() as connection:
        if engine.dialect.name == "sqlite":
            # Rebuilding a table drops the old one; foreign keys would take its rows' children along.
            raw = connection.connection.driver_connection
            raw.execute("PRAGMA foreign_keys = OFF")  # type: ignore[union-attr]
            switch_to_write_ahead_log(raw)
        with connection.begin():
            if engine.dialect.name == "postgresql":
                connection.execute(text("SELECT pg_advisory_xact_lock(:key)"), {"key": _ONE_AT_A_TIME})
            config = _config()
            config.attributes["connection"] = connection
            work(config)
            _refuse_loose_ends(engine, connection)


def _refuse_loose_ends(engine: Engine, connection: Connection) -> None:
    if engine.dialect.name == "sqlite":
        loose = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
        if loose:
            raise StoreDamaged(thing=shown_place(engine.url), why=f"{len(loose)} rows point at rows that are not there")
