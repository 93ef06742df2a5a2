"""Job time: against a hundred thousand drawn jobs, and by its own laws."""

from dataclasses import replace
from decimal import Decimal
from math import sqrt

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from planner.errors import ImpossibleDimensionError
from planner.parts import Minutes, SpokeLink, WorkStep
from planner.plan.job_time import JobTime, Repeat, estimate_job_time, find_job_time
from tests.planner.plan.quote_samples import make_workshop

DRAWS = 100_000


def _minutes(least: float, likely: float, most: float) -> Minutes:
    return Minutes(least=least, likely=likely, most=most)


three_points = st.tuples(st.floats(0, 60), st.floats(0, 60), st.floats(0, 60)).map(
    lambda points: _minutes(*sorted(points))
)

BRAKE_SWAP = [
    _minutes(*points)
    for points in [
        (2, 4, 8),
        (3, 5, 10),
        (1, 2, 4),
        (1, 3, 8),
        (2, 4, 8),
        (1, 2, 4),
        (6, 6, 6),
        (2, 4, 8),
        (3, 6, 15),
        (1, 2, 4),
        (10, 20, 40),
        (2, 3, 6),
        (3, 5, 10),
        (2, 5, 10),
    ]
]


@pytest.mark.parametrize(
    ("steps", "repeats"),
    [
        (BRAKE_SWAP, []),
        (BRAKE_SWAP, [Repeat(minutes=_minutes(8, 14, 30), chance=0.2)]),
        (BRAKE_SWAP, [Repeat(minutes=_minutes(8, 14, 30), chance=0.5)]),
        ([_minutes(5, 15, 45)], []),
        ([_minutes(0, 0, 10), _minutes(0, 10, 10)], []),
        ([_minutes(10, 20, 40), _minutes(5, 15, 45), _minutes(1, 1, 1)], []),
    ],
    ids=["brake swap", "joint that fails at times", "joint that fails often", "one step", "lopsided", "two long ones"],
)
def test_range_is_that_of_a_hundred_thousand_drawn_jobs(steps: list[Minutes], repeats: list[Repeat]) -> None:
    drawn_min = _draw(steps, repeats)
    found = estimate_job_time(steps=steps, repeats=repeats)
    low_min, high_min = np.quantile(drawn_min, [0.1, 0.9])
    assert float(found.mean_min) == pytest.approx(drawn_min.mean(), rel=0.01)
    assert found.low_min == pytest.approx(low_min, rel=0.02)
    assert found.high_min == pytest.approx(high_min, rel=0.02)
    within = ((drawn_min >= found.low_min) & (drawn_min <= found.high_min)).mean()
    assert within == pytest.approx(0.8, abs=0.01)


@pytest.mark.parametrize("minutes", [_minutes(10, 20, 30), _minutes(0, 0, 10), _minutes(4, 10, 10)])
def test_one_step_has_the_range_of_its_triangle(minutes: Minutes) -> None:
    width = minutes.most - minutes.least
    rise, fall = minutes.likely - minutes.least, minutes.most - minutes.likely
    low_min = (
        minutes.least + sqrt(0.1 * width * rise) if rise >= 0.1 * width else minutes.most - sqrt(0.9 * width * fall)
    )
    high_min = (
        minutes.most - sqrt(0.1 * width * fall) if fall >= 0.1 * width else minutes.least + sqrt(0.9 * width * rise)
    )
    found = estimate_job_time(steps=[minutes])
    assert found.low_min == pytest.approx(low_min, abs=0.002)
    assert found.high_min == pytest.approx(high_min, abs=0.002)


def test_sure_steps_have_no_range() -> None:
    found = estimate_job_time(steps=[_minutes(5, 5, 5), _minutes(7, 7, 7)])
    assert found == JobTime(mean_min=Decimal(12), low_min=12, high_min=12)


def test_no_steps_take_no_time() -> None:
    assert estimate_job_time(steps=[]) == JobTime(mean_min=Decimal(0), low_min=0, high_min=0)


@settings(max_examples=40, deadline=None)
@given(steps=st.lists(three_points, min_size=1, max_size=6), extra=three_points)
@example(steps=[_minutes(0, 0, 0)], extra=_minutes(0, 5e-324, 0.125))
@example(steps=[_minutes(0, 0, 0)], extra=_minutes(0, 0.125 - 1e-17, 0.125))
def test_one_more_step_never_makes_a_job_quicker(steps: list[Minutes], extra: Minutes) -> None:
    shorter, longer = estimate_job_time(steps=steps), estimate_job_time(steps=[*steps, extra])
    slack_min = 0.02
    assert longer.mean_min >= shorter.mean_min
    assert longer.low_min >= shorter.low_min - slack_min
    assert longer.high_min >= shorter.high_min - slack_min


@settings(max_examples=40, deadline=None)
@given(steps=st.lists(three_points, min_size=1, max_size=6))
def test_range_lies_between_the_least_and_the_most(steps: list[Minutes]) -> None:
    found = estimate_job_time(steps=steps)
    least, most = sum(step.least for step in steps), sum(step.most for step in steps)
    assert least - 1e-9 <= found.low_min <= found.high_min <= most + 1e-9
    assert least - 1e-9 <= float(found.mean_min) <= most + 1e-9


@settings(max_examples=20, deadline=None)
@given(steps=st.lists(three_points, min_size=1, max_size=4), order=st.randoms(use_true_random=False))
def test_order_of_the_steps_does_not_matter(steps: list[Minutes], order: object) -> None:
    shuffled = list(steps)
    order.shuffle(shuffled)  # type: ignore[attr-defined]
    one, other = estimate_job_time(steps=steps), estimate_job_time(steps=shuffled)
    assert one.low_min == pytest.approx(other.low_min, abs=1e-6)
    assert one.high_min == pytest.approx(other.high_min, abs=1e-6)


@pytest.mark.parametrize(("chance", "mean_min"), [(0, 20), (0.2, 22.5), (0.5, 30)])
def test_work_that_fails_is_done_again_until_it_holds(chance: float, mean_min: float) -> None:
    repeat = Repeat(minutes=_minutes(5, 10, 15), chance=chance)
    found = estimate_job_time(steps=[_minutes(10, 20, 30)], repeats=[repeat])
    assert found.mean_min == Decimal(str(mean_min))


@pytest.mark.parametrize("chance", [-0.1, 1.0, float("nan")])
def test_work_that_never_holds_is_refused(chance: float) -> None:
    with pytest.raises(ImpossibleDimensionError, match=r"chance: .* must be from 0 to below 1"):
        estimate_job_time(steps=[], repeats=[Repeat(minutes=_minutes(1, 2, 3), chance=chance)])


@pytest.mark.parametrize("minutes", [_minutes(3, 2, 4), _minutes(1, 5, 4), _minutes(-1, 2, 3)])
def test_estimate_out_of_order_is_refused(minutes: Minutes) -> None:
    with pytest.raises(ImpossibleDimensionError, match=r"likely: .* must lie between least and most"):
        estimate_job_time(steps=[minutes])


@pytest.mark.parametrize(("fail_chance", "mean_min"), [(None, 5 + 20 + 6), (0.0, 5 + 20 + 6), (0.5, 5 + 20 + 6 + 25)])
def test_plan_s_time_counts_setup_and_what_a_failing_joint_has_done_again(
    fail_chance: float | None, mean_min: float
) -> None:
    method = SpokeLink(
        id="spoke",
        name="Spoke (invented)",
        rod_diameter_mm=2,
        reach_mm=20,
        holds_n=0,
        setup_min=5,
        fail_chance=fail_chance,
    )
    steps = (
        WorkStep(id="feed", text="", why="", minutes=_minutes(10, 20, 30), is_redone=True),
        WorkStep(id="test", text="", why="", minutes=_minutes(3, 6, 9)),
        WorkStep(id="not-done", text="", why="", minutes=_minutes(100, 100, 100)),
    )
    workshop = replace(make_workshop(), steps=steps)
    time = find_job_time(step_ids=("feed", "test"), method=method, workshop=workshop)
    assert time.mean_min == mean_min


def _draw(steps: list[Minutes], repeats: list[Repeat]) -> np.ndarray:
    chance = np.random.default_rng(20)
    drawn_min = np.zeros(DRAWS)
    for step in steps:
        drawn_min += _draw_one(step, chance)
    for repeat in repeats:
        times = chance.geometric(1 - repeat.chance, DRAWS) - 1
        for done in range(times.max()):
            drawn_min += np.where(times > done, _draw_one(repeat.minutes, chance), 0.0)
    return drawn_min


def _draw_one(minutes: Minutes, chance: np.random.Generator) -> np.ndarray:
    if minutes.least == minutes.most:
        return np.full(DRAWS, minutes.least)
    return chance.triangular(minutes.least, minutes.likely, minutes.most, DRAWS)
