"""How likely a set of round things fits, when every size may be a little off.

Every size is taken as independent and normal about its nominal value, with its tolerance as two standard deviations.

A chance for a whole way is the product of its places, which errs low, since a line that is thin in one hole is thin
in all. It is never told as certain.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import chain
from math import erf, sqrt
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from planner.geometry.openings.opening_shape import opening_sizes, vary_opening
from planner.geometry.packing.set_clearance import SetClearance, Variant, find_set_clearance, find_varied_clearances
from planner.geometry.packing.slopes import find_clearance_slopes
from planner.parts import Opening
from planner.verdicts import Thing

Array = NDArray[np.float64]

DEVIATIONS_IN_TOLERANCE = 2.0
"""A tolerance is taken as this many standard deviations."""

_CERTAIN_DEVIATIONS = 6.0
_PROBED_DEVIATIONS = 2.0
_LATTICE_POINTS = 4096
_SAME_MM = 1e-4
_MOST_PROBED_ALONE = 2
"""With more things than this, only the opening's sizes are looked at each on its own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ClearanceModel:
    """The clearance as straight lines in every size: the lowest of them holds.

    names : "opening length" and the like, then the ids of the items
    deviations_mm : standard deviation of each [mm]
    at_nominal_mm : the clearance each line gives at nominal sizes, the true one first [mm]
    slopes : lines by sizes [mm/mm]
    """

    names: tuple[str, ...]
    deviations_mm: Array
    at_nominal_mm: Array
    slopes: Array


def find_chance_of_fit(*, opening: Opening, tilt_deg: float, wall_thickness_mm: float, items: Sequence[Thing]) -> float:
    """The chance that a set of round things fits an opening at all, side by side.

    Every size is independent and normal, its tolerance two standard deviations; tilt and wall are nominal. Beyond six
    standard deviations of clearance the answer is 1 or 0. Nothing is drawn at random: the clearance is followed along
    straight lines through its values at nominal sizes and at each size's poorer side, and counted over a fixed lattice.

    Returns 0 to 1. For three and more things it is that of the placement found, so never too high on that account.

    opening : the hole in the wall
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    items : what shares the opening

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.

    Source: A. M. Hasofer, N. C. Lind, "Exact and invariant second-moment code format", J. Eng. Mech. Div. ASCE 100
    (1974) 111-121, for the design point; from memory.
    """
    model = find_clearance_model(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm, items=items)
    return chance_of_model(model)


def chance_of_model(model: ClearanceModel) -> float:
    """The chance that the lowest line of a model is not below zero.

    Returns 0 to 1.

    model : the clearance in straight lines

    Source: Textbook of probability; from memory.
    """
    pulls = model.slopes * model.deviations_mm
    spread = np.sqrt((pulls * pulls).sum(axis=1))
    if np.all(spread == 0):
        return 1.0 if model.at_nominal_mm.min() >= 0 else 0.0
    margins = model.at_nominal_mm / np.maximum(spread, 1e-12)
    if margins.min() > _CERTAIN_DEVIATIONS:
        return 1.0
    if margins.min() < -_CERTAIN_DEVIATIONS:
        return 0.0
    if len(margins) == 1:
        return (1 + erf(float(margins[0]) / sqrt(2))) / 2
    return _share_above_zero(model.at_nominal_mm, pulls)


def find_clearance_model(
    *, opening: Opening, tilt_deg: float, wall_thickness_mm: float, items: Sequence[Thing]
) -> ClearanceModel:
    """The clearance of a set as straight lines in every size, true at nominal sizes and at each size's poorer side.

    Returns its first line is that at nominal sizes.

    opening : the hole in the wall
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length
    items : what shares the opening

    Raises ImpossibleDimensionError when a size is not one that a workshop could measure.
    """
    frame = _Case(opening=opening, tilt_deg=tilt_deg, wall_thickness_mm=wall_thickness_mm, items=tuple(items))
    size_names = tuple(opening_sizes(opening))
    deviations = np.array(
        [opening.tolerance_mm / DEVIATIONS_IN_TOLERANCE] * len(size_names)
        + [item.tolerance_mm / DEVIATIONS_IN_TOLERANCE for item in items]
    )
    nominal = find_set_clearance(
        opening=opening,
        tilt_deg=tilt_deg,
        wall_thickness_mm=wall_thickness_mm,
        diameters_mm=tuple(item.diameter_mm for item in items),
    )
    first = _line_through(frame, np.zeros(len(deviations)), nominal)
    lines = [first]
    probes = _probes(first, deviations)
    if len(items) > _MOST_PROBED_ALONE:
        probes = probes[: 1 + len(size_names)]
    for offset in probes:
        variant = _variant(frame, offset)
        (found,) = find_varied_clearances(
            nominal=_variant(frame, np.zeros(len(deviations))),
            tilt_deg=tilt_deg,
            wall_thickness_mm=wall_thickness_mm,
            variants=(variant,),
        )
        assert found.clearance_mm is not None
        if found.clearance_mm < min(base + float(slope @ offset) for base, slope in lines) - _SAME_MM:
            lines.append(_line_through(frame, offset, found))
    return ClearanceModel(
        names=(*(f"opening {name.replace('_', ' ')}" for name in size_names), *(item.id for item in items)),
        deviations_mm=deviations,
        at_nominal_mm=np.array([base for base, _ in lines]),
        slopes=np.array([slope for _, slope in lines]),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Case:
    opening: Opening
    tilt_deg: float
    wall_thickness_mm: float
    items: tuple[Thing, ...]


def _variant(case: _Case, offset: Array) -> Variant:
    names = tuple(opening_sizes(case.opening))
    changes = dict(zip(names, offset[: len(names)].tolist(), strict=True))
    sizes = tuple(
        item.diameter_mm + change for item, change in zip(case.items, offset[len(names) :].tolist(), strict=True)
    )
    return Variant(opening=vary_opening(opening=case.opening, changes_mm=changes), diameters_mm=sizes)


def _line_through(case: _Case, offset: Array, found: SetClearance) -> tuple[float, Array]:
    """What the line through a found clearance gives at nominal sizes, and its slopes."""
    slopes = find_clearance_slopes(
        opening=_variant(case, offset).opening,
        tilt_deg=case.tilt_deg,
        wall_thickness_mm=case.wall_thickness_mm,
        clearance=found,
    )
    assert found.clearance_mm is not None
    slope = np.array(list(chain(slopes.by_size.values(), slopes.by_thing)))
    return found.clearance_mm - float(slope @ offset), slope


def _probes(line: tuple[float, Array], deviations: Array) -> list[Array]:
    """Where the clearance is looked at again: the likeliest sizes that bring it to zero, and each size off alone."""
    base, slope = line
    pull = slope * deviations
    spread = float(np.sqrt(pull @ pull))
    if spread == 0 or abs(base) > 2 * _CERTAIN_DEVIATIONS * spread:
        return []
    reach = min(_PROBED_DEVIATIONS, abs(base) / spread)
    towards = -np.copysign(reach / spread, base) * pull * deviations
    alone = [
        np.where(np.arange(len(deviations)) == place, -_PROBED_DEVIATIONS * np.copysign(deviation, rate or 1.0), 0.0)
        for place, (deviation, rate) in enumerate(zip(deviations.tolist(), slope.tolist(), strict=True))
        if deviation > 0
    ]
    return [towards, *alone]


def _share_above_zero(bases: Array, pulls: Array) -> float:
    """Share of a fixed lattice of normal deviates at which no line is below zero, one deviate summed exactly.

    That one is the direction in which the lines fall together: along it, where the lowest line is zero is known.
    """
    direction = pulls.mean(axis=0)
    direction = direction / np.sqrt(direction @ direction)
    deviates = _normal_lattice(pulls.shape[1])
    rest = deviates - (deviates @ direction)[:, None] * direction
    along = pulls @ direction
    values = bases + rest @ pulls.T
    if np.any(along <= 0):
        return float(np.mean((bases + deviates @ pulls.T).min(axis=1) >= 0))
    least = (-values / along).max(axis=1)
    return float(np.mean(_normal_tail(least)))


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
