"""A table decided and kept by a process of its own, so that whoever asked for it goes on meanwhile.

It is asked by one line of JSON on its standard input, and ends when that is closed. On its standard output it tells a
line for each step: `done`, how many cases; then `table`, the number it is kept under, or `refused`, in sentences.
"""

import json
import os
import sys
from threading import Thread
from typing import Any

from catalog import CatalogError, open_store
from planner.errors import PlannerError
from ui.table.asked import TableAsked
from ui.table.keep import keep_table
from ui.table.make import what_answers
from ui.table.plain_text import from_text, to_text
from ui.table.workers import workers_here


def question_line(asked: TableAsked, *, place: str, by: str, note: str) -> str:
    """The line that asks for a table.

    place : the store
    by, note : who makes it, and why
    """
    parts = to_text((what_answers(asked.workshop), asked.cases, asked.brakes))
    return json.dumps({"place": place, "by": by, "note": note, "asked": parts})


def answer(line: str) -> None:
    """Do what a line asks for."""
    told = json.loads(line)
    workshop, cases, brakes = from_text(told["asked"])
    asked = TableAsked(workshop=workshop, cases=cases, brakes=brakes)
    workers, workers_n = workers_here(len(cases))
    try:
        with open_store(told["place"]) as store:
            made = keep_table(
                asked,
                store,
                by=told["by"],
                note=told["note"],
                workers=workers,
                workers_n=workers_n,
                tell=lambda done_n: _tell(done=done_n),
            )
    except (CatalogError, PlannerError) as refusal:
        _tell(refused=str(refusal))
        return
    _tell(table=made.brief.id)


def _tell(**step: Any) -> None:
    print(json.dumps(step), flush=True)


def _end_when_nobody_listens() -> None:
    sys.stdin.read()
    os._exit(1)


if __name__ == "__main__":
    first = sys.stdin.readline()
    if first:  # nobody asks where the one that started it has gone already
        Thread(target=_end_when_nobody_listens, daemon=True).start()
        answer(first)
