"""The catalog in the store: documents, each a row of revisions that are never changed.

Whoever saves names the revision they opened. If another one was saved since, nothing is kept and the message says who
saved what. Going back to an old revision makes a new one with the old content, so undo can be undone.
"""

from collections.abc import Callable, Iterable, Mapping, Sequence
from datetime import datetime
from difflib import get_close_matches
from itertools import pairwise
from typing import Any

from sqlalchemy import Engine
from sqlmodel import Session, col, func, select

from catalog.store_columns import hash_of_text, text_of_content
from catalog.store_differences import differences, sentences
from catalog.store_engine import reading, writing
from catalog.store_errors import (
    EditConflict,
    NotInStore,
    SeveralConflicts,
    StoreDamaged,
    StoreRefused,
    WrittenMeanwhile,
)
from catalog.store_rows import DocumentRevisionRow, DocumentRow
from catalog.store_texts import checked_id, checked_number, checked_text
from catalog.store_things import Change, Pin, Revision


class StoredDocuments:
    """Reads and saves catalog documents."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime]) -> None:
        self._engine, self._clock = engine, clock

    def save(self, change: Change, *, by: str, note: str = "") -> Revision:
        """Save one document; the same content again makes no new revision."""
        return self.save_all([change], by=by, note=note)[0]

    def save_all(self, changes: Sequence[Change], *, by: str, note: str = "") -> tuple[Revision, ...]:
        """Save several documents, all or none; the revisions come back in the order given."""
        return self._write(changes, by=by, note=note)

    def current(self, kind: str, id: str) -> Revision:
        """The latest revision of a document."""
        with reading(self._engine) as session:
            head = session.get(DocumentRow, (kind, id))
            if head is None:
                known = session.exec(select(DocumentRow.id).where(DocumentRow.kind == kind)).all()
                raise NotInStore(thing=f"{kind} {id}", near=get_close_matches(id, known, n=3))
            return _revision(_row(session, Pin(kind=kind, id=id, revision=head.revision or 0)))

    def list_current(self, kind: str | None = None, *, with_withdrawn: bool = False) -> tuple[Revision, ...]:
        """The latest revision of every document (of one kind), in order of kind and id."""
        here = (
            (col(DocumentRow.kind) == DocumentRevisionRow.kind)
            & (col(DocumentRow.id) == DocumentRevisionRow.id)
            & (col(DocumentRow.revision) == DocumentRevisionRow.revision)
        )
        query = select(DocumentRevisionRow).join(DocumentRow, here)
        if kind is not None:
            query = query.where(DocumentRevisionRow.kind == kind)
        if not with_withdrawn:
            query = query.where(col(DocumentRevisionRow.is_withdrawn).is_(False))
        with reading(self._engine) as session:
            found = [_revision(row) for row in session.exec(query).all()]
        return tuple(sorted(found, key=lambda revision: revision.pin))

    def stamp(self) -> tuple[int, int, int]:
        """Another one after every change of any document: how many there are, and their revisions added up.

        The third grows when a copy is put back, after which the others may come to what they were before.
        """
        with reading(self._engine) as session:
            count, total = session.exec(select(func.count(), func.sum(DocumentRow.revision))).one()
            is_file = self._engine.dialect.name == "sqlite"
            times = session.connection().exec_driver_sql("PRAGMA schema_version").scalar_one() if is_file else 0
            return count, total or 0, times

    def at(self, pin: Pin) -> Revision:
        """One exact revision."""
        with reading(self._engine) as session:
            return _revision(_row(session, pin))

    def at_all(self, pins: Iterable[Pin]) -> tuple[Revision, ...]:
        """Several exact revisions, seen at one moment, in the order given."""
        with reading(self._engine) as session:
            return tuple(_revision(_row(session, pin)) for pin in pins)

    def history(self, kind: str, id: str) -> tuple[Revision, ...]:
        """All revisions of a document, oldest first."""
        with reading(self._engine) as session:
            query = select(DocumentRevisionRow).where(DocumentRevisionRow.kind == kind, DocumentRevisionRow.id == id)
            rows = session.exec(query.order_by(col(DocumentRevisionRow.revision))).all()
            if not rows:
                raise NotInStore(thing=f"{kind} {id}")
            return tuple(_revision(row) for row in rows)

    def go_back(self, to: Pin, *, based_on: int, by: str, note: str = "") -> Revision:
        """Make an old revision the current one again, as a new revision."""
        old = self.at(to)
        change = Change(kind=to.kind, id=to.id, name=old.name, content=old.content, based_on=based_on)
        return self.save(change, by=by, note=note or f"back to revision {to.revision}")

    def withdraw(self, kind: str, id: str, *, based_on: int, by: str, note: str = "") -> Revision:
        """Take a document out of use; its revisions stay, and going back brings it into use again."""
        now = self.current(kind, id)
        change = Change(kind=kind, id=id, name=now.name, content=now.content, based_on=based_on, withdraws=True)
        return self._write([change], by=by, note=note)[0]

    def _write(self, changes: Sequence[Change], *, by: str, note: str) -> tuple[Revision, ...]:
        by, note = (
            checked_text("who saved", by, longest=120),
            checked_text("note", note, longest=500, may_be_empty=True),
        )
        ordered = sorted(changes, key=lambda change: (change.kind, change.id))  # the same lock order for everybody
        _refuse_twice(ordered)
        saved = {"saved_at": self._clock(), "saved_by": by, "note": note}
        try:
            with writing(self._engine) as session:
                if conflict := _conflicts(session, ordered, is_writing=True):
                    raise conflict
                rows = {(change.kind, change.id): _save(session, change, saved) for change in ordered}
        except WrittenMeanwhile as problem:
            with reading(self._engine) as session:
                if conflict := _conflicts(session, ordered, is_writing=False):
                    raise conflict from problem
            raise
        return tuple(_revision(rows[change.kind, change.id]) for change in changes)


def _save(session: Session, change: Change, saved: Mapping[str, Any]) -> DocumentRevisionRow:
    facts = {
        "kind": checked_id("kind", change.kind, longest=40),
        "id": checked_id("id", change.id, longest=120),
        "name": checked_text("name", change.name, longest=200),
        "content_sha256": hash_of_text(text_of_content(change.content)),
        "is_withdrawn": change.withdraws,
    }
    head = session.get(DocumentRow, (change.kind, change.id))
    if head is None:
        session.add(DocumentRow.model_validate(facts))
    elif all(getattr(head, name) == value for name, value in facts.items()):
        return _row(session, Pin(kind=change.kind, id=change.id, revision=head.revision or 0))
    else:
        head.sqlmodel_update({name: facts[name] for name in ("name", "content_sha256", "is_withdrawn")})
    session.flush()  # writes the head first: whoever comes second stops here
    revision = 1 if change.based_on is None else change.based_on + 1
    row = DocumentRevisionRow.model_validate({**facts, **saved, "revision": revision, "content": change.content})
    session.add(row)
    session.flush()
    return row


def _refuse_twice(ordered: Sequence[Change]) -> None:
    for first, second in pairwise(ordered):
        if (first.kind, first.id) == (second.kind, second.id):
            raise StoreRefused(thing=f"{first.kind} {first.id}", given="two contents", rule="one save takes one")


def _conflicts(session: Session, changes: Sequence[Change], *, is_writing: bool) -> EditConflict | None:
    """One complaint for all of them; None when the way is clear."""
    found = [conflict for change in changes if (conflict := _conflict(session, change, is_writing=is_writing))]
    return SeveralConflicts(found) if len(found) > 1 else next(iter(found), None)


def _conflict(session: Session, change: Change, *, is_writing: bool) -> EditConflict | None:
    """The complaint when somebody else saved since; None when the way is clear, and kept clear while writing."""
    head = session.get(DocumentRow, (change.kind, change.id), with_for_update=is_writing or None)
    found = None if head is None else head.revision
    if found == change.based_on:
        return None
    thing = f"{change.kind} {change.id}"
    if found is None:
        return EditConflict(thing=thing, opened_revision=change.based_on, current_revision=None)
    theirs = _row(session, Pin(kind=change.kind, id=change.id, revision=found))
    opened = _opened(session, change)
    before = {} if opened is None else opened.content
    they, you = differences(before, theirs.content), differences(before, change.content)
    return EditConflict(
        thing=thing,
        opened_revision=change.based_on,
        current_revision=found,
        saved_by=theirs.saved_by,
        saved_at=f"{theirs.saved_at:%Y-%m-%d %H:%M} UTC",
        they_changed=() if opened is None else sentences(they),
        you_changed=() if opened is None else sentences(you),
        both_changed=() if opened is None else tuple(place for place in you if place in they),
    )


def _opened(session: Session, change: Change) -> DocumentRevisionRow | None:
    return session.get(DocumentRevisionRow, (change.kind, change.id, change.based_on or 0))


def _row(session: Session, pin: Pin) -> DocumentRevisionRow:
    checked_number(f"{pin.kind} {pin.id}, revision", pin.revision)
    row = session.get(DocumentRevisionRow, (pin.kind, pin.id, pin.revision))
    if row is None:
        raise NotInStore(thing=str(pin))
    return row


def _revision(row: DocumentRevisionRow) -> Revision:
    pin = Pin(kind=row.kind, id=row.id, revision=row.revision)
    if hash_of_text(text_of_content(row.content)) != row.content_sha256:
        raise StoreDamaged(thing=str(pin), why="its content does not match its hash")
    return Revision(
        pin=pin,
        name=row.name,
        content=row.content,
        content_sha256=row.content_sha256,
        is_withdrawn=row.is_withdrawn,
        saved_at=row.saved_at,
        saved_by=row.saved_by,
        note=row.note,
    )
