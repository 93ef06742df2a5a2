"""Frames and brakes on the page: asked for, decided, kept; pairs picked, put in order and opened as a job."""

import re
import time
from collections.abc import Callable
from html import unescape
from pathlib import Path
from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from catalog import STARTER_FOLDER, open_store
from planner import outcome_word
from planner.verdicts import Outcome
from tests.ui.page_builders import box, button, choose_tab, markup_of, open_page, pictures_of, verdicts_of, words_of
from tests.ui.shop_samples import DEMO, done
from ui.page.forms.table_form import BRAKES, FRAMES, JOBS
from ui.page.table_runs import ENDED, Run, runs, start_run, stop_run
from ui.table.asked import TableAsked

TWO_FRAMES = "quillfern 130, touring"


def _page(monkeypatch: pytest.MonkeyPatch, store: Path, **address: str) -> AppTest:
    monkeypatch.setenv("LINEPLAN_BY", "Mira")
    return open_page(monkeypatch, store=store, screen="frames_and_brakes", **address)


def _keyed(found: Any, key: str) -> Any:
    (one,) = [one for one in found if one.key == key]
    return one


@pytest.fixture(scope="module")
def kept_table(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A store with a table of two frames against all brakes."""
    place = tmp_path_factory.mktemp("tables") / "kept.sqlite"
    frames = ("--frames", DEMO / "trail.frame.yaml", "--frames", DEMO / "touring.frame.yaml")
    done("table", *frames, "--to", "store", "--store", place, "--by", "Mira", "--note", "for the spring")
    return place


def test_two_frames_are_decided_and_their_table_is_shown(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _page(monkeypatch, tmp_path / "new.sqlite")
    assert "12 frames against 9 brakes: 108 pairs" in words_of(page)
    assert "tell no way to a rear brake: Braunstow 64" in words_of(page)
    _keyed(page.text_input, FRAMES).set_value(TWO_FRAMES).run()
    _keyed(page.text_input, BRAKES).set_value("rear dunmere").run()
    assert "2 frames against 1 brake: 2 pairs" in words_of(page)
    button(page, "Decide them all").click().run()
    assert not page.exception
    assert _table_shown(page) == "1"
    assert "2 frames against 1 brake" in words_of(page)
    told = words_of(choose_tab(page, "Pairs"))
    assert "Quillfern 130 trail frame (invented)" in told
    with open_store(tmp_path / "new.sqlite") as store:
        assert [brief.made_by for brief in store.tables.list()] == ["Mira"]


def test_words_that_leave_nothing_are_said(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _page(monkeypatch, tmp_path / "new.sqlite")
    _keyed(page.text_input, FRAMES).set_value("zebra").run()
    assert "No frame or no brake is left" in words_of(page)
    assert "Decide them all" not in [one.label for one in page.button]


def test_a_catalog_without_frames_says_what_to_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, catalog=(STARTER_FOLDER,), store=tmp_path / "new.sqlite", screen="frames_and_brakes")
    assert "This catalog has no frames yet" in words_of(page)
    assert "Try it with invented frames" in [one.label for one in page.button]


def test_a_saved_job_tells_what_lies_in_its_frame(store: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _page(monkeypatch, store)
    _keyed(page.text_input, FRAMES).set_value("quillfern 130").run()
    _keyed(page.text_input, BRAKES).set_value("dunmere").run()
    _keyed(page.multiselect, JOBS).set_value(["trail-rear-brake"]).run()
    assert "1 frame against 1 brake: 1 pair" in words_of(page)
    button(page, "Decide them all").click().run()
    assert "Quillfern 130 trail frame (invented) (trail-rear-brake)" in words_of(choose_tab(page, "Pairs"))


def test_a_kept_table_is_listed_and_put_away(kept_table: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    place = tmp_path / "copy.sqlite"
    place.write_bytes(kept_table.read_bytes())
    page = _page(monkeypatch, place)
    assert "by Mira: for the spring" in words_of(page)
    button(page, "Put away").click().run()
    assert "Kept tables" not in [one.value for one in page.subheader]
    lost = _page(monkeypatch, place, table="1")
    assert "table 1" in words_of(lost)


def test_every_outcome_is_told_by_word_and_shape(kept_table: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = _page(monkeypatch, kept_table, table="1")
    picture = pictures_of(page)["table_matrix"]
    with open_store(kept_table) as store:
        counts = store.tables.list()[0].counts
    for outcome in Outcome:
        assert picture.count(f": {outcome_word(outcome)}</title>") == counts.get(outcome.word, 0)
        assert f">{outcome_word(outcome)}</text>" in picture
    assert "Jessamund 700 touring frame (invented), Dunmere 4 rear (invented): not proven" in picture
    told = words_of(choose_tab(page, "What to measure"))
    assert "Chainstay, front right" in told
    assert "quillfern-130" not in told


def test_pairs_are_picked_and_put_in_order(kept_table: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = choose_tab(_page(monkeypatch, kept_table, table="1"), "Pairs")
    _keyed(page.button_group, "choice_place_pairs_outcomes").set_value(["no_fit"]).run()
    _keyed(page.text_input, "choice_place_pairs_frames").set_value("trail").run()
    assert not page.exception
    rows = _rows(page)
    assert rows
    assert {(row[0], row[2]) for row in rows} == {("Quillfern 130 trail frame (invented)", "✗ does not fit")}
    box(page, "Order").set_value("longest cut first").run()
    cuts = [int(row[4]) for row in _rows(page) if row[4]]
    assert cuts == sorted(cuts, reverse=True)
    _keyed(page.text_input, "choice_place_pairs_brakes").set_value("zebra").run()
    assert "No pair is like that" in words_of(page)


def test_a_pair_is_opened_as_a_job_and_answered_alike(kept_table: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = choose_tab(_page(monkeypatch, kept_table, table="1"), "Pairs")
    told = {(row[0], row[1]): row[2] for row in _rows(page)}
    pairs = box(page, "One of these pairs")
    wanted = next(
        one for one in pairs.options if one == "Dunmere 4 rear (invented) on Quillfern 130 trail frame (invented)"
    )
    pairs.select(wanted).run()
    button(page, "Plan this pair").click().run()
    assert not page.exception
    assert told["Quillfern 130 trail frame (invented)", "Dunmere 4 rear (invented)"].endswith("fits")
    assert [outcome for outcome, _ in verdicts_of(page)] == ["fits"]


def test_longer_runs_go_on_in_the_background(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    started = _noted(monkeypatch, and_then=lambda _: None)
    page = _page(monkeypatch, tmp_path / "new.sqlite")
    _keyed(page.text_input, BRAKES).set_value("dunmere").run()
    button(page, "Decide them all").click().run()
    run = _waited_for(started)
    assert (run.refused, run.done_n, run.left()) == ("", 12, "12 of 12 frames")
    page.run()
    assert not page.exception
    assert runs() == {}
    assert _table_shown(page) == str(run.table_id)
    assert "12 frames against 1 brake" in words_of(page)


def test_a_run_that_was_stopped_says_how_to_go_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    started = _noted(monkeypatch, and_then=stop_run)
    page = _page(monkeypatch, tmp_path / "new.sqlite")
    button(page, "Decide them all").click().run()
    _waited_for(started)
    page.run()
    assert ENDED in words_of(page)
    button(page, "Put away").click().run()
    assert runs() == {}


def test_a_refusal_in_the_background_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    started = _noted(monkeypatch, and_then=lambda _: None)
    page = _page(monkeypatch, tmp_path / "new.sqlite")
    monkeypatch.setattr("ui.page.table_runs.page_store_place", lambda: str(tmp_path / "none" / "new.sqlite"))
    button(page, "Decide them all").click().run()
    _waited_for(started)
    page.run()
    assert "cannot be" in words_of(page)
    button(page, "Put away").click().run()


def _noted(monkeypatch: pytest.MonkeyPatch, *, and_then: Callable[[str], None]) -> list[Run]:
    """Every run that the page starts."""
    started: list[Run] = []

    def start(asked: TableAsked, **words: str) -> str:
        name = start_run(asked, **words)
        started.append(runs()[name])
        and_then(name)
        return name

    monkeypatch.setattr("ui.page.forms.table_form.start_run", start)
    return started


def _waited_for(started: list[Run]) -> Run:
    (run,) = started
    while not run.ended:
        time.sleep(0.05)
    return run


def _table_shown(page: AppTest) -> str:
    found = page.query_params["table"]
    return found if isinstance(found, str) else found[0]


def _rows(page: AppTest) -> list[list[str]]:
    """The cells of the pairs shown."""
    (table,) = [body for body in markup_of(page) if "lp-stacked" in body]
    rows = re.findall(r"<tr>(<td.*?)</tr>", table)
    return [
        [unescape(cell).replace("\N{NO-BREAK SPACE}", " ") for cell in re.findall(r"<td[^>]*>(.*?)</td>", row)]
        for row in rows
    ]
