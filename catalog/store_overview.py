"""What stands in the store, a line for each job: read without the documents, so that thousands are told at once.

Nothing is held against its hash here; `store check` does that. What does not read as it should is told as it stands.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import Engine, String, func, or_, select, type_coerce
from sqlmodel import col

from catalog.store_engine import reading
from catalog.store_rows import JobRow, PlanRow, QuotePlanRow, QuoteRow
from catalog.store_things import JobState, QuoteState

DAMAGED = "damaged"
"""What is told in place of a state or day that cannot be read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class QuoteBrief:
    """A quote in short.

    id : its number
    state : where it stands; None where that cannot be read
    valid_until : its last day once it is handed over; None where that cannot be read
    """

    id: int
    state: QuoteState | None
    valid_until: date | None

    def state_on(self, day: date) -> str:
        """Where it stands on a day, lapsed when its last day is over; DAMAGED where that cannot be read."""
        if self.state is None or self.valid_until is None:
            return DAMAGED
        is_over = self.state is QuoteState.HANDED_OVER and day > self.valid_until
        return (QuoteState.LAPSED if is_over else self.state).value


@dataclass(frozen=True, slots=True, kw_only=True)
class JobBrief:
    """A job in short.

    id, title, for_whom : of the job
    state : where it stands; None where that cannot be read
    changed_at : when it last changed; None likewise
    outcome : of its last plan; "" where it has none
    quotes : by number
    """

    id: str
    title: str
    for_whom: str
    state: JobState | None
    changed_at: datetime | None
    outcome: str
    quotes: tuple[QuoteBrief, ...]


def list_briefs(engine: Engine, state: JobState | None) -> tuple[JobBrief, ...]:
    """Every job (in one state) in short, by id."""
    with reading(engine) as session:
        connection = session.connection()
        rows = connection.execute(_jobs(state).order_by(JobRow.id)).all()
        return _briefs(connection, rows, among=None)


def find_briefs(engine: Engine, *, words: str, state: JobState | None, most: int) -> tuple[tuple[JobBrief, ...], int]:
    """Jobs in whose id, title or owner all the words stand, changed last first; and how many there are in all."""
    wanted = _jobs(state)
    for word in words.split():
        places = (JobRow.id, JobRow.title, JobRow.for_whom)
        wanted = wanted.where(or_(*(col(place).icontains(word, autoescape=True) for place in places)))
    with reading(engine) as session:
        connection = session.connection()
        count = connection.execute(select(func.count()).select_from(wanted.subquery())).scalar_one()
        rows = connection.execute(wanted.order_by(col(JobRow.changed_at).desc(), JobRow.id).limit(most)).all()
        return _briefs(connection, rows, among=[row[0] for row in rows]), count


def _jobs(state: JobState | None) -> Any:
    changed = type_coerce(JobRow.changed_at, String)
    jobs: Any = select(JobRow.id, JobRow.title, JobRow.for_whom, JobRow.state, changed)  # type: ignore[call-overload]
    return jobs if state is None else jobs.where(JobRow.state == state.value)


def _briefs(connection: Any, rows: Sequence[Any], *, among: list[str] | None) -> tuple[JobBrief, ...]:
    """Rows with what their plans and quotes say.

    among : ids of the jobs to look for; None for all
    """
    outcomes = {row.job_id: row.outcome for row in connection.execute(_last_outcomes(among))}
    quotes: dict[str, dict[int, QuoteBrief]] = {}
    for job_id, brief in _quotes_by_job(connection, among):
        quotes.setdefault(job_id, {})[brief.id] = brief
    return tuple(
        JobBrief(
            id=id,
            title=title,
            for_whom=for_whom,
            state=_state(JobState, stands),
            changed_at=_moment(at),
            outcome=outcomes.get(id, ""),
            quotes=tuple(brief for _, brief in sorted(quotes.get(id, {}).items())),
        )
        for id, title, for_whom, stands, at in rows
    )


def _last_outcomes(among: list[str] | None) -> Any:
    last: Any = select(func.max(PlanRow.id)).group_by(PlanRow.job_id)
    if among is not None:
        last = last.where(PlanRow.job_id.in_(among))  # type: ignore[attr-defined]
    return select(PlanRow.job_id, PlanRow.outcome).where(PlanRow.id.in_(last))  # type: ignore[call-overload, union-attr]


def _quotes_by_job(connection: Any, among: list[str] | None) -> Iterator[tuple[str, QuoteBrief]]:
    until = type_coerce(QuoteRow.valid_until, String)
    query: Any = select(PlanRow.job_id, QuoteRow.id, QuoteRow.state, until)  # type: ignore[call-overload]
    query = query.join(QuotePlanRow, QuotePlanRow.quote_id == QuoteRow.id)
    query = query.join(PlanRow, PlanRow.id == QuotePlanRow.plan_id)
    if among is not None:
        query = query.where(PlanRow.job_id.in_(among))  # type: ignore[attr-defined]
    for job_id, id, state, valid_until in connection.execute(query):
        yield job_id, QuoteBrief(id=id, state=_state(QuoteState, state), valid_until=_day(valid_until))


def _state(kind: Any, word: object) -> Any:
    return kind(word) if word in set(kind) else None


def _day(found: object) -> date | None:
    if isinstance(found, date):
        return found
    try:
        return date.fromisoformat(str(found))
    except ValueError:
        return None


def _moment(found: object) -> datetime | None:
    """SQLite keeps moments as text in UTC without saying so."""
    if isinstance(found, datetime):
        return found
    try:
        return datetime.fromisoformat(f"{found}+00:00")
    except ValueError:
        return None
