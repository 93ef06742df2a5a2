"""Why this way and no other, on the page: pictures, what stops a no, what was not measured."""

import pytest

from tests.ui.page_builders import box, choose_tab, open_job, open_page, pictures_of, without_tags, words_of


def test_every_way_that_was_tried_stands_in_one_table_and_one_of_them_along_its_places(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    page = choose_tab(open_job(open_page(monkeypatch), "trail-rear-brake"), "All ways")
    assert "decides" in pictures_of(page)["way_table"]
    assert "+0.97" in pictures_of(page)["way_strip"]
    box(page, "One way along its places").set_value(4).run()
    assert not page.exception
    assert "\N{MINUS SIGN}0.20" in pictures_of(page)["way_strip"]
    assert "does not pass Chainstay, inside" in words_of(page)


def test_a_no_shows_what_stops_it_to_scale_and_what_would_pass_there(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "city-cable-stops")
    assert "needs 5.00 mm" in pictures_of(page)["stop"]
    assert "pass there alone: Brake inner cable 1.6 (0.60 mm to spare)" in words_of(page).replace("**", "")
    box(page, "What stops it").set_value("stop-right").run()
    assert not page.exception
    assert "down tube right" in without_tags(pictures_of(page)["stop"])
