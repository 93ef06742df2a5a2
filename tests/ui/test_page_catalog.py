"""The catalog on the page: entries changed, added, taken back and out, what uses them, files in and out."""

from io import BytesIO
from pathlib import Path
from typing import Any
from zipfile import ZipFile

import pytest
from streamlit.testing.v1 import AppTest

from catalog import FieldSort, annotation_of, complaints_by_path, fields_in, kinds_of_entries, open_store, read_catalog
from tests.ui.page_builders import box, button, choose_tab, open_page, pictures_of, words_of
from tests.ui.shop_samples import STARTER
from ui.page.forms.entry_form import PICKED
from ui.page.views.entry_list import KIND_WORDS, entries_of
from ui.shared.entry_values import as_text, from_text, value_at, with_value


def _catalog(monkeypatch: pytest.MonkeyPatch, store: Path, **address: str) -> AppTest:
    return open_page(monkeypatch, store=store, catalog=(), screen="catalog", **address)


def _field(page: AppTest, label: str) -> Any:
    (found,) = [one for one in page.text_input if one.label.replace("\\", "") == label]
    return found


def _edit(monkeypatch: pytest.MonkeyPatch, store: Path, kind: str, id: str) -> AppTest:
    page = _catalog(monkeypatch, store, kind=kind, id=id)
    button(page, "Change it").click().run()
    assert not page.exception
    return page


def test_a_line_is_changed_with_a_decimal_comma_and_saved_as_a_new_revision(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _edit(monkeypatch, store, "line", "hose-50x21")
    assert "Lines: Brake hose 5.0 with bore 2.1, revision 1" in words_of(page)
    assert button(page, "Save as a new revision").disabled
    assert _field(page, "Outer diameter, mm, needed").placeholder == "0.8 to 20 mm"
    _field(page, "Outer diameter, mm, needed").set_value("5,2").run()
    assert not page.exception
    assert "outer: 5 -> 5.2" in words_of(page).replace("5.0 ->", "5 ->")
    _field(page, "Who").set_value("Mira").run()
    button(page, "Save as a new revision").click().run()
    assert not page.exception
    assert "revision 2, in use" in words_of(page)
    with open_store(store) as opened:
        now = opened.documents.current("line", "hose-50x21")
        assert (now.content["outer"], now.saved_by) == (5.2, "Mira")


def test_the_styles_of_a_fitting_are_drawn_and_the_one_that_is_picked_there_stands_in_its_field(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _edit(monkeypatch, store, "fitting", "banjo-50x21")
    (drawn,) = (svg for key, svg in pictures_of(page).items() if key.endswith("style_drawn"))
    assert all(words in drawn for words in ("banjo: an eye", "compression: a nut", "plug: a moulded plug"))
    page.session_state[f"held_{PICKED}"] = (("style",), "barbed")
    page.run()
    assert not page.exception
    assert box(page, "Style, needed").value == "barbed"
    assert "style: banjo -> barbed" in words_of(page)


def test_what_is_wrong_is_said_at_its_field_and_cannot_be_saved(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _edit(monkeypatch, store, "line", "hose-50x21")
    _field(page, "Outer diameter, mm, needed").set_value("0.2").run()
    assert any("0.2 mm was given" in one.value for one in page.error)
    assert button(page, "Save as a new revision").disabled
    _field(page, "Outer diameter, mm, needed").set_value("thick").run()
    assert any("thick" in one.value for one in page.error)
    button(page, "Undo").click().run()
    button(page, "Undo").click().run()
    assert not page.error
    assert "Nothing is changed so far." in words_of(page)


def test_two_windows_that_edit_one_entry_are_told_and_neither_is_lost(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    mine = _edit(monkeypatch, store, "line", "hose-50x21")
    _field(mine, "Outer diameter, mm, needed").set_value("5.3").run()
    theirs = _edit(monkeypatch, store, "line", "hose-50x21")
    _field(theirs, "Outer diameter, mm, needed").set_value("5.1").run()
    button(theirs, "Save as a new revision").click().run()
    mine.run()
    assert "saved revision 2 meanwhile: outer" in words_of(mine)
    button(mine, "Put mine over theirs").click().run()
    button(mine, "Save as a new revision").click().run()
    assert not mine.exception
    with open_store(store) as opened:
        assert [one.content["outer"] for one in opened.documents.history("line", "hose-50x21")] == [5.0, 5.1, 5.3]


def test_a_hole_of_a_frame_is_changed_beside_its_drawing(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _edit(monkeypatch, store, "frame", "quillfern-130")
    assert "frame_quillfern-130" in pictures_of(page)
    box(page, "Part of it").set_value("ports/3").run()
    assert not page.exception
    _field(page, "Wall, mm, needed").set_value("-1").run()
    assert page.error
    assert "As it was drawn before something was not right" in words_of(page)
    assert "frame_quillfern-130" in pictures_of(page)


def test_a_copy_gets_its_own_id_and_one_that_is_taken_is_refused(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _catalog(monkeypatch, store, kind="line", id="hose-50x21")
    button(page, "Duplicate").click().run()
    _field(page, "Id, needed").set_value("hose-50").run()
    with open_store(store) as opened:
        taken = next(r.pin.id for r in opened.documents.list_current("line") if r.pin.id != "hose-50")
    _field(page, "Id, needed").set_value(taken).run()
    button(page, "Save as a new revision").click().run()
    assert "already: choose another id" in words_of(page)
    _field(page, "Id, needed").set_value("hose-mine").run()
    button(page, "Save as a new revision").click().run()
    assert not page.exception
    with open_store(store) as opened:
        assert opened.documents.current("line", "hose-mine").content["outer"] == 5.0


def test_an_entry_in_use_cannot_be_taken_out_and_its_users_are_named(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = choose_tab(_catalog(monkeypatch, store, kind="brake", id="dunmere-4-rear"), "Used by")
    assert [one.label for one in page.get("page_link")][1:] == ["Job: Stronger rear brake on a trail frame"]
    page = _catalog(monkeypatch, store, kind="line", id="hose-50x21")
    button(page, "Take out of use").click().run()
    assert page.error, "brakes name it"
    with open_store(store) as opened:
        assert not opened.documents.current("line", "hose-50x21").is_withdrawn


def test_an_earlier_revision_comes_back(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _edit(monkeypatch, store, "line", "hose-50x21")
    _field(page, "Outer diameter, mm, needed").set_value("5.2").run()
    button(page, "Save as a new revision").click().run()
    box(choose_tab(page, "History"), "Look at revision").set_value(1).run()
    button(page, "Go back to revision 1").click().run()
    assert not page.exception
    with open_store(store) as opened:
        now = opened.documents.current("line", "hose-50x21")
        assert (now.pin.revision, now.content["outer"]) == (3, 5.0)


def test_files_are_read_in_after_what_they_change_was_seen(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _catalog(monkeypatch, store)
    text = b'format: 1\nparts:\n  - {id: my-olive, name: My olive, price: "1.10"}\n'
    (uploader,) = page.file_uploader
    uploader.upload("mine.yaml", text, "application/yaml").run()
    assert not page.exception
    assert "Added: part my-olive." in words_of(page)
    with open_store(store) as opened:
        assert "my-olive" not in {r.pin.id for r in opened.documents.list_current("part")}
    button(page, "Read in").click().run()
    assert not page.exception
    with open_store(store) as opened:
        from ui.page.forms.import_form import packed_catalog

        assert opened.documents.current("part", "my-olive").content["price"] == "1.10"
        assert "mine.yaml" in ZipFile(BytesIO(packed_catalog(opened))).namelist()


def test_files_in_use_are_read_into_the_store_to_be_changed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, store=tmp_path / "new.sqlite", screen="catalog")
    button(page, "Read it into the store").click().run()
    assert not page.exception
    assert "In use: the store's" in words_of(page)
    assert button(page, "New entry of this kind")


@pytest.mark.parametrize("kind", kinds_of_entries())
def test_every_entry_of_the_starter_stands_in_its_form_as_it_is(kind: str) -> None:
    """What is shown in the fields and read back is what the entry says: opening a form changes nothing."""
    assert kind in KIND_WORDS
    for entry in entries_of(read_catalog([STARTER]), kind):
        value = entry.model_dump(mode="json", by_alias=True, exclude_unset=True)
        assert complaints_by_path(kind, value) == {}
        for field in fields_in(annotation_of(kind), value):
            had = value.get(field.help.name)
            if had not in (None, "") and field.sort not in (FieldSort.ENTRY, FieldSort.ENTRIES, FieldSort.YES_NO):
                assert from_text(as_text(had, field.sort), field.sort, unit=field.help.unit) == had


@pytest.mark.parametrize(
    ("typed", "sort", "value"),
    [
        ("4,5", FieldSort.NUMBER, 4.5),
        ("28", FieldSort.NUMBER, 28),
        ("6,5..7", FieldSort.NUMBER, "6.5..7"),
        ("thick", FieldSort.NUMBER, "thick"),
        ("1,5 2 -3", FieldSort.NUMBERS, [1.5, 2, -3]),
        ("0 1,5 2; 3 4 5", FieldSort.POINTS, [[0, 1.5, 2], [3, 4, 5]]),
        ("a, b", FieldSort.TEXTS, ["a", "b"]),
        ("1,10", FieldSort.MONEY, "1.10"),
        ("  ", FieldSort.TEXT, None),
    ],
)
def test_what_is_typed_is_read_as_a_file_would_hold_it(typed: str, sort: FieldSort, value: object) -> None:
    assert from_text(typed, sort) == value


def test_a_value_is_put_at_its_place_and_taken_out_again() -> None:
    before = {"id": "a", "ports": [{"id": "p"}, {"id": "q", "wall": 1}]}
    after = with_value(before, ("ports", 1, "opening", "shape"), "round")
    assert value_at(after, ("ports", 1, "opening")) == {"shape": "round"}
    assert with_value(after, ("ports", 1, "opening"), None) == before
    assert with_value(before, ("ports", 0), None) == {"id": "a", "ports": [{"id": "q", "wall": 1}]}
    assert before == {"id": "a", "ports": [{"id": "p"}, {"id": "q", "wall": 1}]}
