"""Copies of a store, and putting one back, while another process saves without a pause."""

import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing.connection import Connection
from multiprocessing.context import ForkServerContext
from pathlib import Path

import pytest

from catalog.store import open_store
from catalog.store_backup import copied_store, restore_store
from tests.crash.savers import save_until_killed

COPIES = 5


@pytest.fixture
def place(filled_file: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(filled_file, tmp_path / "bench.sqlite"))


@contextmanager
def saving(place: Path, processes: ForkServerContext, name: str) -> Iterator[Connection]:
    """A process that saves until the end, and tells each save once it is acknowledged."""
    mine, theirs = processes.Pipe(duplex=False)
    process = processes.Process(target=save_until_killed, args=(str(place), name, theirs))
    process.start()
    theirs.close()
    try:
        yield mine
    finally:
        process.kill()
        process.join()


def told_so_far(report: Connection) -> set[str]:
    """What was acknowledged by now; at least one save is waited for."""
    told = set(report.recv())
    while report.poll():
        told |= set(report.recv())
    return told


def lines_in(place: Path) -> set[str]:
    with open_store(place, create=False) as store:
        assert store.check().damages == ()
        return {revision.pin.id for revision in store.documents.list_current("line")}


def test_a_copy_holds_what_was_acknowledged_before_it_began_and_no_half_save(
    place: Path, processes: ForkServerContext, tmp_path: Path
) -> None:
    acknowledged: set[str] = set()
    with saving(place, processes, "writer") as report:
        for number in range(COPIES):
            acknowledged |= told_so_far(report)
            with copied_store(place) as copy:
                assert copy.check.damages == ()
                kept = Path(shutil.copy(copy.path, tmp_path / f"copy-{number}.sqlite"))
            found = lines_in(kept)
            assert acknowledged <= found
            assert len(found) == 3 * len({id.rpartition("-")[0] for id in found})


def test_putting_back_while_somebody_saves_lays_everything_acknowledged_aside_and_they_go_on(
    place: Path, processes: ForkServerContext, tmp_path: Path
) -> None:
    with copied_store(place) as copy:
        empty = Path(shutil.copy(copy.path, tmp_path / "empty.sqlite"))
    with saving(place, processes, "writer") as report:
        before = told_so_far(report)
        aside = tmp_path / "aside.sqlite"
        restore_store(place, empty, aside=aside)
        after = told_so_far(report) | told_so_far(report)
    kept_aside, kept = lines_in(aside), lines_in(place)
    assert before <= kept_aside
    assert not kept & kept_aside, "what was put back was empty"
    assert before | after <= kept | kept_aside, "nothing acknowledged is in neither"
    assert kept, "the one who saves goes on in what was put back"
