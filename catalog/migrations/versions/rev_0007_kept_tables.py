"""Tables of frames against brakes, and the answers they are made of."""

import sqlalchemy as sa
from alembic import op

from catalog.store_columns import Content, UtcMoment

revision = "0007"
down_revision = "0006"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """To the new tables; each is forgotten as a whole one day, so no trigger guards their rows."""
    op.create_table(
        "table_answer",
        sa.Column("run", sa.String(64), nullable=False),
        sa.Column("case_key", sa.String(64), nullable=False),
        sa.Column("content", sa.Text, nullable=False),
        sa.Column("content_sha256", sa.String(64), nullable=False),
        sa.Column("kept_at", UtcMoment, nullable=False),
        sa.PrimaryKeyConstraint("run", "case_key", name="pk_table_answer"),
    )
    op.create_index("ix_table_answer_kept_at", "table_answer", ["kept_at"])
    op.create_table(
        "kept_table",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("question", sa.String(64), nullable=False),
        sa.Column("note", sa.String(500), nullable=False),
        sa.Column("cases_n", sa.Integer, nullable=False),
        sa.Column("brakes_n", sa.Integer, nullable=False),
        sa.Column("counts", Content, nullable=False),
        sa.Column("content", Content, nullable=False),
        sa.Column("row_sha256", sa.String(64), nullable=False),
        sa.Column("made_at", UtcMoment, nullable=False),
        sa.Column("made_by", sa.String(120), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_kept_table"),
        sa.UniqueConstraint("question", name="uq_kept_table_question"),
    )
    op.create_table(
        "kept_table_case",
        sa.Column("table_id", sa.Integer, nullable=False),
        sa.Column("n", sa.Integer, nullable=False),
        sa.Column("case_id", sa.Text, nullable=False),
        sa.Column("frame_id", sa.Text, nullable=False),
        sa.Column("label", sa.Text, nullable=False),
        sa.Column("run", sa.String(64), nullable=False),
        sa.Column("case_key", sa.String(64), nullable=False),
        sa.Column("outcomes", sa.Text, nullable=False),
        sa.Column("content", Content, nullable=False),
        sa.Column("row_sha256", sa.String(64), nullable=False),
        sa.PrimaryKeyConstraint("table_id", "n", name="pk_kept_table_case"),
        sa.ForeignKeyConstraint(["table_id"], ["kept_table.id"], name="fk_kept_table_case_table_id"),
        sa.ForeignKeyConstraint(
            ["run", "case_key"], ["table_answer.run", "table_answer.case_key"], name="fk_kept_table_case_run"
        ),
    )


def downgrade() -> None:
    """Forget tables; they can be decided again."""
    for table in ("kept_table_case", "kept_table", "table_answer"):
        op.drop_table(table)
