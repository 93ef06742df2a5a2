"""Who decides the chunks of a table: this process, several processes of this machine, or a cluster."""

import os
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool
from functools import partial
from multiprocessing import get_context
from typing import Any, cast

from ui.shared.command_refused import CommandRefused
from ui.table.worker import decide_chunk, leave_with_parent

Chunk = Callable[[int], str]
"""The text of a chunk by its number, made when it is sent."""

Found = tuple[int, str | None]
"""A chunk's number with its answers; None where it kills whoever works on it."""

Workers = Callable[[str, Chunk, int], Iterator[Found]]
"""Decide so many chunks; each is told when it is done, in any order."""

FEW = 8
"""So few frames are done before another process has begun."""

IN_FLIGHT = 2
"""Chunks sent for each process: one that is worked on, one that waits."""


def this_process(shared: str, chunk: Chunk, chunks_n: int) -> Iterator[Found]:
    """One after the other, here."""
    for number in range(chunks_n):
        yield number, decide_chunk(shared, chunk(number))


def processes(several: int, *, decide: Callable[[str, str], str] = decide_chunk) -> Workers:
    """Several processes of this machine, which leave with this one.

    decide : what each of them does with a chunk
    """

    def work(shared: str, chunk: Chunk, chunks_n: int) -> Iterator[Found]:
        todo, suspects = deque(range(chunks_n)), deque[int]()
        while todo or suspects:
            alone = bool(suspects)  # a chunk was lost with its process: find out which, one by one
            queue, at_once = (suspects, 1) if alone else (todo, several)
            pool = ProcessPoolExecutor(at_once, mp_context=get_context("spawn"), initializer=leave_with_parent)
            flying: dict[Future[str], int] = {}
            try:
                send = partial(cast(Any, pool).submit, decide, shared)
                yield from _flown(send, chunk, queue, flying, at_once if alone else IN_FLIGHT * several)
            except BrokenProcessPool:
                lost = sorted(flying.values())
                if not lost:
                    raise  # they do not even begin
                if alone:
                    yield lost[0], None
                else:
                    suspects.extend(lost)
            finally:
                pool.shutdown(wait=False, cancel_futures=True)

    return work


def _flown(
    send: Callable[[str], "Future[str]"],
    chunk: Chunk,
    queue: "deque[int]",
    flying: dict["Future[str]", int],
    at_once: int,
) -> Iterator[Found]:
    """What comes back; what is lost stays among what flies."""
    while queue or flying:
        while queue and len(flying) < at_once:
            flying[send(chunk(queue[0]))] = queue[0]
            queue.popleft()
        for future in wait(flying, return_when=FIRST_COMPLETED).done:
            found = future.result()
            yield flying.pop(future), found


def workers_here(cases_n: int, *, processes_n: int | None = None) -> tuple[Workers, int]:
    """Who decides so many cases on this machine, and how many they are.

    processes_n : how many are wanted; None for one for each core, or this process alone where others are not worth it
    """
    several = processes_n or (1 if cases_n <= FEW else os.cpu_count() or 1)
    return (this_process, 1) if several == 1 else (processes(several), several)


def cluster(address: str) -> Workers:
    """The workers of a dask.distributed scheduler; nothing but text is sent there, and text comes back."""

    def work(shared: str, chunk: Chunk, chunks_n: int) -> Iterator[Found]:
        with _client(address) as client:
            known = client.scatter(shared, broadcast=True, hash=False)
            queue, flying = deque(range(chunks_n)), dict[Future[str], int]()
            send = partial(client.get_executor(pure=False).submit, decide_chunk, known)
            at_once = IN_FLIGHT * max(sum(client.nthreads().values()), 1)
            while queue or flying:
                try:
                    yield from _flown(send, chunk, queue, flying, at_once)
                except _killed_worker():
                    dead = next(future for future in flying if future.done() and future.exception() is not None)
                    yield flying.pop(dead), None

    return work


def _client(address: str) -> Any:
    """Raises CommandRefused where nobody answers."""
    from distributed import Client

    try:
        return cast(Any, Client)(address, set_as_default=False)
    except (OSError, ValueError) as error:
        given = f"{address} does not answer: {error}"
        allowed = "the address of a scheduler that runs, such as tcp://127.0.0.1:8786"
        raise CommandRefused(command="table", option="scheduler", given=given, allowed=allowed) from error


def _killed_worker() -> type[Exception]:
    """What a cluster says of a chunk that killed one worker after the other."""
    from distributed.scheduler import KilledWorker

    found: type[Exception] = KilledWorker
    return found


def chunk_sizes(cases_n: int, *, largest: int, workers_n: int) -> Sequence[range]:
    """Cases in chunks, alike in size: a few for each worker, so that none waits long for the last."""
    size = max(1, min(largest, -(-cases_n // (4 * workers_n))))
    return [range(start, min(start + size, cases_n)) for start in range(0, cases_n, size)]
