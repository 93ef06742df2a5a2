"""Jobs in the store, each with everything that ever happened to it."""

from collections.abc import Callable, Mapping
from datetime import datetime
from difflib import get_close_matches
from typing import Any

from sqlalchemy import Engine, Text, cast
from sqlmodel import Session, col, select

from catalog.store_differences import differences, sentences
from catalog.store_engine import reading, writing
from catalog.store_errors import EditConflict, NotInStore, StoreDamaged, StoreRefused, WrittenMeanwhile
from catalog.store_rows import JobEventRow, JobRow
from catalog.store_texts import checked_id, checked_text
from catalog.store_things import Happening, JobState, StoredJob

NEXT_STATES: Mapping[JobState, tuple[JobState, ...]] = {
    JobState.WAITING: (JobState.ON_THE_BENCH, JobState.CALLED_OFF),
    JobState.ON_THE_BENCH: (JobState.WAITING, JobState.FINISHED, JobState.CALLED_OFF),
    JobState.FINISHED: (),
    JobState.CALLED_OFF: (JobState.WAITING,),
}
"""Where a job may go from where it stands."""


def next_job_states(state: JobState) -> tuple[JobState, ...]:
    """Where a job may go from this state."""
    return NEXT_STATES[state]


class StoredJobs:
    """Reads and saves jobs."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime]) -> None:
        self._engine, self._clock = engine, clock

    def save(
        self,
        *,
        id: str,
        title: str,
        content: Mapping[str, Any],
        by: str,
        for_whom: str = "",
        based_on: int | None = None,
        note: str = "",
    ) -> StoredJob:
        """Save a job's words and content; `based_on` is the version it was opened at, None for a new one.

        The same again, as the store keeps it, makes no new version.
        """
        facts = {
            "id": checked_id("job id", id, longest=120),
            "title": checked_text("title", title, longest=200),
            "for_whom": checked_text("for whom", for_whom, longest=200, may_be_empty=True),
            "content": dict(content),
        }
        return self._write(id, facts, based_on=based_on, by=by, note=note)

    def move(self, id: str, to: JobState, *, based_on: int, by: str, note: str = "") -> StoredJob:
        """Take a job to its next state."""
        now = self.get(id)
        if now.version == based_on and to not in NEXT_STATES[now.state]:
            allowed = " or ".join(NEXT_STATES[now.state]) or "nowhere"
            raise StoreRefused(thing=f"job {id}", given=f"{now.state} -> {to}", rule=f"from here it goes to {allowed}")
        return self._write(id, {"id": id, "state": to}, based_on=based_on, by=by, note=note)

    def get(self, id: str) -> StoredJob:
        """A job as it stands.

        Raises StoreDamaged where it is not as it was saved.
        """
        with reading(self._engine) as session:
            try:
                row = session.get(JobRow, id)
                if row is not None:
                    return _job(row)
            except (ValueError, StoreDamaged) as problem:
                raise StoreDamaged(thing=f"job {id}", why=getattr(problem, "why", str(problem))) from problem
            raise NotInStore(thing=f"job {id}", near=get_close_matches(id, session.exec(select(JobRow.id)).all()))

    def list(self, state: JobState | None = None) -> tuple[StoredJob, ...]:
        """All jobs (in one state), by id."""
        query = select(JobRow) if state is None else select(JobRow).where(JobRow.state == state.value)
        with reading(self._engine) as session:
            return tuple(sorted((_job(row) for row in session.exec(query).all()), key=lambda job: job.id))

    def naming(self, text: str, *, most: int) -> tuple[tuple[str, str], ...]:
        """Id and title of the jobs in which a text stands as a value, those changed last first."""
        wanted = cast(col(JobRow.content), Text).contains(f'"{text}"', autoescape=True)
        query = select(JobRow.id, JobRow.title).where(wanted).order_by(col(JobRow.changed_at).desc()).limit(most)
        with reading(self._engine) as session:
            return tuple((id, title) for id, title in session.exec(query).all())

    def history(self, id: str) -> tuple[Happening, ...]:
        """Everything that happened to a job, oldest first."""
        with reading(self._engine) as session:
            query = select(JobEventRow).where(JobEventRow.job_id == id).order_by(col(JobEventRow.version))
            return tuple(
                Happening(version=row.version, state=row.state, done_at=row.done_at, done_by=row.done_by, note=row.note)
                for row in session.exec(query).all()
            )

    def content_at(self, id: str, version: int) -> dict[str, Any]:
        """What a job asked at one version."""
        with reading(self._engine) as session:
            row = session.get(JobEventRow, (id, version))
            if row is None:
                raise NotInStore(thing=f"job {id}, version {version}")
            return row.content

    def _write(self, id: str, facts: dict[str, Any], *, based_on: int | None, by: str, note: str) -> StoredJob:
        by, note = (
            checked_text("who saved", by, longest=120),
            checked_text("note", note, longest=500, may_be_empty=True),
        )
        at = self._clock()
        try:
            with writing(self._engine) as session:
                if conflict := _conflict(session, id, facts, based_on=based_on):
                    raise conflict
                row = session.get(JobRow, id)
                if row is not None and all(getattr(row, name) == value for name, value in facts.items()):
                    return _job(row)
                if row is None:
                    row = JobRow.model_validate({"state": JobState.WAITING.value, **facts, "changed_at": at})
                else:
                    row.sqlmodel_update({**facts, "changed_at": at})
                session.add(row)
                session.flush()
                event = {"job_id": id, "version": row.version, "state": row.state, "content": row.content}
                session.add(JobEventRow.model_validate({**event, "done_at": at, "done_by": by, "note": note}))
        except WrittenMeanwhile as problem:
            with reading(self._engine) as session:
                if conflict := _conflict(session, id, facts, based_on=based_on):
                    raise conflict from problem
            raise
        return _job(row)


def _conflict(session: Session, id: str, facts: Mapping[str, Any], *, based_on: int | None) -> EditConflict | None:
    row = session.get(JobRow, id)
    found = None if row is None else row.version
    if found == based_on:
        return None
    if row is None or found is None:
        return EditConflict(thing=f"job {id}", opened_revision=based_on, current_revision=None)
    last = session.get(JobEventRow, (id, found))
    opened = session.get(JobEventRow, (id, based_on or 0))
    they = {} if opened is None else differences(_told(opened), _told(row))
    you = {} if opened is None else differences(_told(opened), {**_told(opened), **_told_facts(facts)})
    return EditConflict(
        thing=f"job {id}",
        opened_revision=based_on,
        current_revision=found,
        saved_by=last.done_by if last else "",
        saved_at=f"{row.changed_at:%Y-%m-%d %H:%M} UTC",
        they_changed=sentences(they),
        you_changed=sentences(you),
        both_changed=tuple(place for place in you if place in they),
    )


def _told(row: JobRow | JobEventRow) -> dict[str, Any]:
    return {"state": row.state, "content": row.content}


def _told_facts(facts: Mapping[str, Any]) -> dict[str, Any]:
    return {name: facts[name] for name in ("state", "content") if name in facts}


def _job(row: JobRow) -> StoredJob:
    return StoredJob(
        id=row.id,
        title=row.title,
        for_whom=row.for_whom,
        state=JobState(row.state),
        content=row.content,
        version=row.version or 0,
        changed_at=row.changed_at,
    )
