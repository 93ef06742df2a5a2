"""How likely a set of round things fits, when every size may be a little off.

Every size is taken as independent and normal about its nominal value, with its tolerance as two standard deviations.
Nothing is drawn at random. Sizes are spread evenly over a fixed lattice; along the one direction in which every size
gets poorer together, how far they may go until nothing is left is told by the straight lines of the clearance model,
and for some points of the lattice sought truly, until what the lines miss is known well enough.

A chance for a whole way is the product of its places, which errs low, since a line that is thin in one hole is thin
in all. It is never told as certain.
"""

from collections.abc import Sequence
from functools import lru_cache
from math import erf, inf, isfinite, sqrt
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
from planner.geometry.packing.work import MOST_WORK
from planner.parts import Opening
from planner.verdicts import Thing

_LATTICE_POINTS = 4096
_TRUE_POINTS = (48, 192)
"""For how many points of the lattice the truth is sought: the first where the lines miss nothing, else more."""
_MISS_ALLOWED_RATIO = 0.0015
_TRUE_WITHIN_DEVIATIONS = 0.01
_NOTHING_MM = 1e-6
_ROUNDS = 24
_FURTHEST = CERTAIN_DEVIATIONS + 1


def find_chance_of_fit(
    *,
    opening: Opening,
    tilt_deg: float,
    wall_thickness_mm: float,
    items: Sequence[Thing],
    most_work: int | None = None,
) -> float:
    """The chance that a set of round things fits an opening at all, side by side.

    Every size is independent and normal, its tolerance two standard deviations; tilt and wall are nominal. Beyond six
    standard deviations of clearance the answer is 1 or 0. Within 0.02 of drawn sizes for one to three things.

    Returns 0 to 1. For three and more things it is that of the placements found, so never too high on that account.

    opening : the hole in the wall
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    items : what shares the opening
    most_work : rows that each search for room may look at; None for the usual

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.

    Source: A. M. Hasofer, N. C. Lind, "Exact and invariant second-moment code format", J. Eng. Mech. Div. ASCE 100
    (1974) 111-121, for the design point; line sampling as in structural reliability; from memory.
    """
    return _chance_in(
        SharedHole(
            opening=opening,
            tilt_deg=tilt_deg,
            wall_thickness_mm=wall_thickness_mm,
            items=tuple(items),
            most_work=most_work or MOST_WORK,
        )
    )


@lru_cache(maxsize=1024)
def _chance_in(hole: SharedHole) -> float:
    """Remembered: a plan asks the same hole for its chance and for what to measure first."""
    model = model_of_hole(hole)
    margins = _margins(model)
    if margins is None or margins.min() > CERTAIN_DEVIATIONS or margins.min() < -CERTAIN_DEVIATIONS:
        return chance_of_model(model)
    return _chance_by_lines(hole, model)


def chance_of_model(model: ClearanceModel) -> float:
    """The chance that the lowest line of a model is not below zero.

    Returns 0 to 1.

    model : the clearance in straight lines

    Source: Textbook of probability; from memory.
    """
    margins = _margins(model)
    if margins is None:
        return 1.0 if model.at_nominal_mm.min() >= 0 else 0.0
    if margins.min() > CERTAIN_DEVIATIONS:
        return 1.0
    if margins.min() < -CERTAIN_DEVIATIONS:
        return 0.0
    if len(margins) == 1:
        return (1 + erf(float(margins[0]) / sqrt(2))) / 2
    pulls = model.slopes * model.deviations_mm
    direction, rest = _lattice_across(pulls)
    return float(np.mean(_normal_tail(_least_by_lines(model.at_nominal_mm, pulls, direction, rest))))


def _margins(model: ClearanceModel) -> Array | None:
    """How many standard deviations each line is from zero; None where no size may be off."""
    pulls = model.slopes * model.deviations_mm
    spread = np.sqrt((pulls * pulls).sum(axis=1))
    if np.all(spread == 0):
        return None
    return np.asarray(model.at_nominal_mm / np.maximum(spread, 1e-12))


def _chance_by_lines(hole: SharedHole, model: ClearanceModel) -> float:
    """What the lines tell over the whole lattice, and what they miss at some of its points."""
    pulls = model.slopes * model.deviations_mm
    direction, rest = _lattice_across(pulls)
    told = _normal_tail(_least_by_lines(model.at_nominal_mm, pulls, direction, rest))
    slope = max(float((pulls @ direction).max()), 1e-9)
    misses: list[float] = []
    for count in _TRUE_POINTS:
        for place in range(len(misses), count):
            start = float(_least_by_lines(model.at_nominal_mm, pulls, direction, rest[place : place + 1])[0])
            truth = _least_in_truth(hole, rest[place], direction, start, slope)
            misses.append(float(_normal_tail(np.array([truth]))[0]) - float(told[place]))
        doubt = float(np.abs(misses).max() if count == _TRUE_POINTS[0] else np.std(misses) / sqrt(count))
        if doubt < _MISS_ALLOWED_RATIO:
            break
    return min(1.0, max(0.0, float(np.mean(told)) + float(np.mean(misses))))


def _least_in_truth(hole: SharedHole, rest: Array, direction: Array, start: float, slope: float) -> float:
    """How far along the direction the sizes must at least go for the things to fit.

    Sought from where the lines tell, by steps that double until it lies between two places, then between them.
    """

    def room_at(place: float) -> float:
        return _clearance_or_less(hole, (rest + place * direction) * hole.deviations_mm)

    here = min(max(start, -_FURTHEST), _FURTHEST)
    room = room_at(here)
    if abs(room) < _NOTHING_MM:
        return here
    low, at_low, high, at_high = -_FURTHEST, -inf, _FURTHEST, inf
    step = max(_TRUE_WITHIN_DEVIATIONS / 2, abs(room) / slope)
    for _ in range(_ROUNDS):
        if room < 0:
            at_high = at_high / 2 if here > low > -_FURTHEST else at_high
            low, at_low = here, room
        else:
            at_low = at_low / 2 if here < high < _FURTHEST else at_low
            high, at_high = here, room
        if high - low < _TRUE_WITHIN_DEVIATIONS:
            break
        if isfinite(at_low) and isfinite(at_high):
            here = (low * at_high - high * at_low) / (at_high - at_low)
        else:
            here, step = (low + step if room < 0 else high - step), 2 * step
        if not low < here < high:
            here = (low + high) / 2
        room = room_at(here)
    return (low + high) / 2


def _clearance_or_less(hole: SharedHole, offset_mm: Array) -> float:
    """The clearance, or less than nothing where so much is off that nothing is left of the hole."""
    try:
        clearance_mm = hole.clearance_at(offset_mm).clearance_mm
    except ImpossibleDimensionError:
        return -max(item.diameter_mm for item in hole.items)
    assert clearance_mm is not None
    return clearance_mm


def _lattice_across(pulls: Array) -> tuple[Array, Array]:
    """The direction in which the lines fall together, and a lattice of normal deviates across it."""
    direction = pulls.mean(axis=0)
    direction = direction / np.sqrt(direction @ direction)
    deviates = _normal_lattice(pulls.shape[1])
    return direction, deviates - (deviates @ direction)[:, None] * direction


def _least_by_lines(bases: Array, pulls: Array, direction: Array, rest: Array) -> Array:
    """How far along the direction the sizes must at least go for no line to be below zero."""
    along = np.maximum(pulls @ direction, 1e-12)
    return np.asarray((-(bases + rest @ pulls.T) / along).max(axis=1))


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
