"""A long list is searched on the server: the page never holds all of a large catalog."""

from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from tests.ui.page_builders import box, open_job, open_page, words_of
from ui.page.forms import ask_among
from ui.page.session import demo_frames

SEARCH = "Search frames"
FRAMES_N = len(demo_frames())


def _page(monkeypatch: pytest.MonkeyPatch, *, most_n: int, screen: str = "") -> AppTest:
    """A page whose lists offer so many at once."""
    monkeypatch.setattr(ask_among, "MOST_OFFERED", most_n)
    return open_page(monkeypatch, screen=screen)


def _searches(page: AppTest, label: str = SEARCH) -> list[Any]:
    return [one for one in page.text_input if one.label == label]


def _ids(page: AppTest, label: str) -> list[str]:
    """The first word of each that is offered."""
    return [str(one).partition(" ")[0] for one in box(page, label).options]


@pytest.mark.parametrize(("most_n", "is_searched"), [(FRAMES_N, False), (FRAMES_N - 1, True), (2, True)])
def test_there_is_a_field_to_search_in_where_more_than_a_list_holds(
    monkeypatch: pytest.MonkeyPatch, most_n: int, is_searched: bool
) -> None:
    page = _page(monkeypatch, most_n=most_n)
    assert len(_searches(page)) == is_searched
    assert len(box(page, "Frame").options) == most_n
    assert (f"{FRAMES_N} of them; the first {most_n} are offered." in words_of(page)) is is_searched


def test_words_narrow_the_list_and_what_is_chosen_stays(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _page(monkeypatch, most_n=3)
    _searches(page)[0].set_value("quillfern 130").run()
    assert _ids(page, "Frame") == ["Quillfern"]
    box(page, "Frame").set_value("quillfern-130").run()
    _searches(page)[0].set_value("dorrimel").run()
    assert box(page, "Frame").value == "quillfern-130"
    assert _ids(page, "Frame")[0] == "Quillfern"
    assert "Dorrimel" in _ids(page, "Frame")
    _searches(page)[0].set_value("no such frame").run()
    assert box(page, "Frame").value == "quillfern-130"
    assert f"None of the {FRAMES_N} has these words." in words_of(page)


def test_an_opened_job_shows_its_frame_and_lines_wherever_they_stand_in_the_lists(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    page = open_job(_page(monkeypatch, most_n=1), "trail-rear-brake")
    assert box(page, "Frame").value == "quillfern-130"
    assert [tuple(box(page, label).value) for label in ("Comes off", "Goes on")] == [
        ("brake", "wexcombe-2-rear"),
        ("brake", "dunmere-4-rear"),
    ]
    (search,) = _searches(page, "Goes on: search brakes and lines")
    search.set_value("wexcombe 2 rear").run()
    assert _ids(page, "Goes on") == ["Dunmere", "Wexcombe"]
    assert not page.exception


def test_several_lines_search_likewise(monkeypatch: pytest.MonkeyPatch) -> None:
    page = _page(monkeypatch, most_n=2, screen="several_lines")
    assert len(_searches(page)) == 1
