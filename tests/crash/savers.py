"""What the other processes of these tests do; importable, so that they can be started without a copy of the test."""

import os
import signal
from multiprocessing.connection import Connection
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from catalog.edit_yaml import edit_yaml
from catalog.store import open_store
from catalog.store_address import url_of_store
from catalog.store_engine import make_engine
from catalog.store_errors import EditConflict
from catalog.store_things import Change
from catalog.write_files import write_file
from catalog.yaml_text import read_yaml

SHARED = ("line", "everybodys-hose")


def change(id: str, *, based_on: int | None, **content: Any) -> Change:
    return Change(kind="line", id=id, name=f"Hose {id}", content={"id": id, **content}, based_on=based_on)


def _warm_up() -> None:
    """Import and prepare once, in the process that all others are started from; no connection is left open."""
    make_engine(url_of_store("postgresql://nobody@127.0.0.1/nowhere"))
    with TemporaryDirectory() as folder, open_store(Path(folder) / "warm.sqlite") as store:
        store.documents.save(change("warm", based_on=None), by="nobody")


_warm_up()


def save_many(place: str, name: str, saves: int, start: Any, report: Connection) -> None:
    """Save `saves` times: every fourth time the document that everybody edits, else one of its own.

    A conflict is counted, the document opened again, and the change made there, until it is acknowledged.
    """
    store = open_store(place)
    acknowledged: list[tuple[str, int, str]] = []
    conflicts = 0
    opened = store.documents.current(*SHARED).pin.revision
    start.wait()
    for number in range(saves):
        mark = f"{name}-{number}"
        if number % 4:
            saved = store.documents.save(change(mark, based_on=None, mark=mark), by=name)
        else:
            while True:
                try:
                    saved = store.documents.save(change(SHARED[1], based_on=opened, mark=mark), by=name)
                    break
                except EditConflict as conflict:
                    conflicts += 1
                    opened = conflict.current_revision or 0
            opened = saved.pin.revision
        acknowledged.append((saved.pin.id, saved.pin.revision, mark))
    report.send((acknowledged, conflicts))
    report.close()


def save_until_killed(place: str, name: str, report: Connection) -> None:
    """Save three documents at a time, telling each save once it is acknowledged, until somebody pulls the plug."""
    store = open_store(place)
    number = 0
    while True:
        ids = [f"{name}-{number}-{part}" for part in range(3)]
        store.documents.save_all([change(id, based_on=None, mark=number) for id in ids], by=name)
        report.send(ids)
        number += 1


def save_and_die(place: str, name: str, at_statement: int, report: Connection) -> None:
    """Save three documents, but kill this process right before its n-th SQL statement (0: right before COMMIT)."""
    from sqlalchemy import Engine, event

    store = open_store(place)
    counted = 0

    def die(*_: Any) -> None:
        os.kill(os.getpid(), signal.SIGKILL)

    def count(*_: Any) -> None:
        nonlocal counted
        counted += 1
        if counted == at_statement:
            die()

    if at_statement:
        event.listen(Engine, "before_cursor_execute", count)
    else:
        event.listen(Engine, "commit", die)
    ids = [f"{name}-{part}" for part in range(3)]
    store.documents.save_all([change(id, based_on=None, mark=0) for id in ids], by=name)
    report.send(ids)


def write_until_killed(path: str, report: Connection) -> None:
    """Change one value of a file over and over, until somebody pulls the plug."""
    number = 0
    text = Path(path).read_text(encoding="utf-8")
    while True:
        value = dict(read_yaml(text.encode()).value)
        value["lines"] = [{"id": "hose-50", "outer": 5.0, "note": f"written {number} times " * 200}]
        was, text = text, edit_yaml(text, value)
        write_file(Path(path), text, was=was.encode())
        report.send(number)
        number += 1


def open_at_once(place: str, name: str, start: Any, report: Connection) -> None:
    """Open a store that has no tables yet, at the same moment as others, and save something."""
    start.wait()
    with open_store(place) as store:
        report.send(store.documents.save(change(name, based_on=None), by=name).pin.id)
