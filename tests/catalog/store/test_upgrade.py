"""Migrations: from the first version of the tables to the newest, with what was in them, on both databases."""

from contextlib import closing
from typing import Any

import pytest
from alembic.script import ScriptDirectory
from sqlalchemy import text

from catalog.store import open_store
from catalog.store_address import url_of_store
from catalog.store_engine import make_engine, writing
from catalog.store_errors import StoreOutdated, StoreTooNew, StoreUnreachable
from catalog.store_things import Pin
from catalog.store_upgrade import _config, check_tables, downgrade_store, upgrade_store
from catalog.store_version import known_versions, newest_version, version_of


def execute(place: str, *statements: str) -> None:
    engine = make_engine(url_of_store(place))
    with writing(engine) as session:
        for statement in statements:
            session.connection().execute(text(statement))


def rows(place: str, query: str) -> list[tuple[Any, ...]]:
    with make_engine(url_of_store(place)).connect() as connection:
        return [tuple(row) for row in connection.execute(text(query))]


OLD_CONTENT = '{"id":"hose-50","outer":5.0}'


def test_the_migrations_make_the_tables_the_code_expects(empty_place: str) -> None:
    upgrade_store(empty_place)
    check_tables(empty_place)


def test_a_store_of_the_first_version_keeps_what_is_in_it(empty_place: str) -> None:
    from catalog.store_columns import hash_of_text

    assert upgrade_store(empty_place, to_version="0001") == "0001"
    hashed = hash_of_text(OLD_CONTENT)
    execute(
        empty_place,
        f"INSERT INTO document VALUES ('line', 'hose-50', 1, 'Brake hose', '{hashed}', false)",
        "INSERT INTO document_revision (kind, id, revision, name, content, content_sha256, is_withdrawn, saved_at, "
        f"saved_by) VALUES ('line', 'hose-50', 1, 'Brake hose', '{OLD_CONTENT.replace(':', chr(92) + ':')}', "
        f"'{hashed}', false, '2029-05-06 07\\:08\\:09.000000', 'Mira')",
    )
    assert upgrade_store(empty_place) == newest_version()
    kept = open_store(empty_place).documents.current("line", "hose-50")
    assert (kept.pin, kept.content, kept.saved_by, kept.note) == (
        Pin(kind="line", id="hose-50", revision=1),
        {"id": "hose-50", "outer": 5.0},
        "Mira",
        "",
    )


def test_every_step_goes_forth_back_and_forth_again(empty_place: str) -> None:
    oldest_first = known_versions()[::-1]
    for version in oldest_first:
        assert upgrade_store(empty_place, to_version=version) == version
    for version in oldest_first[-2::-1]:
        assert downgrade_store(empty_place, to_version=version) == version
    assert upgrade_store(empty_place) == newest_version()
    check_tables(empty_place)


def test_an_outdated_store_is_refused_with_the_command_to_run(empty_place: str) -> None:
    upgrade_store(empty_place, to_version="0002")
    with pytest.raises(StoreOutdated, match=f"version 0002; this program needs {newest_version()}.*lineplan store"):
        open_store(empty_place)


def test_a_store_of_a_newer_program_is_refused_and_left_alone(store_place: str) -> None:
    execute(store_place, "UPDATE alembic_version SET version_num = '9999'")
    with pytest.raises(StoreTooNew, match=r"version 9999.*use the newer program"):
        open_store(store_place)
    with pytest.raises(StoreTooNew):
        upgrade_store(store_place)
    assert version_of(make_engine(url_of_store(store_place))) == "9999"


def test_a_migration_that_fails_half_way_leaves_the_old_tables(empty_place: str, monkeypatch: Any) -> None:
    upgrade_store(empty_place, to_version="0002")
    from catalog.migrations import kept_rows

    real, calls = kept_rows._forbid, []

    def fails_at_the_third(*arguments: Any, **named: Any) -> None:
        calls.append(arguments)
        if len(calls) == 3:
            raise RuntimeError("power cut")
        real(*arguments, **named)

    monkeypatch.setattr(kept_rows, "_forbid", fails_at_the_third)
    with pytest.raises(RuntimeError, match="power cut"):
        upgrade_store(empty_place)
    monkeypatch.undo()
    assert version_of(make_engine(url_of_store(empty_place))) == "0002"
    assert upgrade_store(empty_place) == newest_version()
    check_tables(empty_place)


@pytest.mark.parametrize("statement", ["UPDATE document_revision SET saved_by = 'x'", "DELETE FROM document_revision"])
def test_revisions_cannot_be_changed_by_hand(store_place: str, statement: str) -> None:
    from tests.catalog.store.test_documents import hose

    open_store(store_place).documents.save(hose(5.0), by="Mira")
    with pytest.raises(Exception, match="rows of document_revision are kept as they were saved"):
        execute(store_place, statement)


def test_impossible_rows_are_refused_by_the_database_too(store_place: str) -> None:
    with pytest.raises(Exception, match="ck_document_counts_from_one"):
        execute(store_place, "INSERT INTO document VALUES ('line', 'x', 0, 'x', 'x', false)")


def test_a_file_that_is_no_store_is_said_so(tmp_path: Any) -> None:
    path = tmp_path / "notes.sqlite"
    path.write_text("these are my notes, not a database, and they are long enough to have a header " * 20)
    with pytest.raises(StoreUnreachable, match=r"notes\.sqlite cannot be used now: file is not a database"):
        open_store(path)
    assert path.read_text().startswith("these are my notes")


def test_an_sqlite_file_of_something_else_is_left_alone(tmp_path: Any) -> None:
    import sqlite3

    path = tmp_path / "other.sqlite"
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("CREATE TABLE recipe (name TEXT)")
        raw.commit()
    with pytest.raises(StoreUnreachable, match="holds other tables"):
        open_store(path)


def test_the_versions_are_those_of_the_steps_in_their_order() -> None:
    """They are told from the names of the steps' files; Alembic reads the steps themselves."""
    steps = ScriptDirectory.from_config(_config()).walk_revisions()
    assert known_versions() == tuple(step.revision for step in steps)
