"""Keeps a small table in a store, and stops after its first chunks: `python -m tests.ui.table.slow_keeper PLACE N`."""

import sys
import time
from collections.abc import Iterator

from catalog import open_store
from tests.ui.table.small_tables import asked_table, small_cases
from ui.table.keep import keep_table
from ui.table.workers import Chunk, Found, this_process


def main(place: str, chunks_done: int) -> None:
    def work(shared: str, chunk: Chunk, chunks_n: int) -> Iterator[Found]:
        yield from this_process(shared, chunk, min(chunks_n, chunks_done))
        print("waiting", flush=True)
        time.sleep(3600)

    with open_store(place) as store:
        keep_table(asked_table(small_cases(4)), store, by="Mira", workers=work)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]))
