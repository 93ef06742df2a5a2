"""What is typed is kept: a reload, another window, steps back, and two windows at one form."""

from pathlib import Path

import pytest
from streamlit.testing.v1 import AppTest

from catalog import open_store
from tests.ui.page_builders import box, button, open_job, open_page, verdicts_of, words_of
from ui.shared.job_fields import NOTHING


def _reloaded(page: AppTest, monkeypatch: pytest.MonkeyPatch, store: Path) -> AppTest:
    """The same address in a window that knows nothing yet."""
    return open_page(monkeypatch, store=store, draft=_draft(page))


def _draft(page: AppTest) -> str:
    found = page.query_params["draft"]
    return found if isinstance(found, str) else str(found[0])


@pytest.fixture
def place(tmp_path: Path) -> Path:
    return tmp_path / "shop" / "kept.sqlite"


def test_a_half_filled_form_comes_back_after_a_reload(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, store=place)
    assert "draft" not in page.query_params, "nothing is kept of an empty form"
    box(page, "Frame").set_value("quillfern-130").run()
    box(page, "Goes on").set_value(("brake", "dunmere-4-rear")).run()
    again = _reloaded(page, monkeypatch, place)
    assert box(again, "Frame").value == "quillfern-130"
    assert box(again, "Goes on").value == ("brake", "dunmere-4-rear")
    assert box(again, "Comes off").value is None


def test_a_job_with_all_it_says_comes_back_after_a_reload(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch, store=place), "hardtail-shared-port")
    again = _reloaded(page, monkeypatch, place)
    assert verdicts_of(again) == verdicts_of(page)
    assert "beside Gear housing 4.0, Gear housing 4.0" in words_of(again)
    with open_store(place) as store:
        assert store.drafts.get(_draft(page)).version == 1, "opening and looking is no change"


def test_steps_are_taken_back_and_made_again(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch, store=place), "trail-rear-brake")
    assert button(page, "Undo").disabled
    before = verdicts_of(page)
    box(page, "Goes on").set_value(("brake", "pellow-m-rear")).run()
    after = verdicts_of(page)
    assert after != before
    button(page, "Undo").click().run()
    assert not page.exception
    assert (verdicts_of(page), button(page, "Undo").disabled) == (before, True)
    button(page, "Redo").click().run()
    assert (verdicts_of(page), button(page, "Redo").disabled) == (after, True)


def test_steps_of_a_form_that_is_not_full_yet_are_taken_back_too(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, store=place)
    choices = ("Frame", "quillfern-130"), ("Comes off", NOTHING), ("Goes on", ("brake", "dunmere-4-rear"))
    for label, one in choices:
        box(page, label).set_value(one).run()
    assert "Still to be chosen: Line starts at." in words_of(page)
    box(page, "Line starts at").select("bar-right").run()
    fits = verdicts_of(page)
    assert fits
    button(page, "Undo").click().run()
    assert not verdicts_of(page)
    button(page, "Undo").click().run()
    assert "Still to be chosen: Goes on." in words_of(page)
    button(page, "Redo").click().run()
    button(page, "Redo").click().run()
    assert verdicts_of(page) == fits


def test_two_windows_at_one_form_lose_neither(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = open_job(open_page(monkeypatch, store=place), "trail-rear-brake")
    second = _reloaded(first, monkeypatch, place)
    box(first, "Goes on").set_value(("brake", "pellow-m-rear")).run()
    box(second, "Goes on").set_value(("line", "hose-50x21")).run()
    assert "changed in another window" in words_of(second)
    assert _draft(second) != _draft(first)
    with open_store(place) as store:
        goes_on = {
            store.drafts.get(_draft(page)).content["choices"]["choice_new"]["tuple"][1] for page in (first, second)
        }
    assert goes_on == {"pellow-m-rear", "hose-50x21"}
    second.run()
    assert "changed in another window" in words_of(second), "told until it was read, not for one click"
    button(second, "Show the other one").click().run()
    assert not second.exception
    assert verdicts_of(second) == verdicts_of(first)


def test_who_goes_on_with_his_own_form_is_told_of_the_other_no_more(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = open_job(open_page(monkeypatch, store=place), "trail-rear-brake")
    second = _reloaded(first, monkeypatch, place)
    box(first, "Goes on").set_value(("brake", "pellow-m-rear")).run()
    box(second, "Goes on").set_value(("line", "hose-50x21")).run()
    mine = verdicts_of(second)
    button(second, "Go on with this one").click().run()
    assert "another window" not in words_of(second)
    assert verdicts_of(second) == mine


def test_a_window_that_only_looks_is_told_of_a_newer_form(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    first = open_job(open_page(monkeypatch, store=place), "trail-rear-brake")
    second = _reloaded(first, monkeypatch, place)
    second.run()
    assert "another window" not in words_of(second)
    box(first, "Goes on").set_value(("brake", "pellow-m-rear")).run()
    second.run()
    assert "This form was changed in another window." in words_of(second)
    button(second, "Show the newer one").click().run()
    assert verdicts_of(second) == verdicts_of(first)


def test_a_catalog_dropped_on_the_page_comes_back_with_the_form(place: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, store=place, catalog=())
    button(page, "Try it with invented frames").click().run()
    box(page, "Frame").set_value("quillfern-130").run()
    again = open_page(monkeypatch, store=place, catalog=(), draft=_draft(page))
    assert box(again, "Frame").value == "quillfern-130"


def test_an_address_without_its_draft_says_so_and_opens_an_empty_form(
    place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = open_page(monkeypatch, store=place, draft="nosuch")
    assert "draft nosuch is not in the store" in words_of(page)
    assert box(page, "Frame").value is None


def test_the_page_plans_all_the_same_where_nothing_can_be_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    in_the_way = tmp_path / "file"
    in_the_way.write_text("no folder", encoding="utf-8")
    page = open_job(open_page(monkeypatch, store=in_the_way / "kept.sqlite"), "trail-rear-brake")
    assert verdicts_of(page)[0][0] == "fits"
    assert "Nothing typed here is kept" in words_of(page)


@pytest.mark.parametrize("screen", ["new_frame", "new_job"])
def test_what_is_told_question_by_question_comes_back_too(
    screen: str, place: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = open_page(monkeypatch, store=place, screen=screen)
    (first, *_) = [*page.text_input, *page.selectbox]
    told = "Invented 7" if screen == "new_frame" else "quillfern-130"
    first.set_value(told).run()
    assert not page.exception
    again = open_page(monkeypatch, store=place, screen=screen, draft=_draft(page))
    (first, *_) = [*again.text_input, *again.selectbox]
    assert first.value == told
    button(again, "Start again with nothing told").click().run()
    assert not again.exception
    (first, *_) = [*again.text_input, *again.selectbox]
    assert not first.value
    assert "draft" not in again.query_params
