"""The chance of a fit within 0.02 of drawn sizes, for openings of every shape with one to three things.

The full run of 200 openings of each is `python -m tests.planner.fit.chance_draws`.
"""

import pytest

from tests.planner.fit.chance_draws import SHAPES, differences

CASES = [(shape, seed) for shape in SHAPES for seed in range(1 if shape == "outline" else 4)]


@pytest.mark.parametrize("things", [1, 2])
@pytest.mark.parametrize(("shape", "seed"), CASES)
def test_one_and_two_things_in_every_shape(shape: str, things: int, seed: int) -> None:
    told, off = differences(shape, things, 1000 + seed)
    assert 0 <= told <= 1
    assert abs(off) <= 0.02


@pytest.mark.parametrize("shape", ["slot", "box"])
def test_three_things(shape: str) -> None:
    _, off = differences(shape, 3, 1000)
    assert abs(off) <= 0.02
