"""Jobs with their history, and plans pinned to the exact revisions they were made from."""

import sqlalchemy as sa
from alembic import op

from catalog.migrations.kept_rows import allow_change, forbid_change
from catalog.store_columns import Content, UtcMoment

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """To the new tables."""
    op.create_table(
        "job",
        sa.Column("id", sa.String(120), nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("title", sa.String(200), nullable=False),
        sa.Column("for_whom", sa.String(200), nullable=False),
        sa.Column("state", sa.String(20), nullable=False),
        sa.Column("content", Content, nullable=False),
        sa.Column("changed_at", UtcMoment, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_job"),
        sa.CheckConstraint("state IN ('waiting', 'on_the_bench', 'finished', 'called_off')", name="state_is_known"),
    )
    op.create_index("ix_job_state", "job", ["state"])
    op.create_table(
        "job_event",
        sa.Column("job_id", sa.String(120), nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("state", sa.String(20), nullable=False),
        sa.Column("content", Content, nullable=False),
        sa.Column("done_at", UtcMoment, nullable=False),
        sa.Column("done_by", sa.String(120), nullable=False),
        sa.Column("note", sa.String(500), nullable=False),
        sa.PrimaryKeyConstraint("job_id", "version", name="pk_job_event"),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"], name="fk_job_event_job_id"),
    )
    op.create_table(
        "plan",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("job_id", sa.String(120), nullable=False),
        sa.Column("job_version", sa.Integer, nullable=False),
        sa.Column("outcome", sa.String(20), nullable=False),
        sa.Column("record", Content, nullable=False),
        sa.Column("record_sha256", sa.String(64), nullable=False),
        sa.Column("inputs_sha256", sa.String(64), nullable=False),
        sa.Column("made_at", UtcMoment, nullable=False),
        sa.Column("made_by", sa.String(120), nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_plan"),
        sa.ForeignKeyConstraint(
            ["job_id", "job_version"], ["job_event.job_id", "job_event.version"], name="fk_plan_job_id"
        ),
        sa.CheckConstraint("outcome IN ('fits', 'tight', 'unknown', 'no_fit')", name="outcome_is_known"),
    )
    op.create_index("ix_plan_job_id", "plan", ["job_id"])
    op.create_index("ix_plan_inputs_sha256", "plan", ["inputs_sha256"])
    op.create_table(
        "plan_pin",
        sa.Column("plan_id", sa.Integer, nullable=False),
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("document_id", sa.String(120), nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.PrimaryKeyConstraint("plan_id", "kind", "document_id", name="pk_plan_pin"),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name="fk_plan_pin_plan_id"),
        sa.ForeignKeyConstraint(
            ["kind", "document_id", "revision"],
            ["document_revision.kind", "document_revision.id", "document_revision.revision"],
            name="fk_plan_pin_kind",
        ),
    )
    for table in ("job_event", "plan", "plan_pin"):
        forbid_change(table)


def downgrade() -> None:
    """Back to the catalog alone."""
    for table in ("plan_pin", "plan", "job_event"):
        allow_change(table)
        op.drop_table(table)
    op.drop_table("job")
