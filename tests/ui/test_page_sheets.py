"""What the page hands out where work may begin, and where it may not."""

import pytest

from tests.ui.page_builders import open_job, open_page
from tests.ui.test_page_plan import has_paper


@pytest.mark.parametrize(
    ("job", "label"),
    [
        ("spoke-only", "Job card (PDF)"),
        ("touring-unmeasured", "What to measure first (PDF)"),
        ("city-cable-stops", "Why there is no plan (PDF)"),
    ],
)
def test_no_job_card_is_offered_where_nothing_may_be_begun(
    monkeypatch: pytest.MonkeyPatch, job: str, label: str
) -> None:
    page = open_job(open_page(monkeypatch), job)
    names = {"Job card (PDF)", "What to measure first (PDF)", "Why there is no plan (PDF)"}
    assert [one.label for one in page.download_button if one.label in names] == [label] * has_paper()


def test_what_to_do_when_it_sticks_stands_once_at_the_step_that_feeds(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_job(open_page(monkeypatch), "front-through-fork")
    (sheet,) = (one for one in page.expander if one.label == "When it sticks or parts")
    told = " ".join(part.value for part in sheet.markdown)
    for words in ("When it sticks", "Never:", "Tape everything", "Stop and ask the maker"):
        assert words in told
    assert "When it sticks or parts" not in [
        one.label for one in open_job(open_page(monkeypatch), "city-cable-stops").expander
    ]
