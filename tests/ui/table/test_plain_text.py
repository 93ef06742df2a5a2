"""What goes to other processes is text, comes back the same, and nothing unknown is made from it."""

from dataclasses import replace
from pathlib import Path

import pytest

from catalog import read_catalog, read_job
from planner import book_of, decide_case, look_of
from tests.planner.table.realistic import brakes_of, cases_of
from ui.table.plain_text import NotPlainText, from_text, to_text

DEMO = Path(__file__).parents[3] / "demo_frames"


@pytest.mark.parametrize("name", ["trail-rear-brake", "holes-only"])
def test_every_part_comes_back_as_it_was(name: str) -> None:
    catalog = read_catalog(sorted(DEMO.glob("*.frame.yaml")), over_starter=True)
    job = read_job(DEMO / f"{name}.job.yaml", catalog)
    for thing in (job, catalog.workshop):
        text = to_text(thing)
        assert "\n" not in text
        assert from_text(text) == thing
        assert to_text(from_text(text)) == text
    methods = from_text(to_text(catalog.workshop.methods))
    assert [type(method) for method in methods] == [type(method) for method in catalog.workshop.methods]


def test_answers_come_back_as_they_were() -> None:
    case, brakes = next(cases_of(1)), brakes_of(3)
    answers = decide_case(case=case, book=book_of(tuple(map(look_of, brakes)), read_catalog().workshop))
    assert from_text(to_text(answers)) == answers


def test_the_same_set_has_the_same_text() -> None:
    frame = next(cases_of(1)).frame
    one, other = (replace(frame, in_words=frozenset(words)) for words in (("a", "b", "c"), ("c", "b", "a")))
    assert to_text(one) == to_text(other)


@pytest.mark.parametrize(
    "text", ["{", '{"is":"Popen","of":[]}', '{"enum":["Outcome",7]}', '{"is":"Zone","of":[]}', '{"decimal":"x"}', "{}"]
)
def test_any_other_text_is_refused(text: str) -> None:
    with pytest.raises(NotPlainText, match=r".+"):
        from_text(text)
