"""Hand-over records of jobs."""

import sqlalchemy as sa
from alembic import op

from catalog.migrations.kept_rows import allow_change, forbid_change
from catalog.store_columns import Content, UtcMoment

revision = "0008"
down_revision = "0007"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """To the new table."""
    op.create_table(
        "hand_over",
        sa.Column("job_id", sa.String(120), nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("content", Content, nullable=False),
        sa.Column("content_sha256", sa.String(64), nullable=False),
        sa.Column("saved_at", UtcMoment, nullable=False),
        sa.Column("saved_by", sa.String(120), nullable=False),
        sa.PrimaryKeyConstraint("job_id", "version", name="pk_hand_over"),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"], name="fk_hand_over_job_id"),
    )
    forbid_change("hand_over")


def downgrade() -> None:
    """Forget the records."""
    allow_change("hand_over")
    op.drop_table("hand_over")
