"""What the page makes once, known by the very things it was made of; files of the catalog read once a click."""

import shutil
from dataclasses import dataclass
from pathlib import Path

import pytest

from catalog import STARTER_FOLDER, Catalog
from tests.ui.page_builders import DEMO_FOLDER, box, open_page
from ui.page import session
from ui.page.made_once import MOST, made_once


@dataclass(frozen=True)
class Thing:
    words: str


def test_the_same_thing_done_alike_is_made_once_and_an_equal_one_anew() -> None:
    made: list[str] = []

    def make(thing: Thing, how: str = "") -> str:
        return made_once(lambda: made.append(thing.words + how) or made[-1], "test", thing, how=how)  # type: ignore[func-returns-value]

    one, other = Thing("a"), Thing("b")
    assert [make(one), make(other), make(one), make(one, "x")] == ["a", "b", "a", "ax"]
    assert made == ["a", "b", "ax"]
    make(Thing("a"))
    assert made == ["a", "b", "ax", "a"]


def test_a_thing_that_is_gone_never_answers_for_one_that_took_its_place() -> None:
    for n in range(3 * MOST):
        thing = Thing(str(n))  # the memory of one that is gone is given to the next
        assert made_once(lambda thing=thing: thing.words, "test", thing) == str(n)


def test_files_are_read_once_a_click_and_again_when_they_have_changed(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    read: list[Catalog] = []
    reads = session.catalog_of_files
    monkeypatch.setattr(session, "catalog_of_files", lambda *a, **k: read.append(reads(*a, **k)) or read[-1])
    frame = Path(shutil.copy(DEMO_FOLDER / "trail.frame.yaml", tmp_path))
    page = open_page(monkeypatch, catalog=(STARTER_FOLDER, frame))
    box(page, "Frame").set_value("quillfern-130").run()
    assert len(read) == 2, "once for each of two runs"
    frame.write_text(frame.read_text("utf-8").replace("Quillfern 130 trail frame", "Another frame"), "utf-8")
    page.run()
    assert box(page, "Frame").options == ["Another frame (invented)"]
