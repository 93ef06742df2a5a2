"""Four processes save at once, 400 times each: none is lost, and every conflict is reported."""

import time
from multiprocessing.context import ForkServerContext
from typing import Any

import pytest

from catalog.store import open_store
from catalog.store_things import Pin
from tests.crash.savers import SHARED, change, save_many

SAVERS, SAVES_EACH = 4, 400


def test_four_processes_lose_nothing(
    store_place: str, processes: ForkServerContext, record_property: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    store = open_store(store_place)
    store.documents.save(change(SHARED[1], based_on=None, mark="start"), by="test")
    started = time.perf_counter()
    reports = _run_savers(store_place, processes)
    seconds = time.perf_counter() - started

    acknowledged = [save for saves, _ in reports for save in saves]
    conflicts = sum(count for _, count in reports)
    assert len(acknowledged) == SAVERS * SAVES_EACH
    pins = [Pin(kind="line", id=id, revision=revision) for id, revision, _ in acknowledged]
    assert len(set(pins)) == len(pins)  # no two were told that the same revision is theirs
    kept = store.documents.at_all(pins)
    assert [revision.content["mark"] for revision in kept] == [mark for _, _, mark in acknowledged]
    shared = store.documents.history(*SHARED)
    assert [revision.pin.revision for revision in shared] == list(range(1, len(shared) + 1))
    assert len(shared) == 1 + SAVERS * SAVES_EACH // 4
    assert conflicts > 0  # else they did not really meet

    figures = f"{len(acknowledged)} saves in {seconds:.1f} s, {conflicts} conflicts reported, none lost"
    record_property("figures", figures)
    with capsys.disabled():
        print(f"\n  {store_place.partition(':')[0].rpartition('.')[2]}: {figures}")


def _run_savers(place: str, processes: ForkServerContext) -> list[tuple[list[tuple[str, int, str]], int]]:
    start = processes.Barrier(SAVERS)
    running = []
    for number in range(SAVERS):
        mine, theirs = processes.Pipe(duplex=False)
        process = processes.Process(target=save_many, args=(place, f"saver{number}", SAVES_EACH, start, theirs))
        process.start()
        theirs.close()
        running.append((process, mine))
    try:
        return [mine.recv() for _, mine in running]
    finally:
        for process, _ in running:
            process.join(timeout=60)
            process.kill()
