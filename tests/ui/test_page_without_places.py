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
    page = open_page(monkeypatch).switch_page("screens/browse_catalog.py").run()
    for box in page.selectbox:
        if "ottermoss-29" in box.options or any("Ottermoss" in str(option) for option in box.options):
            box.set_value(next(o for o in box.options if "ttermoss" in str(o))).run()
    assert not page.exception
