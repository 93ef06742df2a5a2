"""Kept tables: whole or not at all, never twice, answers found again, damage named; on both databases."""

import dataclasses
from typing import Any

import pytest

from catalog import TableBrief, TableLine
from catalog.store import Store
from catalog.store_errors import NotInStore, StoreDamaged, WrittenMeanwhile
from tests.catalog.store.conftest import Clock
from tests.catalog.store.test_check import spoil

RUN = "run-a"


def line(n: int, outcomes: str = "fn", **other: Any) -> TableLine:
    facts = {"case_id": f"frame-{n}", "frame_id": f"frame-{n}", "label": f"Invented frame {n}", "content": {"n": n}}
    return TableLine(n=n, outcomes=outcomes, run=RUN, **{**facts, "case_key": f"key-{n}", **other})


def kept(store: Store, *lines: TableLine, question: str = "asked") -> tuple[TableBrief, bool]:
    store.tables.answers.add(RUN, {f"key-{n}": f"answers {n}" for n in range(2)})
    return store.tables.save(
        question=question, brakes_n=2, counts={"fits": 2, "no_fit": 2}, content={"a": 1}, lines=lines, by="Mira"
    )


def test_a_table_is_kept_and_told_again(store: Store) -> None:
    brief, is_new = kept(store, line(0), line(1, "nn", content={"deep": {"list": [1, 2.5, None]}}))
    assert is_new
    assert (brief.id, brief.cases_n, brief.brakes_n, brief.counts) == (1, 2, 2, {"fits": 2, "no_fit": 2})
    assert store.tables.list() == (brief,)
    assert store.tables.get(1) == (brief, {"a": 1})
    assert [each.outcomes for each in store.tables.lines(1)] == ["fn", "nn"]
    assert store.tables.lines(1)[1].content == {"deep": {"list": [1, 2.5, None]}}
    assert [each.n for each in store.tables.lines(1, words="INVENTED 1")] == [1]
    assert store.tables.lines(1, words="100%") == ()
    assert list(store.tables.answers_of(store.tables.lines(1))) == ["answers 0", "answers 1"]


def test_the_same_question_is_kept_once(store: Store) -> None:
    first, _ = kept(store, line(0))
    assert kept(store, line(0)) == (first, False)
    other, is_new = kept(store, line(0), question="another")
    assert (other.id != first.id, is_new) == (True, True)


def test_a_table_whose_answers_are_not_there_is_not_kept_by_half(store: Store) -> None:
    with pytest.raises(WrittenMeanwhile):
        kept(store, line(0), line(1, case_key="never-kept"))
    assert store.tables.list() == ()
    assert store.check().counts["cases in tables"] == 0


def test_answers_are_found_again_by_their_run(store: Store) -> None:
    store.tables.answers.add(RUN, {"key-0": "answers 0"})
    store.tables.answers.add(RUN, {"key-0": "answers 0", "key-1": "answers 1"})
    assert store.tables.answers.known(RUN, ["key-0", "key-1", "key-2"]) == {"key-0", "key-1"}
    assert store.tables.answers.known("run-b", ["key-0"]) == frozenset()
    assert store.tables.answers.text(RUN, "key-1") == "answers 1"
    with pytest.raises(NotInStore):
        store.tables.answers.text(RUN, "key-2")


def test_an_answer_that_was_changed_does_not_count_and_is_written_anew(store: Store, store_place: str) -> None:
    store.tables.answers.add(RUN, {"key-0": "answers 0"})
    spoil(store_place, "UPDATE table_answer SET content = 'other'")
    assert store.tables.answers.known(RUN, ["key-0"]) == frozenset()
    with pytest.raises(StoreDamaged, match="does not match its hash"):
        store.tables.answers.text(RUN, "key-0")
    store.tables.answers.add(RUN, {"key-0": "answers 0"})
    assert store.tables.answers.text(RUN, "key-0") == "answers 0"


def test_answers_that_no_table_stands_on_go_after_a_while(store: Store, clock: Clock) -> None:
    store.tables.answers.add(RUN, {"key-9": "of a run that was killed"})
    clock.advance(days=20)
    kept(store, line(0))
    assert store.tables.answers.known(RUN, ["key-9"]) == {"key-9"}
    clock.advance(days=20)
    kept(store, line(0), question="another")
    clock.advance(days=40)
    kept(store, line(0), line(1), question="a third")
    assert store.tables.answers.known(RUN, ["key-0", "key-1", "key-9"]) == {"key-0", "key-1"}


def test_a_table_is_put_away_whole(store: Store) -> None:
    kept(store, line(0), line(1))
    other, _ = kept(store, line(0), question="another")
    store.tables.forget(1)
    assert store.tables.list() == (other,)
    assert [each.n for each in store.tables.lines(other.id)] == [0]
    with pytest.raises(NotInStore, match="table 1"):
        store.tables.get(1)
    with pytest.raises(NotInStore, match="table 1"):
        store.tables.forget(1)
    assert store.check().damages == ()


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        ("UPDATE kept_table SET counts = '{\"fits\"\\: 9}'", "table 1: what it says does not match its hash"),
        ("UPDATE kept_table SET content = 'no JSON'", "table 1: its text does not read as JSON"),
        ("DELETE FROM kept_table_case WHERE n = 1", "table 1: it has 1 of its 2 cases"),
        (
            "UPDATE kept_table_case SET outcomes = 'ff' WHERE n = 0",
            "table 1, case frame-0: what it says does not match its hash",
        ),
        ("UPDATE kept_table_case SET outcomes = 'f' WHERE n = 0", "table 1, case frame-0: it tells 1 brakes of 2"),
        ("UPDATE table_answer SET content = '{}'", "answer key-1: its content does not match its hash"),
        ("DELETE FROM table_answer WHERE case_key = 'key-1'", "table 1, case frame-1: its answer key-1 is not there"),
        ("DELETE FROM kept_table", "case 0 of a table: its table 1 is not there"),
    ],
)
def test_what_was_changed_behind_the_program_s_back_is_named(
    store: Store, store_place: str, statement: str, told: str
) -> None:
    kept(store, line(0), line(1))
    assert store.check().damages == ()
    spoil(store_place, statement)
    assert told in [str(damage) for damage in store.check().damages]


def test_a_damaged_line_is_not_told(store: Store, store_place: str) -> None:
    kept(store, line(0))
    spoil(store_place, "UPDATE kept_table_case SET label = 'Another'")
    with pytest.raises(StoreDamaged, match="table 1, case frame-0"):
        store.tables.lines(1)
    spoil(store_place, "UPDATE kept_table SET note = 'not by us'")
    with pytest.raises(StoreDamaged, match="table 1"):
        store.tables.get(1)


def test_every_field_of_a_line_is_hashed() -> None:
    from catalog.store_tables import hash_of_line

    facts = dataclasses.asdict(line(0))
    for name in facts:
        assert hash_of_line({**facts, name: "other"}) != hash_of_line(facts)
