"""What is ticked and timed at the bench."""

import sqlalchemy as sa
from alembic import op

from catalog.store_columns import Content, UtcMoment

revision = "0006"
down_revision = "0005"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """To the new table."""
    op.create_table(
        "bench_note",
        sa.Column("plan_id", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("content", Content, nullable=False),
        sa.Column("changed_at", UtcMoment, nullable=False),
        sa.PrimaryKeyConstraint("plan_id", name="pk_bench_note"),
        sa.ForeignKeyConstraint(["plan_id"], ["plan.id"], name="fk_bench_note_plan_id"),
    )


def downgrade() -> None:
    """Forget the notes."""
    op.drop_table("bench_note")
