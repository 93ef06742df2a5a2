"""The screen that asks for a frame: the questions of the terminal as a form, with the holes drawn, to a plan."""

from typing import Any

import pytest
from streamlit.testing.v1 import AppTest

from tests.ui.dialogue.told import TWO_HOLES
from tests.ui.page_builders import box, button, open_page, pictures_of, verdicts_of, words_of


@pytest.fixture
def page(monkeypatch: pytest.MonkeyPatch) -> AppTest:
    """The empty form, beside the starter catalog."""
    page = open_page(monkeypatch, catalog=())
    page.switch_page("screens/new_frame.py").run()
    assert not page.exception
    return page


def _fields(page: AppTest) -> dict[str, Any]:
    return {str(one.key).removeprefix("choice_new_"): one for one in [*page.text_input, *page.selectbox]}


def _tell(page: AppTest, answers: dict[str, str]) -> AppTest:
    for key, words in answers.items():
        _fields(page)[key].set_value(words).run()
        assert not page.exception
    return page


def test_only_what_must_be_told_holds_the_form_up(page: AppTest) -> None:
    assert list(_fields(page)) == ["name"]
    _tell(page, {"name": "Blue hardtail"})
    assert set(_fields(page)) == {"name", "layout", "hand", "holes"}
    assert "Next: How many holes" in words_of(page)
    assert [one.icon for one in page.info] == [":material/edit:"]  # no arrow: in a narrow window the form stands above
    assert [one.label for one in page.button] == ["Undo", "Redo", "Start again with nothing told"]


def test_a_wrong_answer_is_told_at_its_field(page: AppTest) -> None:
    _tell(page, {"name": "Blue hardtail", "holes": "2", "hole 1 place": "down 35"})
    assert any("on which side" in one.value for one in page.error)
    _tell(page, {"hole 1 place": "down 35 left"})
    assert not page.error


def test_the_holes_told_so_far_are_drawn(page: AppTest) -> None:
    _tell(page, dict(list(TWO_HOLES.items())[:4]))
    pictures = pictures_of(page)
    assert "oval: an ellipse" in pictures.pop("choice_new_shapes"), "what the words for a hole's shape mean"
    (picture,) = pictures.values()
    assert "35 mm from its upper end" in picture
    assert "600 mm" not in picture


def test_from_nothing_to_a_plan(page: AppTest) -> None:
    _tell(page, {**TWO_HOLES, "hole 1 tilt": "30..40"})
    assert "the tilt at hole 2" in words_of(page)
    assert "the tilt at hole 1" not in words_of(page)
    button(page, "Plan with this frame").click().run()
    assert not page.exception
    assert box(page, "Frame").value == "blue-hardtail"
    page.switch_page("screens/plan_a_job.py").run()
    box(page, "Comes off").select(("brake", "wexcombe-2-rear")).run()
    box(page, "Goes on").select(("brake", "dunmere-4-rear")).run()
    box(page, "Line starts at").select("bar-right").run()
    ((outcome, _),) = verdicts_of(page)
    assert outcome == "fits"


def test_the_draft_stays_while_another_screen_is_looked_at(page: AppTest) -> None:
    _tell(page, dict(list(TWO_HOLES.items())[:3]))
    page.switch_page("screens/will_it_pass.py").run()
    page.switch_page("screens/new_frame.py").run()
    assert _fields(page)["hole 1 place"].value == "down 35 left"
    button(page, "Start again with nothing told").click().run()
    assert _fields(page)["name"].value == ""


def test_the_same_frame_may_be_told_again_after_it_was_planned_with(page: AppTest) -> None:
    _tell(page, TWO_HOLES)
    button(page, "Plan with this frame").click().run()
    page.switch_page("screens/new_frame.py").run()
    assert not page.error
    _tell(page, {"hole 2 opening": "6.9"})
    assert button(page, "Plan with this frame")
