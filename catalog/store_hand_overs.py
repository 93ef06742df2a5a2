"""Hand-over records, kept with their job: each save is one more, and none is ever changed."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Engine
from sqlmodel import col, select

from catalog.store_columns import hash_of_text, text_of_content
from catalog.store_engine import reading, writing
from catalog.store_errors import EditConflict, NotInStore, StoreDamaged, WrittenMeanwhile
from catalog.store_rows import HandOverRow, JobRow
from catalog.store_texts import checked_text


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredHandOver:
    """A hand-over record as it was saved once.

    job_id, version : of which job, and which of its records, from 1
    content : plain JSON values
    saved_at, saved_by : when and by whom
    """

    job_id: str
    version: int
    content: dict[str, Any]
    saved_at: datetime
    saved_by: str


class StoredHandOvers:
    """Reads and saves hand-over records."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime]) -> None:
        self._engine, self._clock = engine, clock

    def of_job(self, job_id: str) -> tuple[StoredHandOver, ...]:
        """Every record of a job, oldest first; the last one counts."""
        query = select(HandOverRow).where(HandOverRow.job_id == job_id).order_by(col(HandOverRow.version))
        with reading(self._engine) as session:
            return tuple(_record(row) for row in session.exec(query).all())

    def save(self, job_id: str, content: Mapping[str, Any], *, based_on: int, by: str) -> StoredHandOver:
        """Keep one more record of a job; the same again makes none.

        based_on : the one it was filled in over; 0 for none

        Raises EditConflict where another one was saved since.
        """
        who, text = checked_text("who recorded", by, longest=120), text_of_content(content)
        try:
            with writing(self._engine) as session:
                if session.get(JobRow, job_id) is None:
                    raise NotInStore(thing=f"job {job_id}")
                query = (
                    select(HandOverRow).where(HandOverRow.job_id == job_id).order_by(col(HandOverRow.version).desc())
                )
                last = session.exec(query).first()
                found = 0 if last is None else last.version
                if found != based_on:
                    raise _conflict(job_id, based_on=based_on, found=found)
                hashed = hash_of_text(text)
                if last is not None and last.content_sha256 == hashed:
                    return _record(last)
                facts = {"job_id": job_id, "version": found + 1, "content": dict(content), "content_sha256": hashed}
                row = HandOverRow.model_validate({**facts, "saved_at": self._clock(), "saved_by": who})
                session.add(row)
                session.flush()
                return _record(row)
        except WrittenMeanwhile as problem:
            raise _conflict(job_id, based_on=based_on, found=based_on + 1) from problem


def _conflict(job_id: str, *, based_on: int, found: int) -> EditConflict:
    return EditConflict(thing=f"hand-over record of job {job_id}", opened_revision=based_on, current_revision=found)


def _record(row: HandOverRow) -> StoredHandOver:
    if hash_of_text(text_of_content(row.content)) != row.content_sha256:
        raise StoreDamaged(
            thing=f"hand-over record {row.version} of job {row.job_id}", why="its content does not match its hash"
        )
    return StoredHandOver(
        job_id=row.job_id, version=row.version, content=row.content, saved_at=row.saved_at, saved_by=row.saved_by
    )
