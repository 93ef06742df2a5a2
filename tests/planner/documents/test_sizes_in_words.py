"""Sizes are told as fine as they are measured: no hundredths of a tape."""

import re

import pytest

from planner.documents.words.sizes_in_words import reach_millimetres, tape_millimetres
from planner.documents.words.wording import sentence_for
from planner.outcomes import Outcome
from planner.rules import JointRule, LengthRule, Measure, Rule, every_rule
from planner.verdicts import Check

TAPED = [rule for rule in every_rule() if rule.row.measures in (Measure.LENGTH, Measure.RADIUS)]


@pytest.mark.parametrize("rule", TAPED, ids=str)
def test_no_length_along_a_line_and_no_radius_is_told_in_hundredths(rule: Rule) -> None:
    for answer in rule.row.says:
        outcome, note = (answer, "") if isinstance(answer, Outcome) else answer
        check = Check(rule=rule, outcome=outcome, note=note, size_mm=58.05, available_mm=32.41, clearance_mm=-25.64)
        assert not re.search(r"\d\.\d", sentence_for(check))


def test_a_shortage_below_a_millimetre_is_not_told_as_none() -> None:
    check = Check(
        rule=LengthRule.SUPPLIED_LENGTH, outcome=Outcome.NO_FIT, size_mm=1500, available_mm=1499.6, clearance_mm=-0.4
    )
    assert "is 0.4 mm too short" in sentence_for(check)


def test_a_reach_that_passes_is_rounded_down() -> None:
    """14.82 passes, 15 would not."""
    assert reach_millimetres(14.82) == "14 mm"
    check = Check(rule=JointRule.SPOKE_REACH, outcome=Outcome.TIGHT, run_id="guide", with_ids=("spoke",), size_mm=14.82)
    assert sentence_for(check).startswith("spoke would pass with a reach of 14 mm")


def test_what_was_not_measured_is_not_a_size() -> None:
    assert tape_millimetres(None) == reach_millimetres(None) == "not measured"
