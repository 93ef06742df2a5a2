"""The store: the catalog with all its revisions, jobs, plans, quotes, tables; in one SQLite file or on PostgreSQL."""

import os
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path

from sqlalchemy import Engine

from catalog.store_address import shown_place, url_of_store
from catalog.store_bench import StoredBenchNotes
from catalog.store_check import StoreCheck, check_store
from catalog.store_documents import StoredDocuments
from catalog.store_drafts import StoredDrafts
from catalog.store_engine import make_engine, together
from catalog.store_errors import StoreUnreachable
from catalog.store_hand_overs import StoredHandOvers
from catalog.store_jobs import StoredJobs
from catalog.store_overview import JobBrief, find_briefs, list_briefs
from catalog.store_plans import StoredPlans
from catalog.store_quotes import StoredQuotes
from catalog.store_tables import StoredTables
from catalog.store_things import JobState
from catalog.store_version import refuse_other_versions, version_of

DEFAULT_PLACE = "lineplan.sqlite"
"""The file used when nobody names another place."""


class Store:
    """An open store, to be used by one process; `with open_store(...) as store` lets go of the database at the end."""

    def __init__(self, engine: Engine, *, clock: Callable[[], datetime]) -> None:
        self.place = shown_place(engine.url)
        self._engine = engine
        self.documents = StoredDocuments(engine, clock)
        self.jobs = StoredJobs(engine, clock)
        self.plans = StoredPlans(engine, clock)
        self.quotes = StoredQuotes(engine, clock)
        self.drafts = StoredDrafts(engine, clock)
        self.bench = StoredBenchNotes(engine, clock)
        self.hand_overs = StoredHandOvers(engine, clock)
        self.tables = StoredTables(engine, clock)

    def briefs(self, state: JobState | None = None) -> tuple[JobBrief, ...]:
        """Every job (in one state) in short, by id: thousands at once, nothing held against its hash."""
        return list_briefs(self._engine, state)

    def find_briefs(self, *, words: str, state: JobState | None, most: int) -> tuple[tuple[JobBrief, ...], int]:
        """Those jobs in whose id, title or owner all the words stand, changed last first; and how many there are.

        most : so many are told at once
        """
        return find_briefs(self._engine, words=words, state=state, most=most)

    def check(self) -> StoreCheck:
        """Look through everything for what is not as it was saved."""
        return check_store(self._engine)

    @contextmanager
    def together(self) -> Iterator[None]:
        """Everything read and saved until the end is one transaction: all of it is kept, or nothing."""
        with together(self._engine):
            yield

    def close(self) -> None:
        """Let go of the database; the store may still be used and connects again."""
        self._engine.dispose()

    def __enter__(self) -> "Store":
        return self

    def __exit__(self, *_: object) -> None:
        self.close()


def now_utc() -> datetime:
    """The moment it is."""
    return datetime.now(UTC)


def open_store(
    place: str | Path = DEFAULT_PLACE, *, create: bool = True, clock: Callable[[], datetime] = now_utc
) -> Store:
    """Open a store by file path or database URL; an empty place gets its tables, an outdated one is refused."""
    url = url_of_store(place)
    engine = make_engine(url)
    if url.get_backend_name() == "sqlite":
        if not url.database or url.database == ":memory:":
            raise StoreUnreachable(place=":memory:", why="a store needs a file that outlives the program")
        if not os.path.exists(url.database):  # never raises, whatever the name
            if not create:
                raise StoreUnreachable(place=shown_place(url), why="there is no such file")
            from catalog.store_upgrade import make_store_file

            make_store_file(Path(url.database))
    found = version_of(engine)
    if not found and create:
        from catalog.store_upgrade import upgrade_store  # loaded when asked, with all that changes tables

        found = upgrade_store(place)
    refuse_other_versions(engine, found)
    return Store(engine, clock=clock)
