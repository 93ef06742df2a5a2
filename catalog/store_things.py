"""What the store hands out: frozen copies, never rows."""

from dataclasses import dataclass
from datetime import UTC, date, datetime
from decimal import Decimal
from enum import StrEnum
from typing import Any


@dataclass(frozen=True, slots=True, kw_only=True, order=True)
class Pin:
    """One exact revision of one document.

    kind, id : the document
    revision : counted from 1
    """

    kind: str
    id: str
    revision: int

    def __str__(self) -> str:
        return f"{self.kind} {self.id}, revision {self.revision}"


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A document to save.

    kind, id, name : the document
    content : the whole of it, as plain JSON values
    based_on : the revision it was opened at; None for a new one
    withdraws : whether this takes it out of use
    """

    kind: str
    id: str
    name: str
    content: dict[str, Any]
    based_on: int | None
    withdraws: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """A document as it was saved once.

    pin : which one
    name, content : as saved; the content is a copy of your own
    content_sha256 : of the text it is kept as
    is_withdrawn : whether it was taken out of use by this revision
    saved_at, saved_by, note : when, by whom, why
    """

    pin: Pin
    name: str
    content: dict[str, Any]
    content_sha256: str
    is_withdrawn: bool
    saved_at: datetime
    saved_by: str
    note: str


NOT_SAVED_YET = datetime.max.replace(tzinfo=UTC)


def once_saved(change: Change) -> Revision:
    """A change as the store will have it; who saved it and when is not known yet, and not asked."""
    revision = 1 if change.based_on is None else change.based_on + 1
    return Revision(
        pin=Pin(kind=change.kind, id=change.id, revision=revision),
        name=change.name,
        content=change.content,
        content_sha256="",
        is_withdrawn=change.withdraws,
        saved_at=NOT_SAVED_YET,
        saved_by="",
        note="",
    )


class JobState(StrEnum):
    """Where a job stands."""

    WAITING = "waiting"
    ON_THE_BENCH = "on_the_bench"
    FINISHED = "finished"
    CALLED_OFF = "called_off"


class QuoteState(StrEnum):
    """Where a quote stands."""

    DRAFTED = "drafted"
    HANDED_OVER = "handed_over"
    AGREED = "agreed"
    TURNED_DOWN = "turned_down"
    LAPSED = "lapsed"
    CALLED_OFF = "called_off"
    WORK_DONE = "work_done"


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredJob:
    """A job as it stands.

    id, title, for_whom, state : of the job
    content : the job file's mapping
    version : to hand back when it is saved again
    changed_at : when it last changed
    """

    id: str
    title: str
    for_whom: str
    state: JobState
    content: dict[str, Any]
    version: int
    changed_at: datetime


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredPlan:
    """A plan as it was found.

    id : its number
    job_id, job_version : the exact job it answers
    outcome : fits, tight, unknown or no_fit
    record : the plan, as written by `lineplan plan --json`
    inputs_sha256 : of everything that went in
    pins : the exact revisions that went in
    made_at, made_by : when, by whom
    """

    id: int
    job_id: str
    job_version: int
    outcome: str
    record: dict[str, Any]
    inputs_sha256: str
    pins: tuple[Pin, ...]
    made_at: datetime
    made_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteDraft:
    """A quote to save.

    for_whom : whom it is for
    record : everything it prints, as plain JSON values (money as decimal text)
    total, currency : what it comes to
    valid_until : last day it stands; of a draft, how long its prices are taken to hold
    pins : the exact revisions its prices and times were read from
    plan_ids : the plans it is made from
    replaces_id : the earlier quote it stands in for; None for the first
    """

    for_whom: str
    record: dict[str, Any]
    total: Decimal
    currency: str
    valid_until: date
    pins: tuple[Pin, ...] = ()
    plan_ids: tuple[int, ...] = ()
    replaces_id: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredQuote:
    """A quote as it stands.

    id : its number
    state : where it stands
    draft : what it says
    version : to hand back when it is changed
    changed_at : when it last changed
    replaced_by_id : the quote that stands in for it; None where none does
    """

    id: int
    state: QuoteState
    draft: QuoteDraft
    version: int
    changed_at: datetime
    replaced_by_id: int | None = None

    def state_on(self, day: date) -> QuoteState:
        """Where it stands on a day: what was handed over lapses by itself when its last day is over."""
        is_over = self.state is QuoteState.HANDED_OVER and day > self.draft.valid_until
        return QuoteState.LAPSED if is_over else self.state


@dataclass(frozen=True, slots=True, kw_only=True)
class Happening:
    """One line of a history.

    version : the version it led to
    state : the state it led to
    done_at, done_by, note : when, by whom, why
    """

    version: int
    state: str
    done_at: datetime
    done_by: str
    note: str
