"""The tables of the store. Rows are born from checked values only and never leave the store's own files."""

from datetime import date, datetime
from decimal import Decimal
from typing import Any, ClassVar

from sqlalchemy import Column, ForeignKeyConstraint, Integer, MetaData, Text
from sqlmodel import Field, SQLModel

from catalog.store_columns import Content, DecimalText, UtcMoment

NAMES_OF_CONSTRAINTS = {
    "ix": "ix_%(column_0_label)s",
    "uq": "uq_%(table_name)s_%(column_0_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_name)s",
    "pk": "pk_%(table_name)s",
}


class StoreTable(SQLModel):
    """Common ground of all tables, apart from any other SQLModel tables in the process."""

    metadata = MetaData(naming_convention=NAMES_OF_CONSTRAINTS)


_document_revision = Column("revision", Integer, nullable=False)


class DocumentRow(StoreTable, table=True):
    """Where a document stands now. `revision` is the optimistic lock: an UPDATE names the one it was read at."""

    __tablename__ = "document"
    __mapper_args__: ClassVar[dict[str, Any]] = {"version_id_col": _document_revision}

    kind: str = Field(primary_key=True, max_length=40)
    id: str = Field(primary_key=True, max_length=120)
    revision: int | None = Field(default=None, sa_column=_document_revision)
    name: str = Field(max_length=200)
    content_sha256: str = Field(max_length=64)
    is_withdrawn: bool = False


class DocumentRevisionRow(StoreTable, table=True):
    """One revision of a document; never changed, never deleted (a trigger sees to it)."""

    __tablename__ = "document_revision"
    __table_args__ = (ForeignKeyConstraint(["kind", "id"], ["document.kind", "document.id"]),)

    kind: str = Field(primary_key=True, max_length=40)
    id: str = Field(primary_key=True, max_length=120)
    revision: int = Field(primary_key=True)
    name: str = Field(max_length=200)
    content: dict[str, Any] = Field(sa_type=Content)
    content_sha256: str = Field(max_length=64, index=True)
    is_withdrawn: bool = False
    saved_at: datetime = Field(sa_type=UtcMoment)
    saved_by: str = Field(max_length=120)
    note: str = Field(default="", max_length=500)


_job_version = Column("version", Integer, nullable=False)


class JobRow(StoreTable, table=True):
    """A job as it stands now."""

    __tablename__ = "job"
    __mapper_args__: ClassVar[dict[str, Any]] = {"version_id_col": _job_version}

    id: str = Field(primary_key=True, max_length=120)
    version: int | None = Field(default=None, sa_column=_job_version)
    title: str = Field(max_length=200)
    for_whom: str = Field(default="", max_length=200)
    state: str = Field(max_length=20, index=True)
    content: dict[str, Any] = Field(sa_type=Content)
    changed_at: datetime = Field(sa_type=UtcMoment)


class JobEventRow(StoreTable, table=True):
    """One thing that happened to a job, with the job as it was after it; never changed."""

    __tablename__ = "job_event"

    job_id: str = Field(primary_key=True, foreign_key="job.id", max_length=120)
    version: int = Field(primary_key=True)
    state: str = Field(max_length=20)
    content: dict[str, Any] = Field(sa_type=Content)
    done_at: datetime = Field(sa_type=UtcMoment)
    done_by: str = Field(max_length=120)
    note: str = Field(default="", max_length=500)


class PlanRow(StoreTable, table=True):
    """A plan as it was found: its record, and the exact job it answers; never changed."""

    __tablename__ = "plan"
    __table_args__ = (ForeignKeyConstraint(["job_id", "job_version"], ["job_event.job_id", "job_event.version"]),)

    id: int | None = Field(default=None, primary_key=True)
    job_id: str = Field(max_length=120, index=True)
    job_version: int
    outcome: str = Field(max_length=20)
    record: dict[str, Any] = Field(sa_type=Content)
    record_sha256: str = Field(max_length=64)
    inputs_sha256: str = Field(max_length=64, index=True)
    made_at: datetime = Field(sa_type=UtcMoment)
    made_by: str = Field(max_length=120)


class PlanPinRow(StoreTable, table=True):
    """An exact revision that a plan was made from."""

    __tablename__ = "plan_pin"
    __table_args__ = (
        ForeignKeyConstraint(
            ["kind", "document_id", "revision"],
            ["document_revision.kind", "document_revision.id", "document_revision.revision"],
        ),
    )

    plan_id: int = Field(primary_key=True, foreign_key="plan.id")
    kind: str = Field(primary_key=True, max_length=40)
    document_id: str = Field(primary_key=True, max_length=120)
    revision: int


class HandOverRow(StoreTable, table=True):
    """A hand-over record as it was saved once; never changed."""

    __tablename__ = "hand_over"

    job_id: str = Field(primary_key=True, foreign_key="job.id", max_length=120)
    version: int = Field(primary_key=True)
    content: dict[str, Any] = Field(sa_type=Content)
    content_sha256: str = Field(max_length=64)
    saved_at: datetime = Field(sa_type=UtcMoment)
    saved_by: str = Field(max_length=120)


_quote_version = Column("version", Integer, nullable=False)


class QuoteRow(StoreTable, table=True):
    """A quote with everything it prints; its record is frozen once it has been handed over (a trigger sees to it)."""

    __tablename__ = "quote"
    __mapper_args__: ClassVar[dict[str, Any]] = {"version_id_col": _quote_version}

    id: int | None = Field(default=None, primary_key=True)
    version: int | None = Field(default=None, sa_column=_quote_version)
    for_whom: str = Field(default="", max_length=200)
    state: str = Field(max_length=20, index=True)
    record: dict[str, Any] = Field(sa_type=Content)
    record_sha256: str = Field(max_length=64)
    total: Decimal = Field(sa_type=DecimalText)
    currency: str = Field(max_length=8)
    valid_until: date
    replaces_id: int | None = Field(default=None, foreign_key="quote.id")
    changed_at: datetime = Field(sa_type=UtcMoment)


class QuotePlanRow(StoreTable, table=True):
    """A plan that a quote is made from; through its pins the quote knows the exact revisions."""

    __tablename__ = "quote_plan"

    quote_id: int = Field(primary_key=True, foreign_key="quote.id")
    plan_id: int = Field(primary_key=True, foreign_key="plan.id")


class QuotePinRow(StoreTable, table=True):
    """An exact revision that a quote's prices were read from."""

    __tablename__ = "quote_pin"
    __table_args__ = (
        ForeignKeyConstraint(
            ["kind", "document_id", "revision"],
            ["document_revision.kind", "document_revision.id", "document_revision.revision"],
        ),
    )

    quote_id: int = Field(primary_key=True, foreign_key="quote.id")
    kind: str = Field(primary_key=True, max_length=40)
    document_id: str = Field(primary_key=True, max_length=120)
    revision: int


class QuoteEventRow(StoreTable, table=True):
    """One step in the life of a quote; never changed."""

    __tablename__ = "quote_event"

    quote_id: int = Field(primary_key=True, foreign_key="quote.id")
    version: int = Field(primary_key=True)
    state: str = Field(max_length=20)
    record_sha256: str = Field(max_length=64)
    done_at: datetime = Field(sa_type=UtcMoment)
    done_by: str = Field(max_length=120)
    note: str = Field(default="", max_length=500)


_draft_version = Column("version", Integer, nullable=False)


class DraftRow(StoreTable, table=True):
    """A form that is being filled in, and at which of its steps it stands."""

    __tablename__ = "draft"
    __mapper_args__: ClassVar[dict[str, Any]] = {"version_id_col": _draft_version}

    id: str = Field(primary_key=True, max_length=120)
    version: int | None = Field(default=None, sa_column=_draft_version)
    form: str = Field(max_length=40)
    title: str = Field(default="", max_length=200)
    at: int
    changed_at: datetime = Field(sa_type=UtcMoment, index=True)


class DraftStepRow(StoreTable, table=True):
    """What a form showed at one step."""

    __tablename__ = "draft_step"

    draft_id: str = Field(primary_key=True, foreign_key="draft.id", max_length=120)
    n: int = Field(primary_key=True)
    content: dict[str, Any] = Field(sa_type=Content)


_bench_version = Column("version", Integer, nullable=False)


class BenchNoteRow(StoreTable, table=True):
    """What is ticked and timed of a plan's steps."""

    __tablename__ = "bench_note"
    __mapper_args__: ClassVar[dict[str, Any]] = {"version_id_col": _bench_version}

    plan_id: int = Field(primary_key=True, foreign_key="plan.id")
    version: int | None = Field(default=None, sa_column=_bench_version)
    content: dict[str, Any] = Field(sa_type=Content)
    changed_at: datetime = Field(sa_type=UtcMoment)


class TableAnswerRow(StoreTable, table=True):
    """All answers about one case, whichever tables they stand in: a run that was killed finds them again."""

    __tablename__ = "table_answer"

    run: str = Field(primary_key=True, max_length=64)
    case_key: str = Field(primary_key=True, max_length=64)
    content: str = Field(sa_type=Text)
    content_sha256: str = Field(max_length=64)
    kept_at: datetime = Field(sa_type=UtcMoment, index=True)


class KeptTableRow(StoreTable, table=True):
    """A table of frames against brakes that was decided to its end; never changed, only forgotten as a whole."""

    __tablename__ = "kept_table"

    id: int | None = Field(default=None, primary_key=True)
    question: str = Field(max_length=64, unique=True)
    note: str = Field(default="", max_length=500)
    cases_n: int
    brakes_n: int
    counts: dict[str, Any] = Field(sa_type=Content)
    content: dict[str, Any] = Field(sa_type=Content)
    row_sha256: str = Field(max_length=64)
    made_at: datetime = Field(sa_type=UtcMoment)
    made_by: str = Field(max_length=120)


class KeptTableCaseRow(StoreTable, table=True):
    """A case of a table: a sign for the outcome of each brake, and where its answers lie."""

    __tablename__ = "kept_table_case"
    __table_args__ = (ForeignKeyConstraint(["run", "case_key"], ["table_answer.run", "table_answer.case_key"]),)

    table_id: int = Field(primary_key=True, foreign_key="kept_table.id")
    n: int = Field(primary_key=True)
    case_id: str = Field(sa_type=Text)
    frame_id: str = Field(sa_type=Text)
    label: str = Field(sa_type=Text)
    run: str = Field(max_length=64)
    case_key: str = Field(max_length=64)
    outcomes: str = Field(sa_type=Text)
    content: dict[str, Any] = Field(sa_type=Content)
    row_sha256: str = Field(max_length=64)
