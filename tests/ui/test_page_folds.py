"""No error hides behind a fold: one in which something is wrong lies open when the form is opened again."""

import pytest
from streamlit.testing.v1 import AppTest

from tests.ui.page_builders import box, open_job, open_page
from ui.page.session import CHANGE_KEY

MORE, DETAILS = "Lines that stay, rotor, what is allowed", "Way and length of the old line, supplied length, bare ends"

VISIT_FOLD = "Its way, supplied length, rotor"


def _open_folds(page: AppTest) -> list[str]:
    return [one.label for one in page.expander if one.label in (MORE, DETAILS) and one.proto.expanded]


def _type(page: AppTest, label: str, words: str) -> None:
    (field,) = [one for one in page.text_input if one.label.startswith(label)]
    field.set_value(words).run()
    assert not page.exception


def _put_away_and_open(page: AppTest) -> None:
    for is_open in (False, False, True):
        page.session_state[CHANGE_KEY] = is_open
        page.run()
    assert not page.exception


@pytest.mark.parametrize(
    ("label", "wrong", "right", "fold"),
    [
        ("Rotor wanted", "abc", "180", MORE),
        ("Rotor wanted", "-5", "180", MORE),
        ("New line supplied", "long", "2100", DETAILS),
        ("New line supplied", "-1", "2100", DETAILS),
    ],
)
def test_a_fold_with_an_error_lies_open_until_it_is_right_and_the_form_was_put_away(
    monkeypatch: pytest.MonkeyPatch, label: str, wrong: str, right: str, fold: str
) -> None:
    page = open_job(open_page(monkeypatch), "trail-rear-brake")
    assert _open_folds(page) == []
    _type(page, label, wrong)
    _put_away_and_open(page)
    assert _open_folds(page) == [fold]
    _type(page, label, right)
    page.run()
    assert _open_folds(page) == [fold], "it is not closed under the hands of somebody who types"
    _put_away_and_open(page)
    assert _open_folds(page) == []


def test_a_line_of_a_visit_lies_open_where_something_in_it_is_wrong(monkeypatch: pytest.MonkeyPatch) -> None:
    page = open_page(monkeypatch, screen="several_lines")
    box(page, "Frame").select("dorrimel-120").run()
    folds = [one.proto.expanded for one in page.expander if one.label == VISIT_FOLD]
    assert folds == [False]
    for words, is_open in (("18o", True), ("180", True)):
        _type(page, "Rotor wanted", words)
        page.run()
        assert [one.proto.expanded for one in page.expander if one.label == VISIT_FOLD] == [is_open]
