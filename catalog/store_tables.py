"""Tables of frames against brakes in the store: kept whole once they are decided to their end, and told again.

A table has a line for each case: a sign for the outcome of each brake, in the order of its brakes, by which pairs are
picked without reading an answer, and the key of the case's answers (`catalog.store_answers`).
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import asdict, dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import Engine, or_
from sqlmodel import Session, col, delete, select

from catalog.store_answers import AT_ONCE, KEPT_FOR, StoredAnswers, forget_old_answers, sound_text
from catalog.store_columns import hash_of_text, text_of_content
from catalog.store_engine import reading, writing
from catalog.store_errors import NotInStore, StoreDamaged, WrittenMeanwhile
from catalog.store_rows import KeptTableCaseRow, KeptTableRow, TableAnswerRow
from catalog.store_texts import checked_number, checked_text

OUTCOME_SIGNS = {"fits": "f", "tight": "t", "unknown": "u", "no_fit": "n"}
"""What stands for an outcome in a case's line."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TableBrief:
    """A table in short.

    id : its number
    note : why it was made; may be empty
    cases_n, brakes_n : how many there are
    counts : pairs by outcome
    """

    id: int
    note: str
    cases_n: int
    brakes_n: int
    counts: dict[str, int]
    made_at: datetime
    made_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class TableLine:
    """A case of a table, without its answers.

    n : its place, from 0
    label : what people call it
    outcomes : a sign for each brake (`OUTCOME_SIGNS`)
    run, case_key : where its answers lie
    content : what else is told of it, as plain values
    """

    n: int
    case_id: str
    frame_id: str
    label: str
    outcomes: str
    run: str
    case_key: str
    content: dict[str, Any]


class StoredTables:
    """Reads and keeps tables."""

    def __init__(self, engine: Engine, clock: Callable[[], datetime]) -> None:
        self._engine, self._clock = engine, clock
        self.answers = StoredAnswers(engine, clock)

    def save(
        self,
        *,
        question: str,
        brakes_n: int,
        counts: Mapping[str, int],
        content: Mapping[str, Any],
        lines: Sequence[TableLine],
        by: str,
        note: str = "",
    ) -> tuple[TableBrief, bool]:
        """Keep a whole table, or nothing of it; says too whether it is new, for the same one is not kept twice.

        question : a hash of all that was asked
        """
        facts = {
            "question": question,
            "note": checked_text("note", note, longest=500, may_be_empty=True),
            "cases_n": len(lines),
            "brakes_n": brakes_n,
            "counts": dict(counts),
            "content": dict(content),
            "made_by": checked_text("who made it", by, longest=120),
        }
        facts |= {"row_sha256": hash_of_table(facts), "made_at": self._clock()}
        try:
            with writing(self._engine) as session:
                if (before := _asked_before(session, question)) is not None:
                    return before, False
                row = KeptTableRow.model_validate(facts)
                session.add(row)
                session.flush()
                session.add_all(_line_row(row.id or 0, line) for line in lines)
                session.flush()
                forget_old_answers(session, before=self._clock() - KEPT_FOR)
                return _brief(row), True
        except WrittenMeanwhile:
            with reading(self._engine) as session:
                if (before := _asked_before(session, question)) is not None:
                    return before, False
            raise

    def list(self) -> tuple[TableBrief, ...]:
        """Every table in short, newest first."""
        with reading(self._engine) as session:
            rows = session.exec(_briefs().order_by(col(KeptTableRow.id).desc())).all()
            return tuple(_brief(row) for row in rows)

    def get(self, id: int) -> tuple[TableBrief, dict[str, Any]]:
        """A table in short, and what else is told of it.

        Raises StoreDamaged where it is not as it was saved.
        """
        with reading(self._engine) as session:
            row = session.get(KeptTableRow, checked_number("table", id))
            if row is None:
                raise NotInStore(thing=f"table {id}")
            if hash_of_table(row.model_dump()) != row.row_sha256:
                raise StoreDamaged(thing=f"table {id}", why="its content does not match its hash")
            return _brief(row), row.content

    def lines(self, id: int, *, words: str = "") -> tuple[TableLine, ...]:
        """The cases of a table in their order, or those in whose label or ids all the words stand.

        Raises StoreDamaged where one is not as it was saved.
        """
        wanted = select(KeptTableCaseRow).where(KeptTableCaseRow.table_id == checked_number("table", id))
        for word in words.split():
            places = (KeptTableCaseRow.label, KeptTableCaseRow.case_id, KeptTableCaseRow.frame_id)
            wanted = wanted.where(or_(*(col(place).icontains(word, autoescape=True) for place in places)))
        with reading(self._engine) as session:
            return tuple(map(_line, session.exec(wanted.order_by(col(KeptTableCaseRow.n))).all()))

    def answers_of(self, lines: Sequence[TableLine]) -> Iterator[str]:
        """The answers of some cases, in their order.

        Raises StoreDamaged where one is not as it was written.
        """
        for start in range(0, len(lines), AT_ONCE):
            some = lines[start : start + AT_ONCE]
            with reading(self._engine) as session:
                wanted = select(TableAnswerRow).where(
                    col(TableAnswerRow.run).in_({line.run for line in some}),
                    col(TableAnswerRow.case_key).in_({line.case_key for line in some}),
                )
                found = {(row.run, row.case_key): sound_text(row) for row in session.exec(wanted).all()}
            for line in some:
                if (line.run, line.case_key) not in found:
                    raise StoreDamaged(thing=f"the answers about {line.case_id}", why="they are not there")
                yield found[line.run, line.case_key]

    def forget(self, id: int) -> None:
        """Put a table away for good; its answers stay for a while, in case it is asked again."""
        with writing(self._engine) as session:
            if session.get(KeptTableRow, checked_number("table", id)) is None:
                raise NotInStore(thing=f"table {id}")
            session.exec(delete(KeptTableCaseRow).where(col(KeptTableCaseRow.table_id) == id))
            session.exec(delete(KeptTableRow).where(col(KeptTableRow.id) == id))


_TOLD_OF_TABLE = ("question", "note", "cases_n", "brakes_n", "counts", "content", "made_by")
_TOLD_OF_LINE = ("n", "case_id", "frame_id", "label", "outcomes", "run", "case_key", "content")


def hash_of_table(facts: Mapping[str, Any]) -> str:
    """SHA-256 of all that is told of a table as a whole, but for the day."""
    return hash_of_text(text_of_content({name: facts[name] for name in _TOLD_OF_TABLE}))


def hash_of_line(facts: Mapping[str, Any]) -> str:
    """SHA-256 of all that a line says."""
    return hash_of_text(text_of_content({name: facts[name] for name in _TOLD_OF_LINE}))


def _asked_before(session: Session, question: str) -> TableBrief | None:
    row = session.exec(_briefs().where(KeptTableRow.question == question)).first()
    return None if row is None else _brief(row)


def _briefs() -> Any:
    """Without what is long."""
    table = KeptTableRow
    return select(  # type: ignore[call-overload]
        table.id, table.note, table.cases_n, table.brakes_n, table.counts, table.made_at, table.made_by
    )


def _brief(row: Any) -> TableBrief:
    return TableBrief(
        id=row.id or 0,
        note=row.note,
        cases_n=row.cases_n,
        brakes_n=row.brakes_n,
        counts=row.counts,
        made_at=row.made_at,
        made_by=row.made_by,
    )


def _line_row(table_id: int, line: TableLine) -> KeptTableCaseRow:
    facts = asdict(line)
    return KeptTableCaseRow.model_validate({**facts, "table_id": table_id, "row_sha256": hash_of_line(facts)})


def _line(row: KeptTableCaseRow) -> TableLine:
    facts = row.model_dump(include=set(_TOLD_OF_LINE))
    if hash_of_line(facts) != row.row_sha256:
        raise StoreDamaged(thing=f"table {row.table_id}, case {row.case_id}", why="its line does not match its hash")
    return TableLine(**facts)
