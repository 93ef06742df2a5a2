"""What is ticked and timed of a plan's steps while the work is done; one note for each plan."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Engine
from sqlmodel import col, select

from catalog.store_engine import reading, writing
from catalog.store_errors import EditConflict, WrittenMeanwhile
from catalog.store_rows import BenchNoteRow, PlanRow


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredBenchNote:
    """What is kept of the work at the bench by one plan.

    plan_id : the plan
    content : plain JSON values
    version : to hand back when it is changed; 0 where nothing is kept yet
    """

    plan_id: int
    content: dict[str, Any]
    version: int


class StoredBenchNotes:
    """Reads and saves bench notes."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime]) -> None:
        self._engine, self._clock = engine, clock

    def get(self, plan_id: int) -> StoredBenchNote:
        """The note of a plan; an empty one where nothing is kept yet."""
        with reading(self._engine) as session:
            row = session.get(BenchNoteRow, plan_id)
            return StoredBenchNote(plan_id=plan_id, content={}, version=0) if row is None else _note(row)

    def of_job(self, job_id: str) -> tuple[StoredBenchNote, ...]:
        """The notes of every plan of a job, oldest plan first."""
        query = select(BenchNoteRow).join(PlanRow, col(PlanRow.id) == BenchNoteRow.plan_id)
        query = query.where(PlanRow.job_id == job_id).order_by(col(PlanRow.id))
        with reading(self._engine) as session:
            return tuple(_note(row) for row in session.exec(query).all())

    def save(self, plan_id: int, content: Mapping[str, Any], *, based_on: int) -> StoredBenchNote:
        """Keep what is ticked and timed now.

        Raises EditConflict where another window has changed it since.
        """
        try:
            with writing(self._engine) as session:
                row = session.get(BenchNoteRow, plan_id)
                _refuse_other_version(row, plan_id, based_on=based_on)
                now = {"plan_id": plan_id, "content": dict(content), "changed_at": self._clock()}
                if row is None:
                    row = BenchNoteRow.model_validate(now)
                else:
                    row.sqlmodel_update(now)
                session.add(row)
                session.flush()
                return _note(row)
        except WrittenMeanwhile:
            with reading(self._engine) as session:
                _refuse_other_version(session.get(BenchNoteRow, plan_id), plan_id, based_on=based_on)
            raise


def _refuse_other_version(row: BenchNoteRow | None, plan_id: int, *, based_on: int) -> None:
    found = 0 if row is None else row.version or 0
    if found != based_on:
        raise EditConflict(thing=f"bench note of plan {plan_id}", opened_revision=based_on, current_revision=found)


def _note(row: BenchNoteRow) -> StoredBenchNote:
    return StoredBenchNote(plan_id=row.plan_id, content=row.content, version=row.version or 0)
