"""How likely a set of round things fits, when every size may be a little off.

Every size is taken as independent and normal about its nominal value, with its tolerance as two standard deviations.
Nothing is drawn at random. Sizes are spread evenly over a fixed lattice; along the one direction in which every size
gets poorer together, how far they may go until nothing is left is told by the straight lines of the clearance model,
and for some points of the lattice sought truly, until what the lines miss is known well enough.

A chance for a whole way is the product of its places, which errs low, since a line that is thin in one hole is thin
in all. It is never told as certain.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import erf, sqrt
from statistics import NormalDist

import numpy as np

from planner.errors import ImpossibleDimensionError
from planner.fit.clearance_model import (
    CERTAIN_DEVIATIONS,
    Array,
    ClearanceModel,
    SharedHole,
    model_of_hole,
)
from planner.geometry.packing.work import Allowance, Work
from planner.parts import Opening
from planner.verdicts import Thing

_LATTICE_POINTS = 4096
_TRUE_POINTS = (48, 96, 192)
"""For how many points of the lattice the truth is sought: the first where the lines miss little, else more."""
_MISS_ALLOWED_RATIO = 0.002
_TRUE_WITHIN_DEVIATIONS = 0.01
_SHORT_STEP_DEVIATIONS = 0.04
_FLAT = 1e-9
_ROUNDS = 24
_FURTHEST = CERTAIN_DEVIATIONS + 1


def find_chance_of_fit(
    *,
    opening: Opening,
    tilt_deg: float,
    wall_thickness_mm: float,
    items: Sequence[Thing],
    allowance: Allowance | None = None,
) -> float | None:
    """The chance that a set of round things fits an opening at all, side by side.

    Every size is independent and normal, its tolerance two standard deviations; tilt and wall are nominal. Beyond six
    standard deviations of clearance the answer is 1 or 0. Within 0.02 of drawn sizes for one to three things, in 200
    random openings of each shape.

    Returns 0 to 1, None where the work allowed had run out. For three and more things it is that of the placements
    found, so never too high on that account; where the roomiest was missed it is too low.

    opening : the hole in the wall
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    items : what shares the opening
    allowance : the work that this and other questions may cost; None for the usual of one question

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.

    Source: A. M. Hasofer, N. C. Lind, "Exact and invariant second-moment code format", J. Eng. Mech. Div. ASCE 100
    (1974) 111-121, for the design point; line sampling as in structural reliability; from memory.
    """
    allowance = allowance or Allowance()
    hole = SharedHole(
        opening=opening,
        tilt_deg=tilt_deg,
        wall_thickness_mm=wall_thickness_mm,
        items=tuple(items),
        most_work=allowance.each_rows,
    )
    if not allowance.may_ask(hole):
        return None
    found = _chance_in(hole)
    allowance.note(hole, found.work_rows)
    return found.chance


@dataclass(frozen=True, slots=True, kw_only=True)
class _Chance:
    """A chance, and what it cost to find, remembered or not."""

    chance: float
    work_rows: int


@lru_cache(maxsize=1024)
def _chance_in(hole: SharedHole) -> _Chance:
    """Remembered: a plan asks the same hole for its chance and for what to measure first."""
    model, work = model_of_hole(hole), Work(hole.most_work)
    certain = _certain_chance(model)
    chance = _chance_by_lines(hole, model, work) if certain is None else certain
    return _Chance(chance=chance, work_rows=model.work_rows + work.spent)


def _certain_chance(model: ClearanceModel) -> float | None:
    """1 or 0 where no size may be off, or the lowest line is that far from nothing; else None."""
    pulls = model.slopes * model.deviations_mm
    spread = np.sqrt((pulls * pulls).sum(axis=1))
    if np.all(spread == 0):
        return 1.0 if model.at_nominal_mm.min() >= 0 else 0.0
    deviations = float((model.at_nominal_mm / np.maximum(spread, 1e-12)).min())
    if abs(deviations) <= CERTAIN_DEVIATIONS:
        return None
    return 1.0 if deviations > 0 else 0.0


def _chance_by_lines(hole: SharedHole, model: ClearanceModel, work: Work) -> float:
    """What the lines tell over the whole lattice, and what they miss at some of its points."""
    pulls = model.slopes * model.deviations_mm
    direction, rest = _lattice_across(pulls)
    least, slopes = _least_by_lines(model.at_nominal_mm, pulls, direction, rest)
    told = _normal_tail(least)
    truth = _Truth(hole=hole, direction=direction, work=work)
    misses: list[float] = []
    for count in _TRUE_POINTS:
        for place in range(len(misses), count):
            found = truth.least(rest[place], float(least[place]), float(slopes[place]))
            misses.append(float(_normal_tail(np.array([found]))[0]) - float(told[place]))
        if float(np.std(misses)) / sqrt(count) < _MISS_ALLOWED_RATIO:
            break
    return min(1.0, max(0.0, float(np.mean(told)) + float(np.mean(misses))))


@dataclass(slots=True, kw_only=True)
class _Truth:
    """How far sizes must truly go along a direction, sought line by line; what one line taught helps the next.

    work : told what it costs
    missed : by how much the straight lines missed it last
    steeper : how many times as steeply the room rose last as they tell; None before that was seen
    """

    hole: SharedHole
    direction: Array
    work: Work
    missed: float = 0.0
    steeper: float | None = None

    def least(self, rest: Array, told: float, slope: float) -> float:
        """How far along the direction the sizes must at least go for the things to fit.

        Sought from where the straight lines tell, by steps as long as the room there and its slope ask, kept between
        the places known to be too little and enough. Once the slope is known from two places, what is left after a
        short step is of the step's square.

        told, slope : what the lines tell, and how steeply the lowest of them rises there
        """
        low, high = -_FURTHEST, _FURTHEST
        here, before = min(max(told + self.missed, low), high), None
        rise = slope * (self.steeper or 1.0)
        for _ in range(_ROUNDS):
            room = _clearance_or_less(self.hole, (rest + here * self.direction) * self.hole.deviations_mm, self.work)
            if before is not None and room != before[1] and here != before[0]:
                rise = (room - before[1]) / (here - before[0])
                self.steeper = rise / slope if slope > 0 and rise > 0 else self.steeper
            low, high = (here, high) if room < 0 else (low, here)
            aim = here - room / max(rise, _FLAT)
            within = _TRUE_WITHIN_DEVIATIONS if before is None and self.steeper is None else _SHORT_STEP_DEVIATIONS
            if abs(aim - here) < within or high - low < _TRUE_WITHIN_DEVIATIONS:
                break
            before = here, room
            here = aim if low < aim < high else (low + high) / 2
        found = min(max(aim, low), high)
        self.missed = found - told if abs(found - told) < 1 else 0.0
        return found


def _clearance_or_less(hole: SharedHole, offset_mm: Array, work: Work) -> float:
    """The clearance, or less than nothing where so much is off that nothing is left of the hole."""
    try:
        found = hole.clearance_at(offset_mm)
    except ImpossibleDimensionError:
        return -max(item.diameter_mm for item in hole.items)
    work.spend(found.work_rows)
    return found.clearance_mm


def _lattice_across(pulls: Array) -> tuple[Array, Array]:
    """The direction in which the lines fall together, and a lattice of normal deviates across it."""
    direction = pulls.mean(axis=0)
    direction = direction / np.sqrt(direction @ direction)
    deviates = _normal_lattice(pulls.shape[1])
    return direction, deviates - (deviates @ direction)[:, None] * direction


def _least_by_lines(bases: Array, pulls: Array, direction: Array, rest: Array) -> tuple[Array, Array]:
    """How far along the direction the sizes must at least go for no line to be below zero, and the last one's rise."""
    along = np.maximum(pulls @ direction, 1e-12)
    needed = -(bases + rest @ pulls.T) / along
    last = needed.argmax(axis=1)
    return needed[np.arange(len(last)), last], along[last]


def _normal_tail(least: Array) -> Array:
    table = _tail_table()
    return np.asarray(np.interp(least, table[0], table[1]))


@lru_cache(maxsize=1)
def _tail_table() -> tuple[Array, Array]:
    places = np.linspace(-8, 8, 3201)
    return places, np.array([(1 - erf(place / sqrt(2))) / 2 for place in places.tolist()])


@lru_cache(maxsize=16)
def _normal_lattice(dimensions: int) -> Array:
    """Evenly spread normal deviates: stepped by powers of 1/x where x^(d+1) = x + 1, as the starts of a search are."""
    ratio = 2.0
    for _ in range(40):
        ratio = (1 + ratio) ** (1 / (dimensions + 1))
    even = (0.5 + np.outer(np.arange(1, _LATTICE_POINTS + 1), ratio ** -np.arange(1.0, dimensions + 1))) % 1
    normal = NormalDist()
    table_at = (np.arange(4096) + 0.5) / 4096
    table = np.array([normal.inv_cdf(share) for share in table_at.tolist()])
    return np.asarray(np.interp(even, table_at, table))
