"""The place of the shop: its figures changed with errors at the field, the store told, upgraded, copied, put back."""

import shutil
import sqlite3
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import annotation_of, fields_in, open_store, upgrade_store
from tests.ui.page_builders import box, button, choose_tab, open_page, words_of
from ui.page.forms.shop_groups import groups_of


@pytest.fixture(scope="module")
def kept_catalog(kept_once: Path) -> Path:
    return kept_once


@pytest.fixture
def place(kept_catalog: Path, tmp_path: Path) -> Path:
    return Path(shutil.copy(kept_catalog, tmp_path / "shop.sqlite"))


def _shop(monkeypatch: pytest.MonkeyPatch, place: Path, tab: str) -> AppTest:
    return choose_tab(open_page(monkeypatch, store=place, screen="shop", catalog=()), tab)


def _field(page: AppTest, label: str) -> Any:
    (found,) = [one for one in page.text_input if one.label == label]
    return found


def test_every_figure_of_the_shop_has_its_group() -> None:
    names = [one.help.name for one in fields_in(annotation_of("shop"), {})]
    groups = groups_of(names)
    assert sorted(name for group in groups.values() for name in group) == sorted(names)
    left = {"pressure_growth", "pressure_shrink", "hole_work", "plan_work", "note", "source"}
    assert set(groups["Everything else"]) == left


def test_a_figure_is_changed_with_the_complaint_at_the_field_and_kept_with_its_history(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = _shop(monkeypatch, place, "Settings")
    assert "60.00" in words_of(page)
    button(page, "Change them").click().run()
    _field(page, "Shop's name").set_value("Workshop *of* nobody").run()
    _field(page, "Tax").set_value("1.5").run()
    assert 'such as "0.20" for 20 %' in words_of(page)
    assert button(page, "Save as a new revision").disabled
    _field(page, "Tax").set_value("0,25").run()
    box(page, "Part of it").select("Lengths and cuts").run()
    _field(page, "Trim, mm").set_value("12").run()
    _field(page, "Who").set_value("Mira").run()
    button(page, "Save as a new revision").click().run()
    assert not page.exception
    told = words_of(page)
    assert "Workshop *of* nobody" in told
    assert "your own" in told
    with open_store(place, create=False) as store:
        shop = store.documents.current("shop", "shop")
    assert (shop.content["name"], shop.content["tax"], shop.content["trim"], shop.saved_by) == (
        "Workshop *of* nobody",
        "0.25",
        12,
        "Mira",
    )


def test_figures_in_files_are_shown_and_the_way_to_change_them_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = choose_tab(open_page(monkeypatch, store=tmp_path / "new.sqlite", screen="shop"), "Settings")
    told = words_of(page)
    assert "What is shown here lies in files. To change it on the page, read it into the store." in told
    assert "starter catalog" in told


def test_the_store_is_told_and_looked_through(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _shop(monkeypatch, place, "The store")
    told = words_of(page)
    assert str(place) in told
    button(page, "Look through everything").click().run()
    assert "all as they were saved." in words_of(page)
    with sqlite3.connect(place) as connection:
        connection.execute("UPDATE job SET content = '{}'")
    button(page, "Look through everything").click().run()
    told = words_of(page)
    assert "job trail-rear-brake: it says something else than the last line of its history" in told
    assert "restore it from a copy" in told


def test_an_older_store_is_brought_up_to_date_by_its_button_and_lies_aside(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "older.sqlite"
    upgrade_store(place, to_version="0003")
    page = open_page(monkeypatch, store=place, screen="shop", catalog=())
    told = words_of(page)
    assert "its tables have version 0003" in told
    assert "what is kept in it stays" in told
    button(page, "Bring the store up to date").click().run()
    assert not page.exception
    assert "tables of version 0003 brought up to" in words_of(page)
    (aside,) = tmp_path.glob("older-before-upgrade-*.sqlite")
    assert str(aside) in words_of(page)


def test_a_copy_is_put_back_and_what_cannot_be_trusted_is_refused(
    place: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = place.read_bytes()
    with open_store(place, create=False) as store:
        store.jobs.save(id="later", title="A later job", content={"id": "later"}, by="Mira")
    page = _shop(monkeypatch, place, "The store")
    page.file_uploader(key="store_copy_sent").upload("mine.sqlite", b"no store", "application/octet-stream").run()
    button(page, "Put it back in place of the store").click().run()
    assert "mine.sqlite cannot be put back: it cannot be read as a store" in words_of(page)
    page.file_uploader(key="store_copy_sent").upload("mine.sqlite", copy, "application/octet-stream").run()
    button(page, "Put it back in place of the store").click().run()
    assert not page.exception
    (aside,) = tmp_path.glob("shop-before-restore-*.sqlite")
    assert f"What was there before lies in {aside}." in words_of(page)
    with open_store(place, create=False) as store, open_store(aside, create=False) as before:
        assert [job.id for job in store.jobs.list()] == ["trail-rear-brake"]
        assert [job.id for job in before.jobs.list()] == ["later", "trail-rear-brake"]


def test_what_is_being_filled_in_is_asked_about_before_a_copy_takes_its_place(
    place: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    visit = {"fields": {"id": "two", "lines": []}, "is_open": True, "catalog": {"kind": "start"}, "saved": None}
    with open_store(place, create=False) as store:
        saved = store.jobs.save(id="two", title="Two lines", content=visit["fields"], by="Mira")
        known = store.drafts.save("known", {"choices": {}}, form="job", title="In the copy")
    copy = place.read_bytes()
    with open_store(place, create=False) as store:
        as_saved = {**visit, "saved": {"id": "two", "version": saved.version}}
        store.drafts.save("open", as_saved, form="visit", title="Open as it was saved")
        changed = {**as_saved, "fields": {"id": "two", "lines": [{}]}}
        store.drafts.save("changed", changed, form="visit", title="Two lines, *changed*")
        store.drafts.save("photo", {}, form="photo", title="A photograph")
        assert known.version == store.drafts.version("known")
    page = _shop(monkeypatch, place, "The store")
    page.file_uploader(key="store_copy_sent").upload("mine.sqlite", copy, "application/octet-stream").run()
    told = words_of(page)
    assert "several lines: Two lines, *changed*" in told.replace("\\", "")
    assert [word for word in ("In the copy", "Open as it was saved", "A photograph") if word in told] == []
    assert button(page, "Put it back in place of the store").disabled
    page.checkbox(key="store_copy_all_the_same").check().run()
    button(page, "Put it back in place of the store").click().run()
    assert not page.exception
    (aside,) = tmp_path.glob("shop-before-restore-*.sqlite")
    with open_store(place, create=False) as store, open_store(aside, create=False) as before:
        assert store.drafts.version("changed") is None
        assert before.drafts.get("changed").content == changed
