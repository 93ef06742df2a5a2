"""Quotes in the store: frozen once handed over, with every step of their life.

A quote keeps all it prints in its own record, and the exact revisions behind it: it prints the same a year later.
"""

from collections.abc import Callable
from datetime import date, datetime
from decimal import Decimal
from typing import Any

from sqlalchemy import Engine
from sqlmodel import Session, col, delete, func, select

from catalog.store_columns import hash_of_text, text_of_content
from catalog.store_engine import reading, writing
from catalog.store_errors import EditConflict, NotInStore, StoreDamaged, StoreRefused, WrittenMeanwhile
from catalog.store_pins import refuse_unknown_pins
from catalog.store_quote_steps import (
    WITHDRAWN_BY_ANOTHER,
    last_day_of,
    refuse_old_draft,
    refuse_second_yes,
    refuse_step,
    replaced_by,
    row_of,
    row_to_replace,
)
from catalog.store_rows import PlanRow, QuoteEventRow, QuotePinRow, QuotePlanRow, QuoteRow
from catalog.store_texts import checked_number, checked_text
from catalog.store_things import Happening, Pin, QuoteDraft, QuoteState, StoredQuote


class StoredQuotes:
    """Reads and saves quotes."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime]) -> None:
        self._engine, self._clock = engine, clock

    def save(self, draft: QuoteDraft, *, by: str, note: str = "") -> StoredQuote:
        """Keep a new quote as a draft and give it its number; one that it replaces is called off with it."""
        facts = _facts(draft)
        with writing(self._engine) as session:
            _refuse_unknown(session, draft)
            old = None if draft.replaces_id is None else row_to_replace(session, draft.replaces_id)
            now = {"state": QuoteState.DRAFTED.value, "changed_at": self._clock()}
            row = QuoteRow.model_validate({**facts, **now})
            session.add(row)
            session.flush()
            for plan_id in sorted(set(draft.plan_ids)):
                session.add(QuotePlanRow.model_validate({"quote_id": row.id, "plan_id": plan_id}))
            _add_pins(session, row.id or 0, draft)
            self._tell(session, row, by=by, note=note)
            if old is not None and old.state in WITHDRAWN_BY_ANOTHER:
                self._step(session, old, QuoteState.CALLED_OFF, by=by, note=f"replaced by quote {row.id}")
            return _quote(session, row)

    def rewrite(self, id: int, draft: QuoteDraft, *, based_on: int, by: str, note: str = "") -> StoredQuote:
        """Change what a draft says; what was handed over is not changed but replaced."""

        def work(session: Session, row: QuoteRow) -> None:
            kept = _quote(session, row).draft
            if row.state != QuoteState.DRAFTED:
                raise StoreRefused(
                    thing=f"quote {id}",
                    given=f"a change while {row.state}",
                    rule="only a draft is rewritten; save a new quote that replaces this one",
                )
            if set(draft.plan_ids) != set(kept.plan_ids) or draft.replaces_id != kept.replaces_id:
                raise StoreRefused(thing=f"quote {id}", given="other plans", rule="save a new quote for them")
            _refuse_unknown(session, draft)
            row.sqlmodel_update(_facts(draft))
            session.exec(delete(QuotePinRow).where(col(QuotePinRow.quote_id) == id))
            _add_pins(session, id, draft)

        return self._change(id, work, based_on=based_on, by=by, note=note)

    def move(
        self,
        id: int,
        to: QuoteState,
        *,
        today: date,
        based_on: int,
        by: str,
        note: str = "",
        though_old: bool = False,
    ) -> StoredQuote:
        """Take a quote to its next state; handed over, it stands its days from that day on.

        today : the day it is in the shop
        though_old : whether a draft whose days are past may be handed over
        """

        def work(session: Session, row: QuoteRow) -> None:
            refuse_step(row, to, today=today)
            if to is QuoteState.AGREED:
                refuse_second_yes(session, row)
            if to is QuoteState.HANDED_OVER:
                refuse_old_draft(row, today=today, though_old=though_old)
                row.valid_until = last_day_of(row, today)
            row.state = to.value

        return self._change(id, work, based_on=based_on, by=by, note=note)

    def _step(self, session: Session, row: QuoteRow, to: QuoteState, *, by: str, note: str) -> None:
        row.sqlmodel_update({"state": to.value, "changed_at": self._clock()})
        session.add(row)
        session.flush()
        self._tell(session, row, by=by, note=note)

    def get(self, id: int) -> StoredQuote:
        """A quote as it stands.

        Raises StoreDamaged where it is not as it was saved.
        """
        with reading(self._engine) as session:
            try:
                return _quote(session, row_of(session, id))
            except ValueError as problem:
                raise StoreDamaged(thing=f"quote {id}", why=str(problem)) from problem
            except StoreDamaged as problem:
                raise StoreDamaged(thing=f"quote {id}", why=problem.why) from problem

    def ids_of_job(self, job_id: str) -> tuple[int, ...]:
        """Numbers of all quotes made from a plan of a job, oldest first."""
        query = select(QuotePlanRow.quote_id).join(PlanRow, col(PlanRow.id) == QuotePlanRow.plan_id)
        query = query.where(PlanRow.job_id == job_id).distinct().order_by(col(QuotePlanRow.quote_id))
        with reading(self._engine) as session:
            return tuple(session.exec(query).all())

    def list(self, state: QuoteState | None = None) -> tuple[StoredQuote, ...]:
        """All quotes (in one state), by number."""
        query = select(QuoteRow) if state is None else select(QuoteRow).where(QuoteRow.state == state.value)
        with reading(self._engine) as session:
            return tuple(_quote(session, row) for row in session.exec(query.order_by(col(QuoteRow.id))).all())

    def count(self) -> int:
        """How many there are."""
        with reading(self._engine) as session:
            return session.exec(select(func.count()).select_from(QuoteRow)).one()

    def history(self, id: int) -> tuple[Happening, ...]:
        """Every step in the life of a quote, oldest first."""
        with reading(self._engine) as session:
            query = select(QuoteEventRow).where(QuoteEventRow.quote_id == id).order_by(col(QuoteEventRow.version))
            return tuple(
                Happening(version=row.version, state=row.state, done_at=row.done_at, done_by=row.done_by, note=row.note)
                for row in session.exec(query).all()
            )

    def _change(
        self, id: int, work: Callable[[Session, QuoteRow], None], *, based_on: int, by: str, note: str
    ) -> StoredQuote:
        try:
            with writing(self._engine) as session:
                row = row_of(session, id)
                _refuse_other_version(session, row, based_on=based_on)
                work(session, row)
                row.changed_at = self._clock()
                session.add(row)
                session.flush()
                self._tell(session, row, by=by, note=note)
                return _quote(session, row)
        except WrittenMeanwhile:
            with reading(self._engine) as session:
                _refuse_other_version(session, row_of(session, id), based_on=based_on)
            raise

    def _tell(self, session: Session, row: QuoteRow, *, by: str, note: str) -> None:
        event = {
            "quote_id": row.id,
            "version": row.version,
            "state": row.state,
            "record_sha256": row.record_sha256,
            "done_at": row.changed_at,
            "done_by": checked_text("who saved", by, longest=120),
            "note": checked_text("note", note, longest=500, may_be_empty=True),
        }
        session.add(QuoteEventRow.model_validate(event))
        session.flush()


def _facts(draft: QuoteDraft) -> dict[str, Any]:
    if not isinstance(draft.total, Decimal) or not draft.total.is_finite():  # a float has already lost the cents
        raise StoreRefused(thing="money", given=repr(draft.total), rule="it must be a finite decimal number")
    return {
        "for_whom": checked_text("for whom", draft.for_whom, longest=200, may_be_empty=True),
        "record": draft.record,
        "record_sha256": hash_of_text(text_of_content(draft.record)),
        "total": draft.total,
        "currency": checked_text("currency", draft.currency, longest=8),
        "valid_until": draft.valid_until,
        "replaces_id": draft.replaces_id,
    }


def _refuse_unknown(session: Session, draft: QuoteDraft) -> None:
    refuse_unknown_pins(session, draft.pins)
    for plan_id in draft.plan_ids:
        if session.get(PlanRow, checked_number("plan", plan_id)) is None:
            raise NotInStore(thing=f"plan {plan_id}")
    if draft.replaces_id is not None:
        row_of(session, draft.replaces_id)


def _refuse_other_version(session: Session, row: QuoteRow, *, based_on: int) -> None:
    if row.version == based_on:
        return
    last = session.get(QuoteEventRow, (row.id, row.version))
    raise EditConflict(
        thing=f"quote {row.id}",
        opened_revision=based_on,
        current_revision=row.version,
        saved_by=last.done_by if last else "",
        saved_at=f"{row.changed_at:%Y-%m-%d %H:%M} UTC",
        they_changed=(f"now {row.state}",),
    )


def _add_pins(session: Session, quote_id: int, draft: QuoteDraft) -> None:
    for pin in sorted(set(draft.pins)):
        facts = {"quote_id": quote_id, "kind": pin.kind, "document_id": pin.id, "revision": pin.revision}
        session.add(QuotePinRow.model_validate(facts))


def _quote(session: Session, row: QuoteRow) -> StoredQuote:
    session.flush()
    if hash_of_text(text_of_content(row.record)) != row.record_sha256:
        raise StoreDamaged(thing=f"quote {row.id}", why="its record does not match its hash")
    pins = session.exec(select(QuotePinRow).where(QuotePinRow.quote_id == row.id)).all()
    plans = session.exec(select(QuotePlanRow.plan_id).where(QuotePlanRow.quote_id == row.id)).all()
    draft = QuoteDraft(
        for_whom=row.for_whom,
        record=row.record,
        total=row.total,
        currency=row.currency,
        valid_until=row.valid_until,
        pins=tuple(sorted(Pin(kind=pin.kind, id=pin.document_id, revision=pin.revision) for pin in pins)),
        plan_ids=tuple(sorted(plans)),
        replaces_id=row.replaces_id,
    )
    return StoredQuote(
        id=row.id or 0,
        state=QuoteState(row.state),
        draft=draft,
        version=row.version or 0,
        changed_at=row.changed_at,
        replaced_by_id=replaced_by(session, row.id or 0),
    )
