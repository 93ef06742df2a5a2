"""Answers about cases in the store as they come: a run that was killed finds them again, and so does any later one.

An answer is kept once for the run it belongs to (program, workshop and brakes) and what its case says, whichever tables
it stands in.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import datetime, timedelta

from sqlalchemy import Engine, exists
from sqlmodel import Session, col, delete, select

from catalog.store_columns import hash_of_text
from catalog.store_engine import reading, writing
from catalog.store_errors import NotInStore, StoreDamaged, WrittenMeanwhile
from catalog.store_rows import KeptTableCaseRow, TableAnswerRow

KEPT_FOR = timedelta(days=30)
"""How long answers wait for the table that they were to stand in."""

AT_ONCE = 200
"""Answers asked for at once; databases do not take any number of them."""

MOST_TRIES = 5


class StoredAnswers:
    """Reads and keeps answers."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime]) -> None:
        self._engine, self._clock = engine, clock

    def known(self, run: str, keys: Sequence[str]) -> frozenset[str]:
        """Which of these are kept, and as they were written."""
        found = set()
        with reading(self._engine) as session:
            for some in in_batches(list(dict.fromkeys(keys))):
                found |= {row.case_key for row in _rows(session, run, some) if is_sound(row)}
        return frozenset(found)

    def add(self, run: str, texts: Mapping[str, str]) -> None:
        """Keep some answers, all or none; what another run has kept meanwhile, or was damaged, is written over."""
        for tries_left in reversed(range(MOST_TRIES)):
            try:
                with writing(self._engine) as session:
                    self._add(session, run, texts)
                return
            except WrittenMeanwhile:  # another run kept the same answer in this moment: next time it is seen
                if not tries_left:
                    raise

    def _add(self, session: Session, run: str, texts: Mapping[str, str]) -> None:
        for key, text in texts.items():
            facts = {"content": text, "content_sha256": hash_of_text(text), "kept_at": self._clock()}
            row = session.get(TableAnswerRow, (run, key))
            if row is None:
                row = TableAnswerRow.model_validate({"run": run, "case_key": key, **facts})
            else:
                row.sqlmodel_update(facts)
            session.add(row)
        session.flush()

    def text(self, run: str, key: str) -> str:
        """One answer.

        Raises StoreDamaged where it is not as it was written.
        """
        with reading(self._engine) as session:
            row = session.get(TableAnswerRow, (run, key))
            if row is None:
                raise NotInStore(thing=f"answer {key[:12]} of a table")
            return sound_text(row)


def in_batches(keys: Sequence[str]) -> Iterator[Sequence[str]]:
    """Keys, so many at once as a database takes."""
    for start in range(0, len(keys), AT_ONCE):
        yield keys[start : start + AT_ONCE]


def _rows(session: Session, run: str, keys: Sequence[str]) -> Sequence[TableAnswerRow]:
    wanted = select(TableAnswerRow).where(TableAnswerRow.run == run, col(TableAnswerRow.case_key).in_(keys))
    return session.exec(wanted).all()


def is_sound(row: TableAnswerRow) -> bool:
    """Whether an answer is as it was written."""
    return hash_of_text(row.content) == row.content_sha256


def sound_text(row: TableAnswerRow) -> str:
    """What an answer says.

    Raises StoreDamaged where it is not as it was written.
    """
    if not is_sound(row):
        raise StoreDamaged(thing=f"answer {row.case_key[:12]} of a table", why="its content does not match its hash")
    return row.content


def forget_old_answers(session: Session, *, before: datetime) -> None:
    """Take away what stands in no table and was kept before that moment."""
    stands = exists().where(
        col(KeptTableCaseRow.run) == TableAnswerRow.run, col(KeptTableCaseRow.case_key) == TableAnswerRow.case_key
    )
    session.exec(delete(TableAnswerRow).where(col(TableAnswerRow.kept_at) < before, ~stands))
