"""Legs that only work with a loop, or only just do without one, though their ends nearly touch."""

from enum import StrEnum

import numpy as np

from planner.geometry.curves.arc_straight_arc import find_plain_curves
from planner.geometry.curves.hose_lengths import HoseRange
from planner.geometry.curves.legs import LegRange, Posture
from planner.geometry.curves.pose_pairs import PosePairs
from planner.quick_dataclass import dataclass

_EDGE_DEG = 190
"""A turn up to this is about to become a loop, not one yet."""

_EDGE_LENGTH = 0.2
"""In units of the radius: a curve without a plain form this little longer than its neighbour is no loop yet."""

_WIDE_BOW = 3.0
"""In units of the radius: a real hose that takes more than this over the shortest curve hangs in a bow of another kind;
without a loop it took 1.3 at most in 99 of 100 postures of random legs."""

_RADII = 64


class LoopGrade(StrEnum):
    """How a leg misses an ordinary way."""

    EDGE = "edge"
    """It only just does without a loop."""

    LOOP = "loop"
    """It goes round in a loop."""

    BOW = "bow"
    """The shortest curve is ordinary, but a real hose hangs in a wide bow."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Loop:
    """Where a leg misses an ordinary way, in its worst posture.

    at : where bar and rear stand
    length_mm : of the shortest curve there; of a bow, of the real hose [mm]
    ordinary_mm : in the posture that needs the least without a loop, or from end to end; of a bow, of its shortest
        curve [mm]
    radius_without_mm : the widest bend, to the centre line, with which it would need no loop; None for a bow [mm]
    """

    grade: LoopGrade
    at: Posture
    length_mm: float
    ordinary_mm: float
    radius_without_mm: float | None = None


def find_loop(found: LegRange, hose: HoseRange | None) -> Loop | None:
    """Whether a leg misses an ordinary way anywhere over its postures, and how badly at worst.

    None where it goes everywhere in a plain curve, and hangs near it.

    hose : the same leg as a real hose; None for a guide
    """
    lengths, plain = found.curves.chains.lengths, found.curves.is_only_plain
    if plain.all():
        return _find_bow(found, hose)
    looped = np.flatnonzero(~plain)
    row = int(looped[lengths[looped].argmax()])
    straight = float(np.linalg.norm(found.pairs.ways[row]))
    ordinary = float(lengths[plain].min()) if plain.any() else straight
    return Loop(
        grade=LoopGrade.EDGE if all(_is_edge(found, int(one)) for one in looped) else LoopGrade.LOOP,
        at=found.postures[row],
        length_mm=float(lengths[row]) * found.centreline_radius_mm,
        ordinary_mm=ordinary * found.centreline_radius_mm,
        radius_without_mm=_widest_plain(found, row) * found.centreline_radius_mm,
    )


def _find_bow(found: LegRange, hose: HoseRange | None) -> Loop | None:
    if hose is None or hose.over_shortest_mm <= _WIDE_BOW * found.centreline_radius_mm:
        return None
    return Loop(
        grade=LoopGrade.BOW,
        at=hose.most_over_at,
        length_mm=hose.most_over_mm,
        ordinary_mm=hose.most_over_mm - hose.over_shortest_mm,
    )


def _is_edge(found: LegRange, row: int) -> bool:
    """Turned by hardly more than half a circle, or hardly longer than in the nearest posture with a plain curve."""
    chains, plain = found.curves.chains, found.curves.is_only_plain
    if np.degrees(chains.largest_turns[row]) <= _EDGE_DEG:
        return True
    if not plain.any():
        return False
    here = found.postures[row]
    apart = [
        abs(one.bar_deg - here.bar_deg) + abs(one.rear_deg - here.rear_deg) if is_plain else np.inf
        for one, is_plain in zip(found.postures, plain, strict=True)
    ]
    return bool(chains.lengths[row] <= chains.lengths[int(np.argmin(apart))] + _EDGE_LENGTH)


def _widest_plain(found: LegRange, row: int) -> float:
    """In units of the radius, found twice as one of many evenly spread; 0 where no bend helps."""
    low, high = 0.0, 1.0
    for _ in range(2):
        radii = low + (high - low) * np.arange(1, _RADII + 1) / _RADII
        pairs = PosePairs(
            ways=found.pairs.ways[row] / radii[:, None],
            starts=np.repeat(found.pairs.starts[row : row + 1], _RADII, axis=0),
            ends=np.repeat(found.pairs.ends[row : row + 1], _RADII, axis=0),
        )
        plain = np.flatnonzero(find_plain_curves(pairs).is_plain)
        if not len(plain):
            return low
        low, high = float(radii[plain[-1]]), float(radii[min(plain[-1] + 1, _RADII - 1)])
    return low
