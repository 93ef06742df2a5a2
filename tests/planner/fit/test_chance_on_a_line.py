"""How far the sizes must go along a direction for things to fit: sought on rooms of which the answer is known, with the
number of places looked at, and the lattice that the directions are taken from."""

from collections.abc import Callable
from dataclasses import dataclass, field
from statistics import NormalDist
from typing import Any

import numpy as np
import pytest
from scipy.stats import multivariate_normal

from planner.errors import ImpossibleDimensionError
from planner.fit.clearance_model import CERTAIN_DEVIATIONS
from planner.fit.fit_chance import (
    _lattice_across,
    _least_by_lines,
    _normal_lattice,
    _normal_tail,
    _Truth,
    find_chance_of_fit,
)
from planner.geometry.packing.work import ROWS_OF_A_QUESTION, Allowance, Work
from planner.parts import OutlineOpening, RoundOpening
from planner.verdicts import Thing, ThingKind

FURTHEST = CERTAIN_DEVIATIONS + 1


@dataclass
class Found:
    """A clearance, and what it cost."""

    clearance_mm: float
    work_rows: int = 7


@dataclass
class Hole:
    """A hole of one size, whose room goes by a rule; counts how often it is looked at."""

    room: Callable[[float], float]
    deviations_mm: Any = field(default_factory=lambda: np.array([0.5]))
    items: tuple[Thing, ...] = (Thing(id="t", kind=ThingKind.LINE, diameter_mm=5.0, tolerance_mm=0.0),)
    looks: int = 0

    def clearance_at(self, offset_mm: Any) -> Found:
        """By deviations from the nominal size."""
        self.looks += 1
        return Found(self.room(float(offset_mm[0]) / 0.5))


def truth_of(room: Callable[[float], float]) -> tuple[_Truth, Hole]:
    hole = Hole(room)
    return _Truth(hole=hole, direction=np.array([1.0]), work=Work(1000)), hole  # type: ignore[arg-type]


def looks(hole: Hole) -> int:
    """How often since it was asked last."""
    seen, hole.looks = hole.looks, 0
    return seen


NOWHERE = np.array([0.0])


@pytest.mark.parametrize("slope", [0.2, 1.0, 5.0])
def test_on_a_straight_room_two_looks_are_enough_and_of_the_same_miss_one(slope: float) -> None:
    truth, hole = truth_of(lambda at: slope * (at - 1.5))
    assert truth.least(NOWHERE, 1.2, slope) == pytest.approx(1.5)
    assert (looks(hole), truth.missed) == (2, pytest.approx(0.3))
    assert truth.least(NOWHERE, 1.2, slope) == pytest.approx(1.5)
    assert looks(hole) == 1
    assert truth.work.spent == 3 * 7


def test_where_the_lines_tell_the_truth_one_look_is_enough() -> None:
    for told in (-2.0, 0.0, 1.5):
        truth, hole = truth_of(lambda at, told=told: at - told)
        assert truth.least(NOWHERE, told, 1.0) == pytest.approx(told)
        assert (looks(hole), truth.missed) == (1, pytest.approx(0.0))


def test_what_was_seen_of_the_slope_saves_the_next_line_a_look() -> None:
    """The room rises twice as steeply as the lines tell: the second place shows it."""
    truth, hole = truth_of(lambda at: 2 * (at - 1.5))
    assert truth.least(NOWHERE, 1.2, 1.0) == pytest.approx(1.5)
    assert (looks(hole), truth.steeper) == (3, pytest.approx(2.0))
    assert truth.least(NOWHERE, 1.0, 1.0) == pytest.approx(1.5)  # from 1.3 on: the slope is known
    assert looks(hole) == 2
    assert truth.least(NOWHERE, 0.97, 1.0) == pytest.approx(1.5)  # from 1.47 on, a short step
    assert looks(hole) == 1
    fresh, other = truth_of(lambda at: 2 * (at - 1.5))
    assert fresh.least(NOWHERE, 1.47, 1.0) == pytest.approx(1.5)  # as short, but nothing is known of the slope
    assert looks(other) > 1


@pytest.mark.parametrize("bend", [-0.15, 0.1, 0.3])
@pytest.mark.parametrize("told", [0.9, 1.4, 1.6, 2.2])
def test_on_a_bent_room_it_is_found_to_a_hundredth(bend: float, told: float) -> None:
    truth, hole = truth_of(lambda at: (at - 1.5) + bend * (at - 1.5) * abs(at - 1.5))
    assert truth.least(NOWHERE, told, 1.0) == pytest.approx(1.5, abs=0.01)
    assert looks(hole) <= 5


@pytest.mark.parametrize("told", [-1.0, 1.2, 3.0])
def test_a_room_that_jumps_is_halved_until_it_is_known(told: float) -> None:
    truth, hole = truth_of(lambda at: 2.0 if at >= 1.5 else -2.0)
    assert truth.least(NOWHERE, told, 1.0) == pytest.approx(1.5, abs=0.03)
    assert looks(hole) <= 20


@pytest.mark.parametrize(("room", "end"), [(-3.0, FURTHEST), (3.0, -FURTHEST)])
def test_what_never_or_always_fits_is_told_as_far_off_as_is_looked(room: float, end: float) -> None:
    truth, hole = truth_of(lambda _: room)
    assert truth.least(NOWHERE, 0.0, 1.0) == pytest.approx(end, abs=0.05)
    assert looks(hole) <= 24
    assert truth.missed == 0.0  # so wide a miss says nothing of the next line


@pytest.mark.parametrize("told", [50.0, -50.0])
def test_lines_that_tell_of_something_far_off_are_not_followed_there(told: float) -> None:
    truth, _ = truth_of(lambda at: at - 1.5)
    assert truth.least(NOWHERE, told, 1.0) == pytest.approx(1.5, abs=0.05)


def test_where_nothing_is_left_of_the_hole_nothing_fits() -> None:
    def room(at: float) -> float:
        if at < -1.0:
            raise ImpossibleDimensionError(name="tolerance_mm", value=0, unit="mm", rule="leaves nothing")
        return 3.0

    truth, hole = truth_of(room)
    assert truth.least(NOWHERE, 0.0, 1.0) == pytest.approx(-1.0, abs=0.05)
    assert looks(hole) <= 20


def test_the_sizes_go_from_where_the_line_starts_by_their_own_deviations() -> None:
    """From 2 deviations below, the direction has to go 3.5 to come to 1.5."""
    truth, _ = truth_of(lambda at: at - 1.5)
    assert truth.least(np.array([-2.0]), 3.0, 1.0) == pytest.approx(3.5)


@pytest.mark.parametrize("dimensions", [1, 2, 4, 7])
def test_the_lattice_is_as_even_as_normal_deviates_can_be(dimensions: int) -> None:
    """Every size by itself is spread more evenly than at random (off by some 0.016 in the mean, 0.008 in shares);
    two of them together are correlated by up to 0.055 (measured), which the chance feels across its direction only."""
    deviates = _normal_lattice(dimensions)
    assert deviates.shape == (4096, dimensions)
    assert np.abs(deviates.mean(axis=0)).max() < 0.008
    assert np.abs(np.cov(deviates.T) - np.eye(dimensions)).max() < 0.06
    for place in (-1.0, 0.0, 1.5):
        shares = (deviates < place).mean(axis=0)
        assert np.abs(shares - NormalDist().cdf(place)).max() < 0.002
    for first in range(dimensions):
        for second in range(first):
            both = ((deviates[:, first] > 0) & (deviates[:, second] > 0)).mean()
            assert both == pytest.approx(0.25, abs=0.01)


@pytest.mark.parametrize("dimensions", [2, 4, 6])
def test_the_chance_that_several_straight_limits_leave_is_that_of_the_normal_law_in_space(dimensions: int) -> None:
    """Every limit falls with every size; the chance that none is passed is a probability of correlated normals.

    Source: scipy.stats.multivariate_normal.cdf (A. Genz, "Numerical computation of multivariate normal probabilities",
    J. Comput. Graph. Stat. 1 (1992) 141-149). The lattice's own error was 0.0018 at most in 240 draws.
    """
    draw = np.random.default_rng(dimensions)
    for _ in range(5):
        count = int(draw.integers(2, 7))
        pulls = -np.abs(draw.normal(size=(count, dimensions))) * draw.uniform(0.05, 1, dimensions)
        pulls[:, 0] *= -1  # a larger hole gives room, a thicker thing takes it
        bases = np.linalg.norm(pulls, axis=1) * draw.normal(size=count) * 0.8
        least, _ = _least_by_lines(bases, pulls, *_lattice_across(pulls))
        expected = multivariate_normal(cov=pulls @ pulls.T, allow_singular=True).cdf(bases)
        assert float(_normal_tail(least).mean()) == pytest.approx(expected, abs=0.003)


def test_the_tail_is_that_of_the_normal_law() -> None:
    places = np.linspace(-7.9, 7.9, 201)
    expected = [1 - NormalDist().cdf(place) for place in places]
    assert _normal_tail(places).tolist() == pytest.approx(expected, abs=2e-6)
    assert _normal_tail(np.array([-20.0, 20.0])).tolist() == pytest.approx([1.0, 0.0], abs=1e-9)


def test_a_chance_is_paid_for_once() -> None:
    """In a traced hole, where looking costs something."""
    opening = OutlineOpening(points_mm=((-3, -3), (3, -3), (3, 3), (0, 2.5), (-3, 3)), tolerance_mm=0.1)
    hole = {"opening": opening, "tilt_deg": 0.0, "wall_thickness_mm": 1.0}
    one = Thing(id="t", kind=ThingKind.LINE, diameter_mm=5.6, tolerance_mm=0.05)
    first, second = Allowance(), Allowance()
    for allowance in (first, second, first):
        find_chance_of_fit(items=[one], allowance=allowance, **hole)  # type: ignore[arg-type]
    assert first.spent_rows == second.spent_rows > ROWS_OF_A_QUESTION + 3000


@pytest.mark.parametrize(
    ("spare_mm", "expected"), [(0.6, NormalDist().cdf(6)), (0.601, 1.0), (-0.6, NormalDist().cdf(-6)), (-0.601, 0.0)]
)
def test_from_six_deviations_on_a_chance_is_certain(spare_mm: float, expected: float) -> None:
    """A hole plus or minus 0.2 about an exact thing: a deviation is 0.1."""
    chance = find_chance_of_fit(
        opening=RoundOpening(diameter_mm=6.0 + spare_mm, tolerance_mm=0.2),
        tilt_deg=0,
        wall_thickness_mm=1,
        items=[Thing(id="t", kind=ThingKind.LINE, diameter_mm=6.0, tolerance_mm=0.0)],
    )
    assert chance == pytest.approx(expected, abs=1e-9)
