"""Four processes open a place without tables at the same moment: each finds a whole store."""

from multiprocessing.context import ForkServerContext

from catalog.store import open_store
from catalog.store_upgrade import check_tables
from tests.crash.savers import open_at_once


def test_tables_are_made_once(empty_place: str, processes: ForkServerContext) -> None:
    start = processes.Barrier(4)
    running = []
    for number in range(4):
        mine, theirs = processes.Pipe(duplex=False)
        process = processes.Process(target=open_at_once, args=(empty_place, f"opener{number}", start, theirs))
        process.start()
        theirs.close()
        running.append((process, mine))
    told = [mine.recv() for _, mine in running]
    for process, _ in running:
        process.join(timeout=60)
        assert process.exitcode == 0
    with open_store(empty_place, create=False) as store:
        assert sorted(told) == [revision.pin.id for revision in store.documents.list_current()]
    check_tables(empty_place)
