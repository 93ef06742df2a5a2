"""Quotes with their states and history."""

import sqlalchemy as sa
from alembic import op

from catalog.migrations.kept_rows import allow_change, forbid_change, forbid_change_of
from catalog.store_columns import Content, DecimalText, UtcMoment

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None

STATES = "('drafted', 'handed_over', 'agreed', 'turned_down', 'lapsed', 'called_off', 'work_done')"


def upgrade() -> None:
    """To the new tables."""
    op.create_table(
        "quote",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("for_whom", sa.String(200), nullable=False),
        sa.Column("state", sa.String(20), nullable=False),
        sa.Column("record", Content, nullable=False),
        sa.Column("record_sha256", sa.String(64), nullable=False),
        sa.Column("total", DecimalText, nullable=False),
        sa.Column("currency", sa.String(8), nullable=False),
        sa.Column("valid_until", sa.Date, nullable=False),
        sa.Column("replaces_id", sa.Integer, nullable=True),
        sa.Column("changed_at", UtcMoment, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_quote"),
        sa.ForeignKeyConstraint(["replaces_id"], ["quote.id"], name="fk_quote_replaces_id"),
        sa.CheckConstraint(f"state IN {STATES}", name="state_is_known"),
    )
    op.create_index("ix_quote_state", "quote", ["state"])
    op.create_table(
        "quote_plan",
        sa.Column("quote_id", sa.Integer, nullable=False),
        sa.Column("plan_id", sa.Integer, nullable=False),
        sa.PrimaryKeyConstraint("quote_id", "plan_id", name="pk_quote_plan"),
        sa.ForeignKeyConstraint(["quote_id"], ["quote.id"], name="fk_quote_plan_quote_id"),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name="fk_quote_plan_plan_id"),
    )
    op.create_table(
        "quote_pin",
        sa.Column("quote_id", sa.Integer, nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("document_id", sa.String(120), nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.PrimaryKeyConstraint("quote_id", "kind", "document_id", name="pk_quote_pin"),
        sa.ForeignKeyConstraint(["quote_id"], ["quote.id"], name="fk_quote_pin_quote_id"),
        sa.ForeignKeyConstraint(
            ["kind", "document_id", "revision"],
            ["document_revision.kind", "document_revision.id", "document_revision.revision"],
            name="fk_quote_pin_kind",
        ),
    )
    op.create_table(
        "quote_event",
        sa.Column("quote_id", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("state", sa.String(20), nullable=False),
        sa.Column("record_sha256", sa.String(64), nullable=False),
        sa.Column("done_at", UtcMoment, nullable=False),
        sa.Column("done_by", sa.String(120), nullable=False),
        sa.Column("note", sa.String(500), nullable=False),
        sa.PrimaryKeyConstraint("quote_id", "version", name="pk_quote_event"),
        sa.ForeignKeyConstraint(["quote_id"], ["quote.id"], name="fk_quote_event_quote_id"),
    )
    forbid_change_of(
        "quote",
        columns=("record", "record_sha256", "total", "currency", "valid_until"),
        once="old.state <> 'drafted'",
    )
    for table in ("quote_plan", "quote_event"):
        forbid_change(table)


def downgrade() -> None:
    """Back to jobs and plans."""
    for table in ("quote_event", "quote_pin", "quote_plan", "quote"):
        allow_change(table)
        op.drop_table(table)
