"""Plans in the store: what was found, from exactly which revisions; kept as they were."""

from collections.abc import Callable, Iterable, Mapping
from datetime import datetime
from typing import Any

from sqlalchemy import Engine
from sqlmodel import Session, col, select

from catalog.store_columns import hash_of_text, text_of_content
from catalog.store_engine import reading, writing
from catalog.store_errors import NotInStore, StoreDamaged, StoreRefused
from catalog.store_pins import refuse_unknown_pins
from catalog.store_rows import JobEventRow, PlanPinRow, PlanRow
from catalog.store_texts import checked_number, checked_text
from catalog.store_things import Pin, StoredPlan

OUTCOMES = ("fits", "tight", "unknown", "no_fit")


def hash_of_inputs(*, job: Mapping[str, Any], pins: Iterable[Pin]) -> str:
    """What went into a plan, as one hash: the job and the exact revisions."""
    listed = [[pin.kind, pin.id, pin.revision] for pin in sorted(pins)]
    return hash_of_text(text_of_content({"job": dict(job), "pins": listed}))


class StoredPlans:
    """Reads and saves plans."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime]) -> None:
        self._engine, self._clock = engine, clock

    def save(
        self, *, job_id: str, job_version: int, record: Mapping[str, Any], pins: Iterable[Pin], by: str
    ) -> StoredPlan:
        """Keep a plan's record with the exact job and revisions it was made from."""
        wanted = tuple(sorted(set(pins)))
        text = text_of_content(record)
        outcome = record.get("outcome")
        if outcome not in OUTCOMES:
            raise StoreRefused(thing="outcome", given=str(outcome), rule="it is fits, tight, unknown or no_fit")
        with writing(self._engine) as session:
            job = session.get(JobEventRow, (job_id, job_version))
            if job is None:
                raise NotInStore(thing=f"job {job_id}, version {job_version}")
            refuse_unknown_pins(session, wanted)
            row = PlanRow.model_validate(
                {
                    "job_id": job_id,
                    "job_version": job_version,
                    "outcome": outcome,
                    "record": dict(record),
                    "record_sha256": hash_of_text(text),
                    "inputs_sha256": hash_of_inputs(job=job.content, pins=wanted),
                    "made_at": self._clock(),
                    "made_by": checked_text("who planned", by, longest=120),
                }
            )
            session.add(row)
            session.flush()
            pin_rows = [_pin_row(row.id or 0, pin) for pin in wanted]
            session.add_all(pin_rows)
            session.flush()
            return _plan(row, pin_rows)

    def get(self, id: int) -> StoredPlan:
        """One plan.

        Raises StoreDamaged where it is not as it was saved.
        """
        with reading(self._engine) as session:
            try:
                row = session.get(PlanRow, checked_number("plan", id))
                if row is None:
                    raise NotInStore(thing=f"plan {id}")
                return _plan(row, _pins(session, id))
            except StoreDamaged as problem:
                raise StoreDamaged(thing=f"plan {id}", why=problem.why) from problem

    def ids_of_job(self, job_id: str) -> tuple[int, ...]:
        """Numbers of all plans of a job, oldest first."""
        with reading(self._engine) as session:
            query = select(PlanRow.id).where(PlanRow.job_id == job_id).order_by(col(PlanRow.id))
            return tuple(id for id in session.exec(query).all() if id is not None)

    def list_of_job(self, job_id: str) -> tuple[StoredPlan, ...]:
        """All plans of a job, oldest first."""
        with reading(self._engine) as session:
            query = select(PlanRow).where(PlanRow.job_id == job_id).order_by(col(PlanRow.id))
            return tuple(_plan(row, _pins(session, row.id or 0)) for row in session.exec(query).all())


def _pin_row(plan_id: int, pin: Pin) -> PlanPinRow:
    return PlanPinRow.model_validate(
        {"plan_id": plan_id, "kind": pin.kind, "document_id": pin.id, "revision": pin.revision}
    )


def _pins(session: Session, plan_id: int) -> list[PlanPinRow]:
    return list(session.exec(select(PlanPinRow).where(PlanPinRow.plan_id == plan_id)).all())


def _plan(row: PlanRow, pins: Iterable[PlanPinRow]) -> StoredPlan:
    if hash_of_text(text_of_content(row.record)) != row.record_sha256:
        raise StoreDamaged(thing=f"plan {row.id}", why="its record does not match its hash")
    return StoredPlan(
        id=row.id or 0,
        job_id=row.job_id,
        job_version=row.job_version,
        outcome=row.outcome,
        record=row.record,
        inputs_sha256=row.inputs_sha256,
        pins=tuple(sorted(Pin(kind=pin.kind, id=pin.document_id, revision=pin.revision) for pin in pins)),
        made_at=row.made_at,
        made_by=row.made_by,
    )
