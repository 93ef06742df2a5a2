"""The screen that asks for a job: the questions of the terminal as a form, to a plan."""

from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from tests.ui.page_builders import box, button, open_page, verdicts_of, words_of


@pytest.fixture
def page(monkeypatch: pytest.MonkeyPatch) -> AppTest:
    """The empty form, beside the invented frames."""
    page = open_page(monkeypatch)
    page.switch_page("screens/new_job.py").run()
    assert not page.exception
    return page


def _fields(page: AppTest) -> dict[str, Any]:
    return {str(one.key).removeprefix("choice_told_"): one for one in [*page.text_input, *page.selectbox]}


def _tell(page: AppTest, answers: dict[str, str]) -> AppTest:
    for key, words in answers.items():
        _fields(page)[key].set_value(words).run()
        assert not page.exception
    return page


TRAIL = {"frame": "quillfern-130", "old": "wexcombe-2-rear", "new": "dunmere-4-rear"}


def test_one_question_leads_to_the_next(page: AppTest) -> None:
    assert list(_fields(page)) == ["frame"]
    _tell(page, {"frame": "quillfern-130"})
    assert "old" in _fields(page)
    assert "Next: What is in it" in words_of(page)


def test_from_nothing_to_a_plan(page: AppTest) -> None:
    _tell(page, TRAIL)
    button(page, "Plan this job").click().run()
    assert not page.exception
    page.switch_page("screens/plan_a_job.py").run()
    assert box(page, "Frame").value == "quillfern-130"
    ((outcome, _),) = verdicts_of(page)
    assert outcome in ("fits", "tight")


def test_a_wrong_answer_is_told_at_its_field_and_holds_the_plan_up(page: AppTest) -> None:
    _tell(page, {**TRAIL, "rotor": "big"})
    assert page.error
    assert "Plan this job" not in [one.label for one in page.button]
    _tell(page, {"rotor": "180"})
    assert not page.error
    assert "Plan this job" in [one.label for one in page.button]


def test_it_can_be_begun_again(page: AppTest) -> None:
    _tell(page, TRAIL)
    button(page, "Start again with nothing told").click().run()
    assert list(_fields(page)) == ["frame"]


def test_an_empty_catalog_says_what_to_do_first(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, catalog=())
    page.switch_page("screens/new_job.py").run()
    assert "no frames yet: tell one hole by hole" in words_of(page)
