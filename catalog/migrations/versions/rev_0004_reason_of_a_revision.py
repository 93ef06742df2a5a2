"""A revision says why it was saved; older ones say nothing."""

import sqlalchemy as sa
from alembic import op

from catalog.migrations.kept_rows import allow_change, forbid_change

revision = "0004"
down_revision = "0003"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the column, filled with an empty text, to every revision there is."""
    allow_change("document_revision")
    with op.batch_alter_table("document_revision") as table:
        table.add_column(sa.Column("note", sa.String(500), nullable=False, server_default=""))
    with op.batch_alter_table("document_revision") as table:
        table.alter_column("note", existing_type=sa.String(500), existing_nullable=False, server_default=None)
    forbid_change("document_revision")


def downgrade() -> None:
    """Drop the reasons."""
    allow_change("document_revision")
    with op.batch_alter_table("document_revision") as table:
        table.drop_column("note")
    forbid_change("document_revision")
