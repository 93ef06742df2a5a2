"""Every place says what to do where nothing is there yet, and leads there."""

from pathlib import Path

import pytest

from tests.ui.page_builders import open_page, words_of

SAYS = {
    "plan_a_job": "This catalog has no frames yet: tell one hole by hole, open catalog files, or try it",
    "several_lines": "This catalog has no frames yet: tell one hole by hole",
    "frames_and_brakes": "This catalog has no frames yet: tell one hole by hole",
    "new_frame": "Next: Name of the frame?",
    "new_job": "This catalog has no frames yet: tell one hole by hole",
    "will_it_pass": "Give the size of the hole and at least one thing that is to pass it.",
    "check_files": "Drop one or more files above",
    "jobs": "No job is kept here yet: plan one, then press Save.",
    "bench": "Choose a job first; where none is kept yet, plan one and press Save.",
    "cuts": "Choose jobs or pieces, and stock to cut them from.",
    "catalog": "Frames: none in this catalog yet; tell one under New frame, or open catalog files under Check files.",
    "shop": "Nothing to buy: no open job takes a small part. Save a job with its plan, and its parts stand here.",
}


def test_every_place_there_is_is_looked_at() -> None:
    screens = Path(__file__).parents[2] / "ui" / "page" / "screens"
    assert set(SAYS) == {path.stem for path in screens.glob("*.py")} - {"__init__"}


def test_every_empty_place_says_what_to_do(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, catalog=(), store=tmp_path / "shop.db")
    for screen, says in SAYS.items():
        page.switch_page(f"screens/{screen}.py").run()
        assert not page.exception, screen
        assert says in words_of(page), screen


def test_a_store_with_frames_alone_says_what_is_lacking(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from tests.ui.test_figure_text import FRAME

    frame = tmp_path / "plain.frame.yaml"
    frame.write_text(FRAME, encoding="utf-8")
    monkeypatch.setenv("LINEPLAN_BARE", "1")
    page = open_page(monkeypatch, catalog=(frame,), store=tmp_path / "shop.db")
    assert not page.exception
    assert "This catalog has no brakes and no lines yet: enter them under Catalog" in words_of(page)
