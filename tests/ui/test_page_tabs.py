"""Bodies behind tabs: only the one looked at is drawn, and nothing chosen behind another is lost."""

import pytest

from tests.ui.page_builders import box, choose_tab, open_job, open_page, pictures_of


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
