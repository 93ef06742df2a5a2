"""Bodies behind tabs: only the one looked at is drawn, and nothing chosen behind another is lost."""

from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import Change, open_store
from tests.ui.page_builders import box, button, choose_tab, open_job, open_page, pictures_of, words_of


def test_what_was_chosen_behind_a_tab_stands_there_when_it_is_looked_at_again(monkeypatch: pytest.MonkeyPatch) -> None:
    page = choose_tab(open_job(open_page(monkeypatch), "trail-rear-brake"), "Holes")
    box(page, "Port shown (or click one in the picture)").set_value("stay-rear").run()
    picked = pictures_of(page)["side_view"]
    choose_tab(page, "All ways")
    assert pictures_of(page)["side_view"] == picked
    box(page, "One way along its places").set_value(4).run()
    for _ in range(2):
        choose_tab(page, "Lengths")
        page.run()
    assert list(pictures_of(page)) == ["side_view", "length_bar"]
    choose_tab(page, "Holes")
    assert box(page, "Port shown (or click one in the picture)").value == "stay-rear"
    choose_tab(page, "All ways")
    assert box(page, "One way along its places").value == 4


def _typed(page: AppTest, label: str) -> Any:
    return next(one for one in page.text_input if one.label.startswith(label))


def test_what_was_typed_behind_the_tabs_of_a_kept_job_is_still_there(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = open_page(monkeypatch, store=store, screen="jobs", job="trail-rear-brake")
    assert "Fluid filled in" not in [one.label for one in page.text_input], "only the open tab is drawn"
    page.checkbox[0].check()
    box(page, "Paper").select("Letter")
    _typed(page, "Workshop, to print").set_value("Workshop of nobody").run()
    choose_tab(page, "Hand-over")
    _typed(page, "Fluid filled in").set_value("DOT 4, lot 7")
    choose_tab(page, "History")  # comes with what was typed last, in one run
    with open_store(store, create=False) as kept:
        assert kept.drafts.recent("hand_over", most=9), "as a reload now would find it"
    page.run()
    choose_tab(page, "Quotes")
    assert (page.checkbox[0].value, box(page, "Paper").value) == (True, "Letter")
    assert _typed(page, "Workshop, to print").value == "Workshop of nobody"
    assert _typed(choose_tab(page, "Hand-over"), "Fluid filled in").value == "DOT 4, lot 7"
    button(page, "Undo").click().run()
    assert _typed(choose_tab(choose_tab(page, "Quotes"), "Hand-over"), "Fluid filled in").value == ""
    button(page, "Redo").click().run()
    again = open_page(monkeypatch, store=store, screen="jobs", job="trail-rear-brake")
    assert _typed(again, "Fluid filled in").value == "DOT 4, lot 7", "a reload opens what was filled in last"
    choose_tab(again, "Quotes")
    assert (again.checkbox[0].value, box(again, "Paper").value) == (True, "Letter")


def test_what_a_quote_is_to_say_stays_with_its_job(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    with open_store(store, create=False) as kept:
        first = kept.jobs.get("trail-rear-brake")
        kept.jobs.save(id="another", title="Another", content={**first.content, "id": "another"}, by="Mira")
    page = open_page(monkeypatch, store=store, screen="jobs", job="trail-rear-brake")
    page.checkbox[0].check().run()
    page.query_params["job"] = "another"
    assert not page.run().checkbox[0].value
    page.query_params["job"] = "trail-rear-brake"
    assert page.run().checkbox[0].value


def test_what_was_chosen_behind_the_tabs_of_an_entry_is_still_there(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    with open_store(store, create=False) as kept:
        now = kept.documents.current("line", "hose-50x21")
        content = {**now.content, "outer": 5.2}
        change = Change(kind="line", id="hose-50x21", name=now.name, content=content, based_on=now.pin.revision)
        kept.documents.save(change, by="Mira")
    page = open_page(monkeypatch, store=store, screen="catalog", catalog=(), kind="line", id="hose-50x21")
    assert not page.selectbox
    box(choose_tab(page, "History"), "Look at revision").set_value(1).run()
    choose_tab(page, "Used by")
    choose_tab(page.run(), "History")
    assert box(page, "Look at revision").value == 1
    assert "Going back would change" in words_of(page)


def test_what_was_typed_behind_the_tabs_of_the_shop_is_still_there(
    store: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = open_page(monkeypatch, store=store, screen="shop", catalog=())
    assert not page.get("download_button")[2:], "the store's copy is offered behind its own tab"
    page.checkbox[0].check()
    _typed(page, "One cut takes").set_value("1,5").run()
    choose_tab(page, "The store")
    page.file_uploader[0].upload("mine.sqlite", b"no store", "application/octet-stream").run()
    choose_tab(page, "Settings")
    choose_tab(page.run(), "The store")
    assert "Sent before: mine.sqlite." in words_of(page)
    page.checkbox(key="store_copy_all_the_same").check().run()
    button(page, "Put it back in place of the store").click().run()
    assert "mine.sqlite cannot be put back: it cannot be read as a store" in words_of(page)
    assert "copy" in page.query_params["sent"]
    again = open_page(monkeypatch, store=store, screen="shop", catalog=(), sent="copy")
    assert "gone with it, and nothing was done: send it again." in words_of(again), "where the copy is put back"
    button(page, "Put this file away").click().run()
    assert "mine.sqlite" not in words_of(page)
    assert "sent" not in page.query_params
    choose_tab(page, "Shopping list")
    assert (page.checkbox[0].value, _typed(page, "One cut takes").value) == (True, "1,5")
