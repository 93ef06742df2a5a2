"""Whether the store holds what was saved: everything in it against its hashes and neighbours.

What is wrong is named one by one, and nothing stops at the first.
"""

import json
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date, datetime
from decimal import Decimal, InvalidOperation
from hashlib import sha256
from typing import Any

from sqlalchemy import Connection, Engine, text

from catalog.store_engine import reading
from catalog.store_tables import hash_of_line, hash_of_table
from catalog.store_things import JobState, QuoteState

Row = dict[str, Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Damage:
    """One thing that is not as it was saved.

    thing : such as "quote 7"
    why : what is wrong with it
    """

    thing: str
    why: str

    def __str__(self) -> str:
        return f"{self.thing}: {self.why}"


@dataclass(frozen=True, slots=True, kw_only=True)
class StoreCheck:
    """What a look through the whole store found.

    counts : how many there are of each, by what they are
    damages : what is not as it was saved
    """

    counts: dict[str, int]
    damages: tuple[Damage, ...]


def check_store(engine: Engine) -> StoreCheck:
    """Look through everything in the store, seen at one moment."""
    counts: dict[str, int] = {}
    damages: list[Damage] = []
    with reading(engine) as session:
        connection = session.connection()
        for name, query, thing, faults in _LOOKS:
            rows = list(_rows(connection, query))
            counts[name] = len(rows)
            damages += [Damage(thing=thing.format(**row), why=why) for row in rows for why in faults(row)]
        for query, thing, why in _LOOSE_ENDS:
            damages += [Damage(thing=thing.format(**row), why=why.format(**row)) for row in _rows(connection, query)]
        damages += _file_faults(connection)
    return StoreCheck(counts=counts, damages=tuple(damages))


def _rows(connection: Connection, query: str) -> Iterator[Row]:
    """Plain values, as they lie in the columns: what cannot be read as it should is still a row."""
    as_bytes = r"CAST(\1 AS BLOB)" if connection.dialect.name == "sqlite" else r"convert_to(\1, 'UTF8')"
    for row in connection.execute(text(re.sub(r"BYTES\(([\w.]+)\)", as_bytes, query))).mappings():
        yield dict(row)


def _hash_faults(row: Row) -> Iterator[str]:
    content, wanted = bytes(row["content"]), row["hash"]
    try:
        if not isinstance(json.loads(content), dict):
            yield "its text is not one mapping"
    except ValueError:
        yield "its text does not read as JSON"
    if wanted is not None and sha256(content).hexdigest() != wanted:
        yield "its content does not match its hash"


def _job_faults(row: Row) -> Iterator[str]:
    yield from _hash_faults({**row, "hash": None})
    if row["state"] not in set(JobState):
        yield f"its state is {row['state']!r}"
    if not _is_moment(row["changed_at"]):
        yield f"it changed at {row['changed_at']!r}, which is no moment"
    if bytes(row["content"]) != bytes(row["last_content"] or b""):
        yield "it says something else than the last line of its history"


def _quote_faults(row: Row) -> Iterator[str]:
    yield from _hash_faults(row)
    if row["state"] not in set(QuoteState):
        yield f"its state is {row['state']!r}"
    if not _is_day(row["valid_until"]):
        yield f"its last day is {row['valid_until']!r}"
    try:
        is_money = Decimal(str(row["total"])).is_finite()
    except InvalidOperation:
        is_money = False
    if not is_money:
        yield f"its total is {row['total']!r}, which is no amount of money"
    if row["last_hash"] != row["hash"]:
        yield "its hash is not the one in the last line of its history"


def _answer_faults(row: Row) -> Iterator[str]:
    if sha256(bytes(row["content"])).hexdigest() != row["hash"]:
        yield "its content does not match its hash"


def _table_faults(row: Row) -> Iterator[str]:
    yield from _row_faults(row, hash_of_table, ("counts", "content"))
    if row["lines_n"] != row["cases_n"]:
        yield f"it has {row['lines_n']} of its {row['cases_n']} cases"


def _line_faults(row: Row) -> Iterator[str]:
    yield from _row_faults(row, hash_of_line, ("content",))
    if len(row["outcomes"]) != row["brakes_n"]:
        yield f"it tells {len(row['outcomes'])} brakes of {row['brakes_n']}"


def _row_faults(row: Row, hash_of: Callable[[Row], str], documents: tuple[str, ...]) -> Iterator[str]:
    """What is wrong with a row that is hashed as a whole."""
    try:
        told = {**row, **{name: json.loads(bytes(row[name])) for name in documents}}
    except ValueError:
        yield "its text does not read as JSON"
        return
    if hash_of(told) != row["hash"]:
        yield "what it says does not match its hash"


def _is_day(found: object) -> bool:
    try:
        return isinstance(found, date) or bool(date.fromisoformat(str(found)))
    except ValueError:
        return False


def _is_moment(found: object) -> bool:
    try:
        return isinstance(found, datetime) or bool(datetime.fromisoformat(str(found)))
    except ValueError:
        return False


Look = tuple[str, str, str, Callable[[Row], Iterator[str]]]
_LOOKS: tuple[Look, ...] = (
    (
        "revisions",
        "SELECT kind, id, revision, BYTES(content) AS content, content_sha256 AS hash FROM document_revision "
        "ORDER BY kind, id, revision",
        "{kind} {id}, revision {revision}",
        _hash_faults,
    ),
    (
        "jobs",
        "SELECT job.id, job.state, BYTES(job.content) AS content, job.changed_at, "
        "BYTES(job_event.content) AS last_content FROM job "
        "LEFT JOIN job_event ON job_event.job_id = job.id AND job_event.version = job.version ORDER BY job.id",
        "job {id}",
        _job_faults,
    ),
    (
        "plans",
        "SELECT id, job_id, BYTES(record) AS content, record_sha256 AS hash FROM plan ORDER BY id",
        "plan {id} of job {job_id}",
        _hash_faults,
    ),
    (
        "hand-over records",
        "SELECT job_id, version, BYTES(content) AS content, content_sha256 AS hash FROM hand_over "
        "ORDER BY job_id, version",
        "hand-over record {version} of job {job_id}",
        _hash_faults,
    ),
    (
        "quotes",
        "SELECT quote.id, quote.state, BYTES(quote.record) AS content, quote.record_sha256 AS hash, total, "
        "valid_until, quote_event.record_sha256 AS last_hash FROM quote LEFT JOIN quote_event "
        "ON quote_event.quote_id = quote.id AND quote_event.version = quote.version ORDER BY quote.id",
        "quote {id}",
        _quote_faults,
    ),
    (
        "tables",
        "SELECT id, question, note, cases_n, brakes_n, BYTES(counts) AS counts, BYTES(content) AS content, made_by, "
        "row_sha256 AS hash, (SELECT count(*) FROM kept_table_case AS line WHERE line.table_id = kept_table.id) "
        "AS lines_n FROM kept_table ORDER BY id",
        "table {id}",
        _table_faults,
    ),
    (
        "cases in tables",
        "SELECT table_id, n, case_id, frame_id, label, outcomes, run, case_key, BYTES(line.content) AS content, "
        "line.row_sha256 AS hash, brakes_n FROM kept_table_case AS line JOIN kept_table ON kept_table.id = table_id "
        "ORDER BY table_id, n",
        "table {table_id}, case {case_id}",
        _line_faults,
    ),
    (
        "answers for tables",
        "SELECT run, case_key, BYTES(content) AS content, content_sha256 AS hash FROM table_answer "
        "ORDER BY run, case_key",
        "answer {case_key}",
        _answer_faults,
    ),
)
"""What is looked at: its name, its rows, how a row is told, and what can be wrong with it."""

_LOOSE_ENDS: tuple[tuple[str, str, str], ...] = (
    (
        "SELECT document.kind, document.id, document.revision FROM document LEFT JOIN document_revision AS r "
        "ON r.kind = document.kind AND r.id = document.id AND r.revision = document.revision WHERE r.kind IS NULL",
        "{kind} {id}",
        "its revision {revision} is not there",
    ),
    (
        "SELECT document.kind, document.id FROM document JOIN document_revision AS r ON r.kind = document.kind "
        "AND r.id = document.id AND r.revision = document.revision WHERE r.content_sha256 <> document.content_sha256 "
        "OR r.is_withdrawn <> document.is_withdrawn",
        "{kind} {id}",
        "where it stands now is not what its last revision says",
    ),
    (
        "SELECT plan_id, plan_pin.kind, document_id, plan_pin.revision FROM plan_pin LEFT JOIN document_revision AS r "
        "ON r.kind = plan_pin.kind AND r.id = document_id AND r.revision = plan_pin.revision WHERE r.kind IS NULL",
        "plan {plan_id}",
        "it was made from {kind} {document_id}, revision {revision}, which is not there",
    ),
    (
        "SELECT quote_id, plan_id FROM quote_plan LEFT JOIN plan ON plan.id = plan_id WHERE plan.id IS NULL",
        "quote {quote_id}",
        "it was made from plan {plan_id}, which is not there",
    ),
    (
        "SELECT quote.id, quote.replaces_id FROM quote LEFT JOIN quote AS old ON old.id = quote.replaces_id "
        "WHERE quote.replaces_id IS NOT NULL AND old.id IS NULL",
        "quote {id}",
        "it replaces quote {replaces_id}, which is not there",
    ),
    (
        "SELECT line.table_id, line.case_id, line.case_key FROM kept_table_case AS line "
        "LEFT JOIN table_answer AS found ON found.run = line.run AND found.case_key = line.case_key "
        "WHERE found.run IS NULL",
        "table {table_id}, case {case_id}",
        "its answer {case_key} is not there",
    ),
    (
        "SELECT line.table_id, line.n FROM kept_table_case AS line LEFT JOIN kept_table ON kept_table.id = table_id "
        "WHERE kept_table.id IS NULL",
        "case {n} of a table",
        "its table {table_id} is not there",
    ),
)
"""Rows that point at rows that are not there: what the database's own rules forbid, if nobody went round them."""


def _file_faults(connection: Connection) -> Iterator[Damage]:
    """What SQLite itself finds in its file; a server looks after its own."""
    if connection.dialect.name != "sqlite":
        return
    for (said,) in connection.exec_driver_sql("PRAGMA integrity_check(20)"):
        if said != "ok":
            yield Damage(thing="the file", why=str(said))
