"""A process killed in the middle of a save: the store opens, and holds every acknowledged save, and no half one."""

import random
import sqlite3
import time
from itertools import chain
from multiprocessing.context import ForkServerContext
from typing import Any

import pytest

from catalog.store import Store, open_store
from tests.catalog.store.postgres_server import PostgresServer
from tests.crash.savers import save_and_die, save_until_killed

KILLS = 100


def test_a_hundred_kills_lose_nothing(
    store_place: str, processes: ForkServerContext, capsys: pytest.CaptureFixture[str]
) -> None:
    chance = random.Random(11)
    acknowledged: list[str] = []
    for kill in range(KILLS):
        mine, theirs = processes.Pipe(duplex=False)
        process = processes.Process(target=save_until_killed, args=(store_place, f"kill{kill}", theirs))
        process.start()
        theirs.close()
        told = mine.recv()  # it is saving now
        time.sleep(chance.uniform(0, 0.03))
        process.kill()
        process.join()
        acknowledged.extend(chain(told, *rest_of(mine)))
        if kill % 10 == 9:
            _check_whole(open_store(store_place, create=False), acknowledged)
    _check_whole(open_store(store_place, create=False), acknowledged)
    if "://" not in store_place:
        assert sqlite3.connect(store_place).execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    with capsys.disabled():
        print(f"\n  {KILLS} kills, {len(acknowledged) // 3} acknowledged saves, all there, none by half")


def rest_of(told: Any) -> list[Any]:
    """What a process told before it ended and nobody read yet."""
    found: list[Any] = []
    try:
        while True:
            found.append(told.recv())
    except (EOFError, OSError):
        return found


def _check_whole(store: Store, acknowledged: list[str]) -> None:
    kept = {revision.pin.id for revision in store.documents.list_current("line")}  # reads and checks every hash
    assert set(acknowledged) <= kept
    saves = {id.rpartition("-")[0] for id in kept}
    assert len(kept) == 3 * len(saves)  # three documents a save: all of them or none


@pytest.mark.parametrize("at_statement", range(13))
def test_killed_before_any_statement_of_a_save_nothing_of_it_is_there(
    store_place: str, processes: ForkServerContext, at_statement: int
) -> None:
    _, theirs = processes.Pipe(duplex=False)
    process = processes.Process(target=save_and_die, args=(store_place, "half", at_statement, theirs))
    process.start()
    theirs.close()
    process.join()
    assert process.exitcode == -9, "the save finished with fewer statements: this case tests nothing"
    store = open_store(store_place, create=False)
    assert store.documents.list_current() == ()


def test_a_database_server_that_dies_keeps_what_it_acknowledged(
    postgres_server: PostgresServer, filled_database: str, processes: ForkServerContext
) -> None:
    from tests.catalog.store.postgres_server import empty_tables

    empty_tables(filled_database)
    acknowledged: list[str] = []
    for round_ in range(3):
        mine, theirs = processes.Pipe(duplex=False)
        process = processes.Process(target=save_until_killed, args=(filled_database, f"round{round_}", theirs))
        process.start()
        theirs.close()
        acknowledged.extend(mine.recv())
        time.sleep(0.2)
        postgres_server.stop(how="immediate")
        process.join()
        acknowledged.extend(chain(*rest_of(mine)))
        assert process.exitcode == 1  # it was told: the store is out of reach
        postgres_server.start()
        _check_whole(open_store(filled_database, create=False), acknowledged)
    assert len(acknowledged) > 9
