"""A job of several lines on the page: saved, found among the jobs, quoted, opened again and saved over."""

import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import QuoteState, open_store
from tests.ui.page_builders import button, open_job, open_page, pictures_of, verdicts_of, words_of
from ui.page.forms.save_form import SAVE_KEY
from ui.shared.bench_work import as_content, work_of

NAME = "cockpit-swap"


def _field(page: AppTest, label: str) -> Any:
    (found,) = [one for one in page.text_input if one.label == label]
    return found


def _saved(monkeypatch: pytest.MonkeyPatch, place: Path) -> AppTest:
    page = open_page(monkeypatch, store=place)
    page.session_state[SAVE_KEY] = True
    page = open_job(page, NAME)
    _field(page, "For whom").set_value("Ana *Berg*")
    button(page, "Save the job and its plan").click().run()
    assert not page.exception
    return page


def test_several_lines_are_saved_quoted_and_opened_again(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = tmp_path / "kept.sqlite"
    assert f"({NAME}, version 1), with plan 1." in words_of(_saved(monkeypatch, place))

    page = open_page(monkeypatch, store=place, screen="jobs", job=NAME)
    assert verdicts_of(page)[0] == ("tight", "It fits, but it is tight: all lines go in, in this order.")
    assert "B before C, else 0.15 mm missing" in pictures_of(page)["visit_side_view"]
    assert "Ana *Berg*" in words_of(page)
    assert [one for one in page.get("page_link") if "bench" in str(one.proto.label)]
    button(page, "Make the quote").click().run()
    assert not page.exception
    with open_store(place, create=False) as store:
        (quote,) = store.quotes.list()
        assert (quote.state, str(quote.draft.total)) == (QuoteState.DRAFTED, "567.30")

    page = open_page(monkeypatch, store=place, screen="jobs", job=NAME)
    button(page, "Plan it in the form").click().run()
    assert not page.exception


def test_a_saved_visit_is_changed_and_saved_over_what_was_seen(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = tmp_path / "kept.sqlite"
    page = _saved(monkeypatch, place)
    page.multiselect(key="visit_first").set_value(["lamp"]).run()
    page.session_state[SAVE_KEY] = True
    page.run()
    button(page, "Save the job and its plan").click().run()
    assert not page.exception
    assert "version 2" in words_of(page)
    with open_store(place, create=False) as store:
        assert store.jobs.content_at(NAME, 2)["first"] == ["lamp"]
    page = open_page(monkeypatch, store=place, screen="bench", job=NAME)
    assert "Step 1 of 79 · Before anything is touched · all lines" in words_of(page)
    button(page, "Start the clock").click().run()
    button(page, "Done").click().run()
    assert not page.exception
    with open_store(place, create=False) as store:
        (note,) = store.bench.of_job(NAME)
        store.bench.save(note.plan_id, as_content(replace(work_of(note), at=40)), based_on=note.version)
    page = open_page(monkeypatch, store=place, screen="bench", job=NAME)
    assert re.search(r"Step 40 of 79 · [\w ]+ · (lamp|gear|rear-brake|sensor)\b", words_of(page)), "whose step it is"
    assert "bench_place" in pictures_of(page)
    told = words_of(open_page(monkeypatch, store=place, screen="jobs", job=NAME))
    assert re.search(r"By plan \d+: 1 of 79 steps done, \d+ min at the bench, estimated 414 min in all", told)
