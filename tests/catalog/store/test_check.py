"""Damage is found and named, one by one, and does not hide what is sound; long lists are told at once."""

import sqlite3
import time
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest
from sqlalchemy import text

from catalog.store import Store
from catalog.store_address import url_of_store
from catalog.store_engine import make_engine, writing
from catalog.store_errors import StoreDamaged
from catalog.store_things import JobState, QuoteState
from tests.catalog.store.test_quotes import draft, handed_over
from tests.ui.shop_samples import flat, lineplan

DAY = date(2031, 3, 14)
PIN_ROW = "('line', 'hose-50', 1)"


def spoil(place: str, statement: str) -> None:
    """Change a row behind the program's back; the database's own rules are taken away first."""
    url = url_of_store(place)
    if url.get_backend_name() == "sqlite":
        with closing(sqlite3.connect(str(url.database))) as connection, connection:
            for (name,) in connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'").fetchall():
                connection.execute(f"DROP TRIGGER {name}")
            connection.execute("PRAGMA ignore_check_constraints = ON")
            connection.execute(statement.replace("\\:", ":"))
        return
    with writing(make_engine(url)) as session:
        server = session.connection()
        server.execute(text("SET session_replication_role = replica"))
        if "state =" in statement:
            server.execute(text("ALTER TABLE quote DROP CONSTRAINT IF EXISTS ck_quote_state_is_known"))
        server.execute(text(statement))


def test_a_sound_store_is_told_so(store: Store) -> None:
    handed_over(store)
    found = store.check()
    assert found.damages == ()
    of_tables = {"tables": 0, "cases in tables": 0, "answers for tables": 0}
    assert found.counts == {"revisions": 1, "jobs": 1, "plans": 1, "quotes": 1, "hand-over records": 0, **of_tables}


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        ('UPDATE quote SET record = \'{"total"\\: "1.00"}\'', "quote 1: its content does not match its hash"),
        ("UPDATE quote SET record = 'no JSON'", "quote 1: its text does not read as JSON"),
        ("UPDATE quote SET total = 'much'", "quote 1: its total is 'much', which is no amount of money"),
        ("UPDATE plan SET record = '{}'", "plan 1 of job swap: its content does not match its hash"),
        ("UPDATE job SET content = '[]'", "job swap: its text is not one mapping"),
        (
            "UPDATE job SET content = '{\"a\"\\: 1}'",
            "job swap: it says something else than the last line of its history",
        ),
        (
            "UPDATE document_revision SET content = '{}'",
            "line hose-50, revision 1: its content does not match its hash",
        ),
        (
            "UPDATE document SET is_withdrawn = true",
            "line hose-50: where it stands now is not what its last revision says",
        ),
        ("UPDATE document SET revision = 7", "line hose-50: its revision 7 is not there"),
        (
            "DELETE FROM quote_event WHERE version = 2",
            "quote 1: its hash is not the one in the last line of its history",
        ),
        ("DELETE FROM plan_pin", ""),
    ],
)
def test_whatever_was_changed_behind_the_program_s_back_is_named(
    store: Store, store_place: str, statement: str, told: str
) -> None:
    handed_over(store)
    spoil(store_place, statement)
    said = [str(damage) for damage in store.check().damages]
    assert (told in said) if told else said == []
    result = lineplan("store", "check", "--store", store_place)
    assert (result.exit_code, told in result.stderr) == ((2, True) if told else (0, True))


def test_bytes_that_are_no_text_are_named_too(file_store: Store) -> None:
    handed_over(file_store)
    spoil(file_store.place, "UPDATE quote SET record = CAST(x'7b22ff227d' AS TEXT)")
    assert "quote 1: its text does not read as JSON" in [str(damage) for damage in file_store.check().damages]


def test_pages_that_are_no_database_any_more_are_a_sentence(file_store: Store, tmp_path: Path) -> None:
    handed_over(file_store)
    file_store.close()
    path = tmp_path / "bench.sqlite"
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    content = bytearray(path.read_bytes())
    content[4096:12288] = b"x" * 8192
    path.write_bytes(content)
    for words in (("store", "check"), ("jobs",)):
        result = lineplan(*words, "--store", path)
        assert result.exit_code == 2
        assert "malformed" in result.stderr or "the file: " in result.stderr


@pytest.mark.parametrize(
    "statement",
    [
        "UPDATE quote SET record = 'no JSON' WHERE id = 1",
        "UPDATE quote SET record = '{}' WHERE id = 1",
        "UPDATE quote SET total = 'much' WHERE id = 1",
        "UPDATE quote SET state = 'lost' WHERE id = 1",
    ],
)
def test_one_damaged_quote_does_not_hide_the_others(store: Store, store_place: str, statement: str) -> None:
    handed_over(store)
    store.quotes.save(draft(store), by="Mira")
    spoil(store_place, statement)
    with pytest.raises(StoreDamaged, match="quote 1 cannot be trusted"):
        store.quotes.get(1)
    assert "2 drafted" in flat(lineplan("jobs", "--store", store_place).stdout)
    one = lineplan("jobs", "swap", "--store", store_place)
    assert one.exit_code == 0, one.stderr
    assert "quote 1 cannot be trusted" in flat(one.stdout)
    assert "Quote 2: 61.40 EUR" in flat(one.stdout)


def test_a_day_that_is_none_is_told_in_the_list(file_store: Store) -> None:
    handed_over(file_store)
    spoil(file_store.place, "UPDATE quote SET valid_until = 'soon'")
    spoil(file_store.place, "UPDATE job SET changed_at = 'lately'")
    (brief,) = file_store.briefs()
    assert (brief.changed_at, brief.quotes[0].state_on(DAY)) == (None, "damaged")
    assert "1 damaged" in flat(lineplan("jobs", "--store", file_store.place).stdout)
    assert "job swap cannot be trusted" in flat(lineplan("jobs", "swap", "--store", file_store.place).output)


def test_the_list_tells_state_last_plan_and_quotes(store: Store) -> None:
    id = handed_over(store)
    store.jobs.save(id="other", title="Front swap", content={}, by="Mira")
    store.plans.save(job_id="swap", job_version=1, record={"outcome": "no_fit"}, pins=[], by="Mira")
    other, swap = store.briefs()
    assert (other.id, other.outcome, other.quotes) == ("other", "", ())
    assert (swap.outcome, [quote.id for quote in swap.quotes]) == ("no_fit", [id])
    assert [quote.state_on(date(2031, 4, 13)) for quote in swap.quotes] == ["handed_over"]
    assert [quote.state_on(date(2031, 4, 14)) for quote in swap.quotes] == ["lapsed"]
    assert store.briefs(JobState.FINISHED) == ()
    store.quotes.move(id, QuoteState.AGREED, today=DAY, based_on=2, by="Mira")
    assert [quote.state_on(date(2032, 1, 1)) for quote in store.briefs()[1].quotes] == ["agreed"]


MANY = 10_000


def test_ten_thousand_jobs_are_listed_in_a_second(store: Store, store_place: str) -> None:
    handed_over(store)
    big = "x" * 5000
    with writing(make_engine(url_of_store(store_place))) as session:
        session.connection().execute(
            text(
                "INSERT INTO job SELECT 'job-' || n, 1, 'Rear brake', 'Ana', 'waiting', :big, changed_at FROM job, "
                "(WITH RECURSIVE c(n) AS (SELECT 1 UNION ALL SELECT n + 1 FROM c WHERE n < :many) SELECT n FROM c) AS c"
            ),
            {"many": MANY, "big": f'{{"a":"{big}"}}'},
        )
        session.connection().execute(
            text(
                "INSERT INTO job_event SELECT id, 1, 'waiting', content, changed_at, 'Mira', '' FROM job "
                "WHERE id <> 'swap'"
            )
        )
        session.connection().execute(
            text(
                "INSERT INTO plan (job_id, job_version, outcome, record, record_sha256, inputs_sha256, made_at, "
                "made_by) SELECT id, 1, 'fits', content, :hash, :hash, changed_at, 'Mira' FROM job WHERE id <> 'swap'"
            ),
            {"hash": "0" * 64},
        )
    began = time.process_time()
    result = lineplan("jobs", "--store", store_place)
    took_s = time.process_time() - began
    assert result.stdout.splitlines()[-1] == f"{MANY + 1} jobs"
    assert took_s < 1.0, f"{took_s:.2f} s"
    assert len(store.check().damages) == MANY  # every plan's hash is wrong here, and every one is named
