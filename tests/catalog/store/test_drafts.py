"""Drafts of forms: steps there and back, two windows, what is forgotten after a while."""

from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from catalog.store import Store, open_store
from catalog.store_drafts import MOST_STEPS, STEPS_KEPT_FOR, StoredDraft
from catalog.store_errors import EditConflict, NotInStore


def _with_steps(store: Store, count: int, *, id: str = "d1") -> StoredDraft:
    draft = store.drafts.save(id, {"n": 1}, form="job", title="A swap")
    for n in range(2, count + 1):
        draft = store.drafts.save(id, {"n": n}, form="job", based_on=draft.version)
    return draft


def test_a_draft_reads_back_as_it_was_kept(store: Store) -> None:
    kept = store.drafts.save("d1", {"choices": {"a": ["x", 1.5, None]}}, form="job", title="A swap")
    assert store.drafts.get("d1") == kept
    assert (kept.version, kept.has_before, kept.has_after) == (1, False, False)
    assert [brief.title for brief in store.drafts.recent("job", most=5)] == ["A swap"]
    assert store.drafts.recent("frame", most=5) == ()


def test_steps_are_taken_back_and_made_again_and_a_new_one_ends_the_old_way(store: Store) -> None:
    draft = _with_steps(store, 3)
    back = store.drafts.step("d1", back=True, based_on=draft.version)
    assert (back.content, back.has_before, back.has_after) == ({"n": 2}, True, True)
    again = store.drafts.step("d1", back=False, based_on=back.version)
    assert (again.content, again.has_after) == ({"n": 3}, False)
    first = store.drafts.step("d1", back=True, based_on=again.version)
    other = store.drafts.save("d1", {"n": "other"}, form="job", based_on=first.version)
    assert (other.content, other.has_after) == ({"n": "other"}, False)
    assert store.drafts.step("d1", back=True, based_on=other.version).content == {"n": 2}


def test_where_there_is_no_step_the_draft_stays_as_it_is(store: Store) -> None:
    draft = _with_steps(store, 1)
    assert store.drafts.step("d1", back=True, based_on=draft.version).content == {"n": 1}
    assert store.drafts.step("d1", back=False, based_on=draft.version).version == draft.version


def test_a_window_that_is_behind_is_told_and_changes_nothing(store: Store) -> None:
    _with_steps(store, 2)
    with pytest.raises(EditConflict, match="you opened revision 1; revision 2"):
        store.drafts.save("d1", {"n": "late"}, form="job", based_on=1)
    with pytest.raises(EditConflict, match="draft d1"):
        store.drafts.step("d1", back=True, based_on=1)
    with pytest.raises(EditConflict, match="already saved"):
        store.drafts.save("d1", {"n": "late"}, form="job")
    assert store.drafts.get("d1").content == {"n": 2}


def test_only_so_many_steps_are_kept(store: Store) -> None:
    draft = _with_steps(store, MOST_STEPS + 3)
    for _ in range(MOST_STEPS + 3):
        draft = store.drafts.step("d1", back=True, based_on=draft.version)
    assert draft.content == {"n": 4}


def test_after_a_while_a_draft_keeps_what_it_shows_and_no_other_step(tmp_path: Path) -> None:
    now = [datetime(2031, 3, 14, tzinfo=UTC)]
    with open_store(tmp_path / "kept.sqlite", clock=lambda: now[0]) as store:
        draft = _with_steps(store, 3)
        store.drafts.step("d1", back=True, based_on=draft.version)
        now[0] += STEPS_KEPT_FOR + timedelta(minutes=1)
        _with_steps(store, 1, id="d2")
        old = store.drafts.get("d1")
    assert (old.content, old.has_before, old.has_after) == ({"n": 2}, False, False)


def test_the_job_changed_last_is_told_first(tmp_path: Path) -> None:
    moments = (datetime(2031, 3, day, tzinfo=UTC) for day in range(1, 9))
    with open_store(tmp_path / "kept.sqlite", clock=lambda: next(moments)) as store:
        for id in ("b", "c", "a"):
            store.jobs.save(id=id, title="A swap", content={"n": 1}, by="Mira")
        found, count = store.find_briefs(words="", state=None, most=2)
    assert ([brief.id for brief in found], count) == (["a", "c"], 3)


def test_a_forgotten_draft_is_gone(store: Store) -> None:
    _with_steps(store, 2)
    store.drafts.forget("d1")
    assert store.drafts.version("d1") is None
    with pytest.raises(NotInStore, match="draft d1 is not in the store"):
        store.drafts.get("d1")


def test_jobs_are_found_by_all_their_words(store: Store) -> None:
    for n, (title, whom) in enumerate((("Rear 50% brake", "Ana"), ("Front brake", "Ana"), ("Rear gear", "Bo")), 1):
        store.jobs.save(id=f"job{n}", title=title, content={"n": n}, by="Mira", for_whom=whom)
    found, count = store.find_briefs(words="", state=None, most=2)
    assert (len(found), count) == (2, 3)
    found, count = store.find_briefs(words="ana BRAKE", state=None, most=9)
    assert ({brief.id for brief in found}, count) == ({"job1", "job2"}, 2)
    found, _ = store.find_briefs(words="50%", state=None, most=9)
    assert [brief.id for brief in found] == ["job1"], "a sign of the database's own is a sign like any other"


def test_the_stamp_changes_with_every_change_of_the_catalog(store: Store) -> None:
    from catalog.store_things import Change

    stamps = [store.documents.stamp()]
    for based_on, name in ((None, "one"), (1, "two")):
        store.documents.save(Change(kind="line", id="a", name=name, content={"n": name}, based_on=based_on), by="Mira")
        stamps.append(store.documents.stamp())
    store.documents.withdraw("line", "a", based_on=2, by="Mira")
    stamps.append(store.documents.stamp())
    assert len(set(stamps)) == 4
