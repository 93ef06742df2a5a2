"""Forms that are being filled in: every settled change is a step, undo and redo only move where the form stands.

Two windows may hold one draft: whoever saves names the version they saw, and a later one is told instead of being lost.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from sqlalchemy import Engine
from sqlmodel import Session, col, delete, func, select

from catalog.store_engine import reading, writing
from catalog.store_errors import EditConflict, NotInStore, WrittenMeanwhile
from catalog.store_rows import DraftRow, DraftStepRow
from catalog.store_texts import checked_id, checked_text

MOST_STEPS = 200
"""So many steps of a draft can be taken back."""

STEPS_KEPT_FOR = timedelta(days=30)
"""After so long without a change a draft keeps what it shows, and none of the steps before and after it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredDraft:
    """A form as it stands.

    id, form, title : which draft, of which form, and what people call it
    content : what the form shows
    version : to hand back when it is changed
    has_before, has_after : whether a step can be taken back, or done again
    changed_at : when it last changed
    """

    id: str
    form: str
    title: str
    content: dict[str, Any]
    version: int
    has_before: bool
    has_after: bool
    changed_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class DraftBrief:
    """A draft in short, by the words of `StoredDraft`."""

    id: str
    form: str
    title: str
    changed_at: datetime


class StoredDrafts:
    """Reads and saves drafts."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime]) -> None:
        self._engine, self._clock = engine, clock

    def save(
        self,
        id: str,
        content: Mapping[str, Any],
        *,
        form: str,
        title: str = "",
        based_on: int | None = None,
        amends: bool = False,
    ) -> StoredDraft:
        """Keep what a form shows now as its next step; what had been taken back before it cannot be done again.

        based_on : the version that was seen last; None for a new draft
        amends : whether it takes the place of the step it stands at instead

        Raises EditConflict where another window has changed it since.
        """
        facts = {
            "id": checked_id("draft", id, longest=120),
            "form": checked_id("form", form, longest=40),
            "title": checked_text("title", title[:200], longest=200, may_be_empty=True),
        }

        def work(session: Session, row: DraftRow | None) -> DraftRow:
            n = 1 if row is None else row.at + (not amends)
            now = {**facts, "at": n, "changed_at": self._clock()}
            if row is None:
                _forget_old_steps(session, before=self._clock() - STEPS_KEPT_FOR)
                row = DraftRow.model_validate(now)
            else:
                row.sqlmodel_update(now)
                gone = (col(DraftStepRow.n) >= n) | (col(DraftStepRow.n) <= n - MOST_STEPS)
                session.exec(delete(DraftStepRow).where(col(DraftStepRow.draft_id) == id, gone))
            session.add(row)
            session.flush()
            session.add(DraftStepRow.model_validate({"draft_id": id, "n": n, "content": dict(content)}))
            session.flush()
            return row

        return self._change(id, work, based_on=based_on)

    def step(self, id: str, *, back: bool, based_on: int) -> StoredDraft:
        """Take the last step back, or do it again; where there is none, the draft stays as it is."""

        def work(session: Session, row: DraftRow | None) -> DraftRow:
            if row is None:
                raise NotInStore(thing=f"draft {id}")
            n = _neighbour(session, row, back=back)
            if n is not None:
                row.sqlmodel_update({"at": n, "changed_at": self._clock()})
                session.add(row)
                session.flush()
            return row

        return self._change(id, work, based_on=based_on)

    def get(self, id: str) -> StoredDraft:
        """A draft as it stands."""
        with reading(self._engine) as session:
            row = session.get(DraftRow, id)
            if row is None:
                raise NotInStore(thing=f"draft {id}")
            return _draft(session, row)

    def version(self, id: str) -> int | None:
        """The version a draft has now; None where there is none."""
        with reading(self._engine) as session:
            return session.exec(select(DraftRow.version).where(DraftRow.id == id)).first()

    def recent(self, form: str, *, most: int) -> tuple[DraftBrief, ...]:
        """The drafts of a form that were changed last, newest first."""
        query = select(DraftRow).where(DraftRow.form == form).order_by(col(DraftRow.changed_at).desc()).limit(most)
        with reading(self._engine) as session:
            return tuple(
                DraftBrief(id=row.id, form=row.form, title=row.title, changed_at=row.changed_at)
                for row in session.exec(query).all()
            )

    def not_in(self, versions: Mapping[str, int], *, forms: Sequence[str]) -> tuple[DraftBrief, ...]:
        """Drafts of some forms that another store has not, or not as they are here; newest first.

        versions : of the other store's drafts
        """
        query = select(DraftRow).where(col(DraftRow.form).in_(forms)).order_by(col(DraftRow.changed_at).desc())
        with reading(self._engine) as session:
            return tuple(
                DraftBrief(id=row.id, form=row.form, title=row.title, changed_at=row.changed_at)
                for row in session.exec(query).all()
                if versions.get(row.id) != row.version
            )

    def forget(self, id: str) -> None:
        """Put a draft away for good."""
        with writing(self._engine) as session:
            session.exec(delete(DraftStepRow).where(col(DraftStepRow.draft_id) == id))
            session.exec(delete(DraftRow).where(col(DraftRow.id) == id))

    def _change(
        self, id: str, work: Callable[[Session, DraftRow | None], DraftRow], *, based_on: int | None
    ) -> StoredDraft:
        try:
            with writing(self._engine) as session:
                row = session.get(DraftRow, id)
                _refuse_other_version(row, id, based_on=based_on)
                return _draft(session, work(session, row))
        except WrittenMeanwhile:
            with reading(self._engine) as session:
                _refuse_other_version(session.get(DraftRow, id), id, based_on=based_on)
            raise


def _refuse_other_version(row: DraftRow | None, id: str, *, based_on: int | None) -> None:
    found = None if row is None else row.version
    if found != based_on:
        when = "" if row is None else f"{row.changed_at:%Y-%m-%d %H:%M} UTC"
        raise EditConflict(thing=f"draft {id}", opened_revision=based_on, current_revision=found, saved_at=when)


def _neighbour(session: Session, row: DraftRow, *, back: bool) -> int | None:
    """The step before or after the one a draft stands at."""
    of_draft = select(func.max(DraftStepRow.n) if back else func.min(DraftStepRow.n))
    of_draft = of_draft.where(DraftStepRow.draft_id == row.id)
    n = col(DraftStepRow.n)
    return session.exec(of_draft.where(n < row.at if back else n > row.at)).first()


def _forget_old_steps(session: Session, *, before: datetime) -> None:
    at = select(DraftRow.at).where(DraftRow.id == DraftStepRow.draft_id).scalar_subquery()
    old = select(DraftRow.id).where(col(DraftRow.changed_at) < before)
    session.exec(delete(DraftStepRow).where(col(DraftStepRow.draft_id).in_(old), col(DraftStepRow.n) != at))


def _draft(session: Session, row: DraftRow) -> StoredDraft:
    shown = session.get(DraftStepRow, (row.id, row.at))
    if shown is None:
        raise NotInStore(thing=f"draft {row.id}, step {row.at}")
    return StoredDraft(
        id=row.id,
        form=row.form,
        title=row.title,
        content=shown.content,
        version=row.version or 0,
        has_before=_neighbour(session, row, back=True) is not None,
        has_after=_neighbour(session, row, back=False) is not None,
        changed_at=row.changed_at,
    )
