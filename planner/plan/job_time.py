"""How long a job takes: the mean, and the range it falls in eight times out of ten.

The sum of independent triangles, by convolution, with repeats for methods that fail more often. A bad day that spoils
several steps at once is left out, so the range is somewhat narrow.
"""

from collections.abc import Sequence
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor, log
from typing import Any

from planner.errors import ImpossibleDimensionError
from planner.parts import Method, Minutes, Workshop
from planner.quick_dataclass import dataclass

GRID_POINTS = 1 << 15
"""Points of the time axis; a spread of ten hours is resolved to about a second."""

NO_SPREAD_MIN = 1e-6
"""A spread below this, far under a thousandth of a second, counts as none."""

FORGOTTEN_CHANCE = 1e-7
"""Chance of more repeats than the time axis holds."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Repeat:
    """Work that is done again each time something fails.

    minutes : once more
    chance : that it fails, each time it is tried; from 0 to below 1
    """

    minutes: Minutes
    chance: float


@dataclass(frozen=True, slots=True, kw_only=True)
class JobTime:
    """How long a job takes.

    mean_min : on average; exact, so that a half is known to be one [min]
    low_min : one job in ten is quicker [min]
    high_min : one job in ten takes longer [min]
    method : how these were found, as a key
    """

    mean_min: Decimal
    low_min: float
    high_min: float
    method: str = "independent_triangles"


def estimate_job_time(*, steps: Sequence[Minutes], repeats: Sequence[Repeat] = ()) -> JobTime:
    """Mean and 80 % range of the time that several steps take one after another.

    Each step's time is triangular between its least and its most with the peak at the likely one; steps vary
    independently, so a day on which everything goes slowly is wider than this. What fails is done again until it holds.

    Returns all zero for no steps.

    steps : three-point estimates
    repeats : work that may have to be done again, with the chance of it

    >>> time = estimate_job_time(steps=[Minutes(least=10, likely=20, most=30)])
    >>> time.mean_min, round(time.low_min, 2), round(time.high_min, 2)
    (Decimal('20'), 14.47, 25.53)

    Raises ImpossibleDimensionError when an estimate is not 0 <= least <= likely <= most, or a chance is not from 0 to
        below 1.

    Source: Triangular distribution in any statistics text; the sum is a numerical convolution (checked against
    100,000 draws).
    """
    for minutes in (*steps, *(repeat.minutes for repeat in repeats)):
        _refuse_disorder(minutes)
    for repeat in repeats:
        if not 0 <= repeat.chance < 1:
            raise ImpossibleDimensionError(
                name="chance", value=repeat.chance, unit="", rule="must be from 0 to below 1"
            )
    surest_min = sum(minutes.least for minutes in steps)
    low_min, high_min = _range_above(tuple(steps), tuple(repeats))
    mean_min = _mean_of_all(steps, repeats)
    return JobTime(mean_min=mean_min, low_min=surest_min + low_min, high_min=surest_min + high_min)


def whole_minutes(minutes: Decimal | float) -> Decimal:
    """A time in whole minutes, halves up: the one rounding for what is charged, told and compared.

    minutes : not negative [min]
    """
    return Decimal(minutes).quantize(Decimal(1), rounding=ROUND_HALF_UP)


def find_job_time(*, step_ids: Sequence[str], method: Method, workshop: Workshop) -> JobTime:
    """How long a way of doing a job takes, the making of its joint and its failures included.

    Returns without repeats where the method's chance of failing is not known.

    step_ids : the way's steps, as the workshop names them
    method : how its lines are joined: its setup counts once, and again with the steps that are redone for every time it
        fails
    workshop : knows what a step takes and which are redone

    Raises ImpossibleDimensionError when an estimate or the chance is impossible.

    Source: The minutes are the workshop's own data.
    """
    steps, repeats = work_of_way(step_ids, method, workshop)
    return estimate_job_time(steps=steps, repeats=repeats)


def expected_minutes(*, step_ids: Sequence[str], method: Method, workshop: Workshop) -> Decimal:
    """The mean of `find_job_time` without its range: what ways of doing a job are compared by, and charged.

    step_ids : the way's steps, as the workshop names them
    """
    return _mean_of_all(*work_of_way(step_ids, method, workshop))


def work_of_way(
    step_ids: Sequence[str], method: Method, workshop: Workshop
) -> tuple[Sequence[Minutes], Sequence[Repeat]]:
    """What is done once, the making of the joint first, and what is done again each time the joint fails.

    step_ids : the way's steps, as the workshop names them
    """
    setup = Minutes(least=method.setup_min, likely=method.setup_min, most=method.setup_min)
    known = {step.id: step for step in workshop.steps}
    done = [known[step_id] for step_id in step_ids]
    redone = [setup, *(step.minutes for step in done if step.is_redone)]
    once_more = Minutes(
        least=sum(minutes.least for minutes in redone),
        likely=sum(minutes.likely for minutes in redone),
        most=sum(minutes.most for minutes in redone),
    )
    repeats = [Repeat(minutes=once_more, chance=method.fail_chance)] if method.fail_chance else []
    return [setup, *(step.minutes for step in done)], repeats


def _refuse_disorder(minutes: Minutes) -> None:
    in_order = 0 <= minutes.least <= minutes.likely <= minutes.most < float("inf")
    if not in_order:
        raise ImpossibleDimensionError(
            name="likely",
            value=minutes.likely,
            unit="min",
            rule=f"must lie between least and most, {minutes.least:g} and {minutes.most:g} min",
        )


def _mean_of_all(steps: Sequence[Minutes], repeats: Sequence[Repeat]) -> Decimal:
    mean_min = sum((_mean(minutes) for minutes in steps), Fraction(0))
    mean_min += sum((_mean(repeat.minutes) * _repeats_on_average(repeat) for repeat in repeats), Fraction(0))
    return Decimal(mean_min.numerator) / Decimal(mean_min.denominator)


@lru_cache(maxsize=1024)
def _mean(minutes: Minutes) -> Fraction:
    """As people wrote the figures: 0.1 is a tenth, not the binary number beside it. A step is part of many ways."""
    return sum((Fraction(str(point)) for point in (minutes.least, minutes.likely, minutes.most)), Fraction(0)) / 3


def _repeats_on_average(repeat: Repeat) -> Fraction:
    chance = Fraction(str(repeat.chance))
    return chance / (1 - chance)


@lru_cache(maxsize=256)
def _range_above(steps: tuple[Minutes, ...], repeats: tuple[Repeat, ...]) -> tuple[float, float]:
    """The 10 % and 90 % points of all that goes beyond the least time of every step."""
    import numpy as np

    span = sum(minutes.most - minutes.least for minutes in steps)
    span += sum(repeat.minutes.most * _repeats_at_most(repeat.chance) for repeat in repeats)
    if span < NO_SPREAD_MIN:
        return 0.0, 0.0
    step_min = span / (GRID_POINTS - 2)
    grid = step_min * np.arange(GRID_POINTS)
    points = 2 * GRID_POINTS
    spectrum = np.ones(points // 2 + 1, complex)
    for minutes in steps:
        spectrum *= np.fft.rfft(_masses(minutes, step_min=step_min, shift=minutes.least), points)
    for repeat in repeats:
        once = np.fft.rfft(_masses(repeat.minutes, step_min=step_min, shift=0.0), points)
        spectrum *= (1 - repeat.chance) / (1 - repeat.chance * once)  # none, one, two ... repeats, ever rarer
    masses = np.fft.irfft(spectrum, points)[:GRID_POINTS]
    below = np.cumsum(masses) - masses / 2
    low, high = np.interp([0.1, 0.9], below, grid)
    return float(low), float(high)


def _repeats_at_most(chance: float) -> int:
    return 0 if chance == 0 else 1 + int(log(FORGOTTEN_CHANCE) / log(chance))


def _masses(minutes: Minutes, *, step_min: float, shift: float) -> Any:
    """Chances at the points of the grid: each value is shared by its two neighbours, so that the mean is kept."""
    import numpy as np

    least, likely, most = minutes.least - shift, minutes.likely - shift, minutes.most - shift
    first, last = floor(least / step_min), ceil(most / step_min)
    area = _area_below(step_min * np.arange(first - 1, last + 2), least, likely, most)
    masses = np.zeros(max(GRID_POINTS, last + 1))
    masses[first : last + 1] = (area[2:] - 2 * area[1:-1] + area[:-2]) / step_min
    return masses[:GRID_POINTS]


def _area_below(at: Any, least: float, likely: float, most: float) -> Any:
    """The integral of the triangular distribution function up to each point."""
    import numpy as np

    width, rise, fall = most - least, likely - least, most - likely
    if width < NO_SPREAD_MIN:
        return np.maximum(at - least, 0.0)
    x = np.clip(at - least, 0.0, width)
    up, down = np.minimum(x, rise), np.minimum(width - x, fall)
    rising = up / rise * up**2 / (3 * width) if rise > 0 else 0.0  # a quotient first: a tiny rise times width is 0
    falling = down / fall * down**2 / (3 * width) if fall > 0 else 0.0
    mean_above_least = (rise + width) / 3
    inside = np.where(x <= rise, rising, x - mean_above_least + falling)
    return inside + np.maximum(at - most, 0.0)
