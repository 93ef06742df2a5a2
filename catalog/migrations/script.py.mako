"""${message}."""

import sqlalchemy as sa
import sqlmodel
from alembic import op

import catalog.store_columns
${imports if imports else ""}
revision = ${repr(up_revision)}
down_revision = ${repr(down_revision)}
branch_labels = ${repr(branch_labels)}
depends_on = ${repr(depends_on)}


def upgrade() -> None:
    """To the new tables."""
    ${upgrades if upgrades else "pass"}


def downgrade() -> None:
    """Back to the old tables."""
    ${downgrades if downgrades else "pass"}
