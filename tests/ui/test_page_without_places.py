"""The page on frames that are told by their holes alone and by tape: strip, lengths, picked hole, catalog."""

import pytest

from tests.ui.page_builders import open_job, open_page, pictures_of, verdicts_of, words_of


@pytest.mark.parametrize(
    ("job", "told"),
    [("holes-only", "lay it in, then mark"), ("taped-lengths", "because lengths were measured by tape or wire")],
)
def test_a_plan_without_places_is_shown_with_a_strip(job: str, told: str, monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), job)
    assert not page.exception
    ((outcome, _),) = verdicts_of(page)
    assert outcome == "fits"
    assert told in words_of(page)
    assert "holes in order" in pictures_of(page)["side_view"]
    assert not page.slider, "nothing is described that could be turned in the picture"


def test_the_catalog_shows_a_frame_without_places(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, screen="catalog", kind="frame", id="ottermoss-29")
    assert "ports_ottermoss-29" in pictures_of(page)
