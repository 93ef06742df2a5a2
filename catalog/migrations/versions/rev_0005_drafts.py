"""Forms that are being filled in, step by step."""

import sqlalchemy as sa
from alembic import op

from catalog.store_columns import Content, UtcMoment

revision = "0005"
down_revision = "0004"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """To the new tables; none of their rows is for ever, so no trigger guards them."""
    op.create_table(
        "draft",
        sa.Column("id", sa.String(120), nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("form", sa.String(40), nullable=False),
        sa.Column("title", sa.String(200), nullable=False),
        sa.Column("at", sa.Integer, nullable=False),
        sa.Column("changed_at", UtcMoment, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_draft"),
    )
    op.create_index("ix_draft_changed_at", "draft", ["changed_at"])
    op.create_table(
        "draft_step",
        sa.Column("draft_id", sa.String(120), nullable=False),
        sa.Column("n", sa.Integer, nullable=False),
        sa.Column("content", Content, nullable=False),
        sa.PrimaryKeyConstraint("draft_id", "n", name="pk_draft_step"),
        sa.ForeignKeyConstraint(["draft_id"], ["draft.id"], name="fk_draft_step_draft_id"),
    )


def downgrade() -> None:
    """Forget drafts."""
    for table in ("draft_step", "draft"):
        op.drop_table(table)
