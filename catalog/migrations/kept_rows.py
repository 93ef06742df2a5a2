"""Triggers that keep rows as they were written: a second net, for whoever opens the database by hand."""

from alembic import op


def forbid_change(table: str) -> None:
    """Refuse every UPDATE and DELETE on a table."""
    _forbid(table, action="UPDATE", when=None)
    _forbid(table, action="DELETE", when=None)


def forbid_change_of(table: str, *, columns: tuple[str, ...], once: str) -> None:
    """Refuse a new value in some columns once a condition on the old row (columns as `old.name`) holds."""
    differs = " OR ".join(f"new.{column} <> old.{column}" for column in columns)
    _forbid(table, action="UPDATE", when=f"({once}) AND ({differs})")
    _forbid(table, action="DELETE", when=None)


def allow_change(table: str) -> None:
    """Take the triggers of a table away, for a migration that has to rewrite it."""
    for action in ("update", "delete"):
        name = f"keep_{table}_{action}"
        if op.get_context().dialect.name == "sqlite":
            op.execute(f"DROP TRIGGER IF EXISTS {name}")
        else:
            op.execute(f"DROP TRIGGER IF EXISTS {name} ON {table}")
            op.execute(f"DROP FUNCTION IF EXISTS {name}()")


def _forbid(table: str, *, action: str, when: str | None) -> None:
    name = f"keep_{table}_{action.lower()}"
    said = f"rows of {table} are kept as they were saved"
    condition = f"WHEN ({when})" if when else ""
    if op.get_context().dialect.name == "sqlite":
        op.execute(
            f"CREATE TRIGGER {name} BEFORE {action} ON {table} {condition} BEGIN SELECT RAISE(ABORT, '{said}'); END"
        )
        return
    op.execute(
        f"CREATE FUNCTION {name}() RETURNS trigger LANGUAGE plpgsql AS $$ BEGIN RAISE EXCEPTION '{said}'; END $$"
    )
    op.execute(f"CREATE TRIGGER {name} BEFORE {action} ON {table} FOR EACH ROW {condition} EXECUTE FUNCTION {name}()")
