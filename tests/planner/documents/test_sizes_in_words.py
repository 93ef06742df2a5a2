"""Sizes are told as fine as they are measured: no hundredths of a tape."""

import re
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis.strategies import floats

from planner import plan_job
from planner.documents.words.check_words import sentence_for
from planner.documents.words.sizes_in_words import finely, millimetres, reach_millimetres, tape_millimetres
from planner.outcomes import Outcome
from planner.rules import JointRule, LengthRule, Measure, PlaceRule, Rule, every_rule
from planner.verdicts import Check
from tests.ui.noes_of_every_sort import demo_catalog, demo_job

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


@given(length_mm=floats(-99, 99).filter(lambda length_mm: abs(length_mm) > 1e-8))
def test_what_is_not_nothing_is_never_told_as_nothing(length_mm: float) -> None:
    for told in (millimetres(length_mm), tape_millimetres(length_mm)):
        assert float(told.removesuffix(" mm")) != 0
        assert told.startswith("-") is (length_mm < 0)
    assert float(finely(length_mm, digits=3)) == pytest.approx(length_mm, abs=0.0005001)


def test_nothing_has_no_sign() -> None:
    assert (millimetres(0.0), millimetres(-0.0), millimetres(-1e-12)) == ("0.00 mm", "0.00 mm", "0.00 mm")


def test_a_hole_missed_by_less_than_a_hundredth_is_told_to_be_missed() -> None:
    check = Check(
        rule=PlaceRule.PORT_CLEARANCE,
        outcome=Outcome.NO_FIT,
        port_id="neck",
        size_mm=5.0004,
        available_mm=5.0,
        clearance_mm=-0.0004,
    )
    assert "0.0004 mm missing" in sentence_for(check)


def test_a_rotor_is_told_as_it_was_typed_and_never_rounded_to_one_that_fits() -> None:
    job, workshop = demo_job("trail-rear-brake"), demo_catalog().workshop
    for rotor_mm, told in ((180.0, "a rotor of 180 mm"), (180.5, "a rotor of 180.5 mm"), (99.5, "a rotor of 99.5 mm")):
        plan = plan_job(job=replace(job, rotor_mm=rotor_mm), workshop=workshop)
        sentences = [sentence_for(check, names=plan.names) for check in plan.checks]
        assert [one for one in sentences if told in one], rotor_mm
