"""The catalog: documents and their revisions."""

import sqlalchemy as sa
from alembic import op

from catalog.migrations.kept_rows import allow_change, forbid_change
from catalog.store_columns import Content, UtcMoment

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    """To the new tables."""
    op.create_table(
        "document",
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("id", sa.String(120), nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("content_sha256", sa.String(64), nullable=False),
        sa.Column("is_withdrawn", sa.Boolean, nullable=False),
        sa.PrimaryKeyConstraint("kind", "id", name="pk_document"),
        sa.CheckConstraint("revision >= 1", name="counts_from_one"),
        sa.CheckConstraint("kind <> '' AND id <> ''", name="is_named"),
    )
    op.create_table(
        "document_revision",
        sa.Column("kind", sa.String(40), nullable=False),
        sa.Column("id", sa.String(120), nullable=False),
        sa.Column("revision", sa.Integer, nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("content", Content, nullable=False),
        sa.Column("content_sha256", sa.String(64), nullable=False),
        sa.Column("is_withdrawn", sa.Boolean, nullable=False),
        sa.Column("saved_at", UtcMoment, nullable=False),
        sa.Column("saved_by", sa.String(120), nullable=False),
        sa.PrimaryKeyConstraint("kind", "id", "revision", name="pk_document_revision"),
        sa.ForeignKeyConstraint(["kind", "id"], ["document.kind", "document.id"], name="fk_document_revision_kind"),
        sa.CheckConstraint("revision >= 1", name="counts_from_one"),
        sa.CheckConstraint("length(content_sha256) = 64", name="is_hashed"),
    )
    op.create_index("ix_document_revision_content_sha256", "document_revision", ["content_sha256"])
    forbid_change("document_revision")


def downgrade() -> None:
    """Back to nothing."""
    allow_change("document_revision")
    op.drop_table("document_revision")
    op.drop_table("document")
