"""Which version the store's tables have, without loading what changes them."""

from functools import lru_cache
from pathlib import Path

from sqlalchemy import Engine, inspect, text

from catalog.store_address import shown_place
from catalog.store_engine import reading
from catalog.store_errors import StoreOutdated, StoreTooNew

MIGRATIONS = Path(__file__).parent / "migrations"
VERSION_TABLE = "alembic_version"
"""Where Alembic keeps the version; its own name for it."""


def newest_version() -> str:
    """The version of tables this program works with."""
    return known_versions()[0]


@lru_cache(maxsize=1)
def known_versions() -> tuple[str, ...]:
    """Every version of the tables there ever was, newest first: the numbers in the names of the steps to them."""
    steps = (MIGRATIONS / "versions").glob("rev_*.py")
    return tuple(sorted((step.name.split("_")[1] for step in steps), reverse=True))


def version_of(engine: Engine) -> str:
    """The version of the tables found; "" for a store without any."""
    with reading(engine) as session:
        connection = session.connection()
        if not inspect(connection).has_table(VERSION_TABLE):
            return ""
        return str(connection.scalar(text(f"SELECT version_num FROM {VERSION_TABLE}")) or "")


def refuse_other_versions(engine: Engine, found: str) -> None:
    """Complain unless the version found is the one this program works with."""
    refuse_newer(engine, found)
    if found != newest_version():
        raise StoreOutdated(place=shown_place(engine.url), found=found or "none", wanted=newest_version())


def refuse_newer(engine: Engine, found: str) -> None:
    """Complain about a version that only a newer program knows."""
    if found and found not in known_versions():
        raise StoreTooNew(place=shown_place(engine.url), found=found, wanted=newest_version())
