"""A table as a picture: every pair once, by shape and word, within its paper; and what decides a pair in words."""

import re

import pytest

from planner import decider_words, draw_table, outcome_word, rule_words
from planner.rules import every_rule
from planner.verdicts import Outcome

FRAMES = ["Invented trail frame with a name too long for one row", "Other"]
BRAKES = [f"Brake number {n}" for n in range(23)]
OUTCOMES = [[Outcome((row + column) % 4) for column in range(23)] for row in range(2)]


@pytest.mark.parametrize("width_mm", [96.0, 190.0])
def test_every_pair_is_drawn_once_within_the_paper(width_mm: float) -> None:
    picture = draw_table(frames=FRAMES, brakes=BRAKES, outcomes=OUTCOMES, width_mm=width_mm)
    titles = re.findall(r'<g class="pair"><title>([^<]*)</title>', picture.svg)
    assert sorted(titles) == sorted(
        f"{frame}, {brake}: {outcome_word(outcome)}"
        for frame, row in zip(FRAMES, OUTCOMES, strict=True)
        for brake, outcome in zip(BRAKES, row, strict=True)
    )
    assert all(f">{number + 1}</text>" in picture.svg for number in range(len(BRAKES)))
    assert max(float(x) for x in re.findall(r' x="([\d.]+)"', picture.svg)) < width_mm
    assert max(float(y) for y in re.findall(r' y="([\d.]+)"', picture.svg)) < picture.height_mm


def test_the_outcomes_differ_by_more_than_their_colours() -> None:
    shapes = set()
    for outcome in Outcome:
        svg = draw_table(frames=["A"], brakes=["B"], outcomes=[[outcome]]).svg
        mark = svg[svg.index('class="pair"') : svg.index("</g>", svg.index('class="pair"'))]
        shapes.add(tuple(re.findall(r"<(circle|path|rect|text)", mark)))
    assert len(shapes) == len(Outcome)


def test_what_decides_is_told_in_words_for_every_rule() -> None:
    for rule in every_rule():
        told = decider_words(rule=rule.value, place="Neck, left", clearance_mm=-1.5)
        assert told.startswith(f"Neck, left: {rule_words(rule.value)}, ")
        assert "_" not in told
    assert decider_words(rule="", place="", clearance_mm=None) == "Nothing was asked"
