"""Catalog documents: revisions, conflicts, undo."""

from typing import Any

import pytest

from catalog.store import Store
from catalog.store_errors import EditConflict, NotInStore, SeveralConflicts, StoreDamaged, StoreRefused
from catalog.store_things import Change, Pin
from tests.catalog.store.conftest import Clock


def hose(outer: float, *, based_on: int | None = None, id: str = "hose-50", **more: Any) -> Change:
    content = {"id": id, "kind": "hydraulic_hose", "outer": outer, "bend_radius": 35.0, **more}
    return Change(kind="line", id=id, name="Brake hose", content=content, based_on=based_on)


def test_what_was_saved_is_read_back_with_its_story(store: Store, clock: Clock) -> None:
    saved = store.documents.save(hose(5.0, note="Ø 5 → 5,1 größer"), by="Mira", note="first")
    assert store.documents.current("line", "hose-50") == saved
    assert (saved.pin.revision, saved.saved_by, saved.note, saved.saved_at) == (1, "Mira", "first", clock.moment)
    assert saved.content["note"] == "Ø 5 → 5,1 größer"
    assert list(saved.content) == ["id", "kind", "outer", "bend_radius", "note"]  # in the order it was written


def test_a_second_save_keeps_the_first_revision(store: Store) -> None:
    store.documents.save(hose(5.0), by="Mira")
    store.documents.save(hose(5.2, based_on=1), by="Jonas")
    assert [revision.content["outer"] for revision in store.documents.history("line", "hose-50")] == [5.0, 5.2]
    assert store.documents.at(Pin(kind="line", id="hose-50", revision=1)).content["outer"] == 5.0


def test_the_same_content_again_makes_no_revision(store: Store, clock: Clock) -> None:
    first = store.documents.save(hose(5.0), by="Mira")
    clock.advance(hours=1)
    assert store.documents.save(hose(5.0, based_on=1), by="Jonas") == first
    assert len(store.documents.history("line", "hose-50")) == 1


def test_two_editors_the_later_is_told_who_saved_what(store: Store) -> None:
    store.documents.save(hose(5.0), by="Mira")
    store.documents.save(hose(5.2, based_on=1), by="Jonas")
    with pytest.raises(EditConflict) as caught:
        store.documents.save(hose(5.4, based_on=1, bore=2.1), by="Mira")
    assert str(caught.value) == (
        "line hose-50: you opened revision 1; revision 2 was saved since by Jonas on 2031-03-14 09:26 UTC. "
        "There: outer: 5.0 -> 5.2. Yours: outer: 5.0 -> 5.4; bore: nothing -> 2.1. Both touch outer. "
        "Nothing of yours was saved: open it again and make your change there."
    )
    assert store.documents.current("line", "hose-50").content["outer"] == 5.2


def test_adding_what_is_already_there_is_a_conflict(store: Store) -> None:
    store.documents.save(hose(5.0), by="Mira")
    with pytest.raises(EditConflict, match="you meant to add it, but it was already saved by Mira"):
        store.documents.save(hose(5.0), by="Jonas")


def test_editing_what_was_never_saved_is_a_conflict(store: Store) -> None:
    with pytest.raises(EditConflict, match="you opened revision 3, but it is not in the store"):
        store.documents.save(hose(5.0, based_on=3), by="Jonas")


def test_several_documents_are_saved_together_or_not_at_all(store: Store) -> None:
    store.documents.save(hose(5.0), by="Mira")
    with pytest.raises(EditConflict, match="hose-50"):
        store.documents.save_all([hose(4.0, id="hose-40"), hose(6.0)], by="Jonas")
    assert [revision.pin.id for revision in store.documents.list_current("line")] == ["hose-50"]


def test_several_conflicts_are_told_at_once(store: Store) -> None:
    store.documents.save_all([hose(5.0), hose(4.0, id="hose-40")], by="Mira")
    with pytest.raises(SeveralConflicts, match=r"(?s)line hose-40: .*\nline hose-50: "):
        store.documents.save_all([hose(5.1), hose(4.1, id="hose-40")], by="Jonas")


def test_one_save_takes_one_content_for_a_document(file_store: Store) -> None:
    with pytest.raises(StoreRefused, match="line hose-50: two contents was given; one save takes one"):
        file_store.documents.save_all([hose(5.0), hose(5.1)], by="Mira")


def test_going_back_makes_a_new_revision_and_can_be_undone(store: Store) -> None:
    store.documents.save(hose(5.0), by="Mira")
    store.documents.save(hose(50.0, based_on=1), by="Jonas", note="typo")
    back = store.documents.go_back(Pin(kind="line", id="hose-50", revision=1), based_on=2, by="Mira")
    assert (back.pin.revision, back.content["outer"], back.note) == (3, 5.0, "back to revision 1")
    forth = store.documents.go_back(Pin(kind="line", id="hose-50", revision=2), based_on=3, by="Jonas")
    assert (forth.pin.revision, forth.content["outer"]) == (4, 50.0)


def test_going_back_over_somebody_elses_edit_is_a_conflict(store: Store) -> None:
    store.documents.save(hose(5.0), by="Mira")
    store.documents.save(hose(5.2, based_on=1), by="Jonas")
    with pytest.raises(EditConflict, match="you opened revision 1; revision 2"):
        store.documents.go_back(Pin(kind="line", id="hose-50", revision=1), based_on=1, by="Mira")


def test_a_withdrawn_document_is_out_of_the_list_but_keeps_its_revisions(store: Store) -> None:
    store.documents.save(hose(5.0), by="Mira")
    gone = store.documents.withdraw("line", "hose-50", based_on=1, by="Mira", note="not sold any more")
    assert (gone.pin.revision, gone.is_withdrawn) == (2, True)
    assert store.documents.list_current() == ()
    assert [r.is_withdrawn for r in store.documents.list_current(with_withdrawn=True)] == [True]
    with pytest.raises(EditConflict):
        store.documents.withdraw("line", "hose-50", based_on=1, by="Jonas")
    store.documents.go_back(Pin(kind="line", id="hose-50", revision=1), based_on=2, by="Mira")
    assert [r.pin.revision for r in store.documents.list_current()] == [3]


def test_what_is_not_there_is_said_with_near_names(store: Store) -> None:
    store.documents.save(hose(5.0), by="Mira")
    with pytest.raises(NotInStore, match="line hose-51 is not in the store; did you mean hose-50"):
        store.documents.current("line", "hose-51")
    with pytest.raises(NotInStore, match="line hose-50, revision 7 is not in the store"):
        store.documents.at(Pin(kind="line", id="hose-50", revision=7))


@pytest.mark.parametrize(
    ("wrong", "message"),
    [
        ({"outer": float("nan")}, "only texts, finite numbers"),
        ({"bore": {1: 2}}, "every key of a stored mapping must be text"),
        ({"bore": {1, 2}}, "only texts, finite numbers"),
        ({"name": "\ud800"}, "only texts, finite numbers"),
    ],
)
def test_content_that_would_not_come_back_the_same_is_refused(
    store: Store, wrong: dict[str, Any], message: str
) -> None:
    with pytest.raises(StoreRefused, match=message):
        store.documents.save(hose(**{"outer": 5.0, **wrong}), by="Mira")
    assert store.documents.list_current() == ()


@pytest.mark.parametrize(
    "change",
    [
        Change(kind="line", id="no spaces", name="x", content={}, based_on=None),
        Change(kind="line", id="", name="x", content={}, based_on=None),
        Change(kind="line", id="hose\n", name="x", content={}, based_on=None),
        Change(kind="line", id="hose", name="nul\x00", content={}, based_on=None),
        Change(kind="line", id="hose", name=" ", content={}, based_on=None),
        Change(kind="line", id="hose", name="x" * 201, content={}, based_on=None),
    ],
)
def test_names_that_no_database_should_hold_are_refused(store: Store, change: Change) -> None:
    with pytest.raises(StoreRefused):
        store.documents.save(change, by="Mira")


def test_texts_inside_a_document_may_hold_anything_json_can(store: Store) -> None:
    note = "NUL \x00, quote \", backslash \\, 𝄞, '; DROP TABLE document; --"
    store.documents.save(hose(5.0, note=note), by="Mira")
    assert store.documents.current("line", "hose-50").content["note"] == note


def test_a_copy_handed_out_is_not_the_stored_one(store: Store) -> None:
    saved = store.documents.save(hose(5.0), by="Mira")
    saved.content["outer"] = 99
    assert store.documents.current("line", "hose-50").content["outer"] == 5.0


def test_a_revision_changed_behind_the_stores_back_is_noticed(file_store: Store) -> None:
    import sqlite3

    file_store.documents.save(hose(5.0), by="Mira")
    with sqlite3.connect(file_store.place) as raw:
        raw.execute("DROP TRIGGER keep_document_revision_update")
        raw.execute("UPDATE document_revision SET content = replace(content, '5.0', '6.0')")
    with pytest.raises(StoreDamaged, match="line hose-50, revision 1 cannot be trusted"):
        file_store.documents.current("line", "hose-50")
