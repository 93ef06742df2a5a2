"""What a joint holds, and what the hands may do."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.mechanics.joint_hold import JointHold, decide_pull, joint_hold
from planner.mechanics.press_fit import sleeve_hold_n
from planner.parts import LeaderLine, Method, PullWord, SleeveTube, SpokeLink, ThreadedCoupler
from tests.planner.mechanics.samples import HOSE_50, HOSE_55

STUD = ThreadedCoupler(
    id="stud",
    name="Stud (invented)",
    stud_diameter_mm=2.6,
    stud_length_mm=9,
    collar_diameter_mm=4.6,
    collar_length_mm=3,
    holds_n=60,
    setup_min=6,
)
SLEEVE = SleeveTube(
    id="sleeve",
    name="Sleeve (invented)",
    bore_diameter_mm=4,
    outer_diameter_mm=6,
    grip_length_mm=25,
    holds_n=None,
    setup_min=4,
)
SPOKE = SpokeLink(id="spoke", name="Spoke (invented)", rod_diameter_mm=2, reach_mm=20, holds_n=0, setup_min=5)
LEADER = LeaderLine(
    id="leader",
    name="Leader (invented)",
    outer_diameter_mm=1.5,
    joint_diameter_mm=5.2,
    joint_length_mm=0,
    holds_n=None,
    setup_min=8,
)


@pytest.mark.parametrize(
    ("method", "expected"),
    [
        (STUD, JointHold(holds_n=60, basis="given")),
        (SPOKE, JointHold(holds_n=0, basis="by its nature")),
        (LEADER, JointHold(holds_n=None, basis="")),
        (SLEEVE, JointHold(holds_n=None, basis="")),
    ],
    ids=["threaded as given", "spoke holds nothing", "leader nobody measured", "sleeve of unknown rubber"],
)
def test_hold_without_rubber_figures(method: Method, expected: JointHold) -> None:
    assert joint_hold(method=method, old_line=HOSE_50, new_line=HOSE_55) == expected


def test_sleeve_is_as_strong_as_its_grip_on_the_thinner_line() -> None:
    hold = joint_hold(
        method=SLEEVE, old_line=HOSE_55, new_line=HOSE_50, sleeve_modulus_mpa=3, sleeve_friction_ratio=0.5
    )
    thin_n = sleeve_hold_n(
        sleeve_bore_diameter_mm=4,
        sleeve_outer_diameter_mm=6,
        line_outer_diameter_mm=5.0,
        grip_length_mm=25,
        modulus_mpa=3,
        friction_ratio=0.5,
    )
    assert hold == JointHold(holds_n=thin_n, basis="stretched rubber")


def test_sleeve_with_nothing_to_join_has_no_hold() -> None:
    hold = joint_hold(method=SLEEVE, old_line=None, new_line=HOSE_50, sleeve_modulus_mpa=3, sleeve_friction_ratio=0.5)
    assert hold.holds_n is None


@pytest.mark.parametrize(
    ("holds_n", "advice", "ease_up_to_n"),
    [
        (0, PullWord.PUSH_ONLY, None),
        (14.999, PullWord.PUSH_ONLY, None),
        (15, PullWord.EASE_GENTLY, 10),
        (29.999, PullWord.EASE_GENTLY, pytest.approx(19.999, abs=0.001)),
        (30, PullWord.MAY_PULL, 10),
        (60, PullWord.MAY_PULL, 20),
    ],
)
def test_advice_changes_at_the_shop_s_margins(holds_n: float, advice: PullWord, ease_up_to_n: float | None) -> None:
    found = decide_pull(holds_n=holds_n, drag_n=10, pull_margin_ratio=3, ease_margin_ratio=1.5)
    assert (found.advice, found.ease_up_to_n) == (advice, ease_up_to_n)
    assert found.margin_ratio == pytest.approx(holds_n / 10)


@pytest.mark.parametrize(("holds_n", "drag_n"), [(None, 10), (60, None), (None, None)])
def test_what_is_not_known_to_hold_is_not_pulled(holds_n: float | None, drag_n: float | None) -> None:
    found = decide_pull(holds_n=holds_n, drag_n=drag_n, pull_margin_ratio=3, ease_margin_ratio=1.5)
    assert (found.advice, found.ease_up_to_n, found.margin_ratio) == (PullWord.PUSH_ONLY, None, None)


@pytest.mark.parametrize(
    ("holds_n", "drag_n", "advice"),
    [(0.6, 0.1, PullWord.MAY_PULL), (0.2, 0.1, PullWord.EASE_GENTLY), (0.1, 0.0, PullWord.MAY_PULL)],
)
def test_small_forces_count_as_large_ones_do(holds_n: float, drag_n: float, advice: PullWord) -> None:
    found = decide_pull(holds_n=holds_n, drag_n=drag_n, pull_margin_ratio=3, ease_margin_ratio=1.5)
    assert found.advice is advice
    assert found.margin_ratio == (pytest.approx(holds_n / drag_n) if drag_n else None)


@pytest.mark.parametrize(("modulus_mpa", "friction_ratio"), [(3.0, None), (None, 0.5)])
def test_half_of_what_a_sleeve_asks_is_not_enough(modulus_mpa: float | None, friction_ratio: float | None) -> None:
    hold = joint_hold(
        method=SLEEVE,
        old_line=HOSE_55,
        new_line=HOSE_50,
        sleeve_modulus_mpa=modulus_mpa,
        sleeve_friction_ratio=friction_ratio,
    )
    assert hold == JointHold(holds_n=None, basis="")


def test_joint_that_holds_nothing_is_pushed_even_without_drag() -> None:
    found = decide_pull(holds_n=0, drag_n=0, pull_margin_ratio=3, ease_margin_ratio=1.5)
    assert (found.advice, found.margin_ratio) == (PullWord.PUSH_ONLY, None)


@given(holds_n=st.floats(0, 200), drag_n=st.floats(0.01, 100), ease=st.floats(1, 3), more=st.floats(0, 3))
def test_pull_allowed_lies_between_the_drag_and_the_hold(
    holds_n: float, drag_n: float, ease: float, more: float
) -> None:
    found = decide_pull(holds_n=holds_n, drag_n=drag_n, pull_margin_ratio=ease + more, ease_margin_ratio=ease)
    if found.ease_up_to_n is not None:
        assert drag_n * (1 - 1e-12) <= found.ease_up_to_n <= holds_n
    else:
        assert holds_n < drag_n * ease


@pytest.mark.parametrize(
    ("pull", "ease", "message"),
    [
        (3, 0.9, "ease_margin_ratio: 0.9 .* must be at least 1"),
        (1.4, 1.5, "pull_margin_ratio: 1.4 .* must be at least the easing margin, 1.5"),
    ],
)
def test_margins_that_would_overload_the_joint_are_refused(pull: float, ease: float, message: str) -> None:
    with pytest.raises(ImpossibleDimensionError, match=message):
        decide_pull(holds_n=10, drag_n=1, pull_margin_ratio=pull, ease_margin_ratio=ease)


def test_negative_force_is_refused() -> None:
    with pytest.raises(ImpossibleDimensionError, match="holds_n: -1 N was given; it must not be negative"):
        decide_pull(holds_n=-1, drag_n=1, pull_margin_ratio=3, ease_margin_ratio=1.5)
