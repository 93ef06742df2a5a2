"""One chunk of a table decided, wherever it is sent: texts in, text out."""

from functools import lru_cache
from threading import Thread
from typing import Any

from planner import book_of, decide_case
from planner.errors import PlannerError
from ui.table.plain_text import Refused, from_text, to_text


@lru_cache(maxsize=2)
def _book(shared: str) -> Any:
    """What this process remembers, as long as it works on the same table."""
    looks, workshop = from_text(shared)
    return book_of(looks, workshop)


def decide_chunk(shared: str, chunk: str) -> str:
    """The answers of some cases, a line each.

    shared : looks of the brakes, and the workshop
    chunk : cases, a line each
    """
    return "\n".join(_decide(line, _book(shared)) for line in chunk.split("\n"))


def _decide(line: str, book: Any) -> str:
    case = from_text(line)
    try:
        return to_text(decide_case(case=case, book=book))
    except PlannerError as refusal:
        return to_text(Refused(case_id=case.id, why=str(refusal)))


def leave_with_parent() -> None:
    """End this process as soon as the one that started it is gone, however it went."""
    import multiprocessing
    import os
    from multiprocessing.connection import wait

    parent = multiprocessing.parent_process()
    if parent is not None:
        sentinel = parent.sentinel

        def watch() -> None:
            wait([sentinel])
            os._exit(1)

        Thread(target=watch, daemon=True).start()
