"""What a sleeve holds that nobody pulled: from the shop's rubber, or not told."""

import pytest

from planner import plan_job
from planner.mechanics.press_fit import sleeve_hold_n
from planner.plan.routing_plan import Joint
from tests.builders import make_job, make_lane_frame, make_limits, make_sleeve, make_workshop


def _joint(*, holds_n: float | None, modulus_mpa: float | None, friction_ratio: float | None) -> Joint:
    limits = make_limits(sleeve_modulus_mpa=modulus_mpa, sleeve_friction_ratio=friction_ratio)
    workshop = make_workshop(make_sleeve(holds_n=holds_n), limits=limits)
    joint = plan_job(job=make_job(make_lane_frame((8.0, 8.0))), workshop=workshop).joint
    assert joint is not None
    return joint


def test_the_shop_s_rubber_gives_an_estimate() -> None:
    estimate_n = sleeve_hold_n(
        sleeve_bore_diameter_mm=4,
        sleeve_outer_diameter_mm=6,
        line_outer_diameter_mm=5,
        grip_length_mm=25,
        modulus_mpa=3,
        friction_ratio=0.1,
    )
    assert estimate_n == pytest.approx(7.52, abs=0.01)
    assert _joint(holds_n=None, modulus_mpa=3.0, friction_ratio=0.1).holds_n == estimate_n


def test_a_pull_that_was_measured_goes_before_the_estimate() -> None:
    assert _joint(holds_n=8.0, modulus_mpa=3.0, friction_ratio=0.1).holds_n == 8.0


@pytest.mark.parametrize(("modulus_mpa", "friction_ratio"), [(None, 0.1), (3.0, None), (None, None)])
def test_without_the_rubber_nothing_is_told_and_nothing_is_pulled(
    modulus_mpa: float | None, friction_ratio: float | None
) -> None:
    joint = _joint(holds_n=None, modulus_mpa=modulus_mpa, friction_ratio=friction_ratio)
    assert (joint.holds_n, joint.advice, joint.ease_up_to_n) == (None, "push_only", None)
