"""What a housing takes from the hand."""

from math import degrees, log

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.mechanics.hand_force import check_hand_force, hand_force_loss_ratio
from planner.verdicts import Outcome


def test_lined_housing_with_one_full_turn_loses_a_third() -> None:
    assert hand_force_loss_ratio(friction_ratio=0.06, turn_deg=360) == pytest.approx(1 - 1 / 1.457891, abs=1e-6)


@given(friction_ratio=st.floats(0.01, 0.4), turn_deg=st.floats(0, 700))
def test_share_lost_lies_between_nothing_and_all(friction_ratio: float, turn_deg: float) -> None:
    assert 0 <= hand_force_loss_ratio(friction_ratio=friction_ratio, turn_deg=turn_deg) < 1


@pytest.mark.parametrize(("past_limit", "outcome"), [(-1e-6, Outcome.FITS), (0, Outcome.FITS), (1e-6, Outcome.TIGHT)])
def test_caution_begins_just_above_the_shop_limit(past_limit: float, outcome: Outcome) -> None:
    half_lost_deg = degrees(log(2) / 0.1)
    limit_ratio = hand_force_loss_ratio(friction_ratio=0.1, turn_deg=half_lost_deg)
    check = check_hand_force(
        friction_ratio=0.1, turn_deg=half_lost_deg * (1 + past_limit), loss_limit_ratio=limit_ratio
    )
    assert (check.rule, check.outcome, check.note) == ("hand_force", outcome, "50 %")


def test_unknown_friction_is_not_guessed() -> None:
    check = check_hand_force(friction_ratio=None, turn_deg=300, loss_limit_ratio=0.35)
    assert (check.outcome, check.note) == (Outcome.UNKNOWN, "")
