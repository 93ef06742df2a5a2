"""How much line legs take as real hoses over all postures of bar and rear, and whether one length serves them all."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from planner.geometry.curves.elastica_chain import Rods, choose_rods, curvatures, joined_rods, node_places
from planner.geometry.curves.hose_postures import LegRows, Lyings, Rows, follow_shapes, rows_of_legs
from planner.geometry.curves.hose_shapes import HoseShapes, refined, shapes_from_neighbours
from planner.geometry.curves.legs import BAR_STEPS, REAR_STEPS, LegMotion, LegRange, Posture, ends_in_postures
from planner.geometry.curves.one_length import OneLength, find_one_lengths
from planner.geometry.curves.pose_pairs import Array, Mask, PosePairs, joined_pairs, pairs_of, rows_of
from planner.geometry.curves.space_curves import draw_curve, find_shortest_curves
from planner.geometry.motion.frame_axes import Curve
from planner.quick_dataclass import dataclass

_TOLD_FINELY = 3
"""How many of a leg's longest postures are told finely; few pieces rank them well."""

_MOST_OVER = 5.9
"""In units of the radius: the most that a relaxed shape took over the shortest curve where no loop was, in 3,489
postures of random legs."""

_FINER = (-0.5, -0.25, 0.25, 0.5)
_MISSED = 0.005
"""In units of the radius: what may be missed between two postures so close together."""

_STEEPEST = 1.0
"""In units of the radius: more than a length changes from one posture of the grid to the next."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HoseRange:
    """A leg as a real hose lies, over everything its ends can do.

    rest : its shape at rest; None where none was found
    longest_mm : the most line it asks in any posture, on the branch that takes more [mm]
    longest_at : where bar and rear stand then
    over_shortest_mm : the most it takes over the shortest curve of the same posture [mm]
    most_over_mm, most_over_at : its length there, and where bar and rear stand [mm]
    two_ways : postures in which it may lie in two ways, with the two lengths [mm]
    estimated : postures in which no shape was found, and its length is an estimate that is not short
    one_length : over the postures; None where the leg does not move
    """

    rest: Curve | None
    longest_mm: float
    longest_at: Posture
    over_shortest_mm: float
    most_over_mm: float
    most_over_at: Posture
    two_ways: tuple[tuple[Posture, float, float], ...]
    estimated: tuple[Posture, ...]
    one_length: OneLength | None

    @property
    def need_mm(self) -> float:
        """The one length that serves all postures; where none does, the most that any of them asks. [mm]"""
        return self.longest_mm if self.one_length is None else max(self.longest_mm, self.one_length.length_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Candidates:
    """Shapes that may be the longest of their legs: those of the grid, and those between its longest postures.

    legs, postures : what each is of
    rows : of the grid; the nearest one for a shape between
    pairs, least : ends, and lengths of the shortest curves, in units of the radius
    shapes : in few pieces
    """

    legs: Rows
    postures: tuple[Posture, ...]
    rows: Rows
    pairs: PosePairs
    least: Array
    shapes: HoseShapes

    @property
    def lengths(self) -> Array:
        """As few pieces tell them; zero where nothing was found."""
        return np.where(self.shapes.found, self.shapes.lengths, 0.0)

    def longest_of(self, leg: int, count: int) -> Rows:
        """The longest few of a leg, longest first."""
        own = np.flatnonzero((self.legs == leg) & self.shapes.found)
        return own[np.argsort(-self.lengths[own], kind="stable")[:count]]


def find_hose_ranges(ranges: Sequence[LegRange]) -> tuple[HoseRange, ...]:
    """Several open legs as real hoses, at little more than the cost of one.

    ranges : their shortest curves over all postures, all for the same bend radius
    """
    if not ranges:
        return ()
    rows = rows_of_legs(ranges)
    motions = [one.motion for one in ranges]
    lyings = follow_shapes(rows, motions)
    on_grid = _Candidates(
        legs=rows.legs[lyings.rows],
        postures=tuple(rows.postures[int(row)] for row in lyings.rows),
        rows=lyings.rows,
        pairs=rows_of(rows.pairs, lyings.rows),
        least=rows.curves.chains.lengths[lyings.rows],
        shapes=lyings.shapes,
    )
    told = _told_finely(_with_those_between(on_grid, motions, rows.centreline_radius_mm), lyings, len(ranges))
    found = [_range(leg, one, rows, lyings, on_grid, told) for leg, one in enumerate(ranges)]
    longest = [
        one.longest_mm / rows.centreline_radius_mm if motion.lock_deg or motion.swing_deg else None
        for one, motion in zip(found, motions, strict=True)
    ]
    one_lengths = find_one_lengths(rows, lyings, longest=longest)
    return tuple(replace(one, one_length=length) for one, length in zip(found, one_lengths, strict=True))


def _with_those_between(grid: _Candidates, motions: Sequence[LegMotion], radius_mm: float) -> _Candidates:
    """Joined by shapes half and quarter steps beside the two postures of each moving leg that ask the most."""
    near: list[int] = []
    postures: list[Posture] = []
    for leg, motion in enumerate(motions):
        for i in grid.longest_of(leg, 2):
            between = _between(grid.postures[int(i)], motion)
            near += [int(i)] * len(between)
            postures += between
    if not near:
        return grid
    which = np.array(near)
    ends = [
        both
        for leg, at in zip(grid.legs[which], postures, strict=True)
        for both in ends_in_postures(motions[int(leg)], [at])
    ]
    pairs = pairs_of(ends=ends, centreline_radius_mm=radius_mm)
    least = find_shortest_curves(pairs).chains.lengths
    rods = choose_rods(grid.shapes.rods, which)
    shapes = shapes_from_neighbours(pairs, rods, least=least, neighbours_least=grid.least[which])
    is_near = np.abs(shapes.lengths - grid.lengths[which]) < _STEEPEST
    return _Candidates(
        legs=np.concatenate([grid.legs, grid.legs[which]]),
        postures=(*grid.postures, *postures),
        rows=np.concatenate([grid.rows, grid.rows[which]]),
        pairs=joined_pairs((grid.pairs, pairs)),
        least=np.concatenate([grid.least, least]),
        shapes=HoseShapes(
            rods=joined_rods(grid.shapes.rods, shapes.rods),
            found=np.concatenate([grid.shapes.found, shapes.found & is_near]),
        ),
    )


def _between(centre: Posture, motion: LegMotion) -> list[Posture]:
    """Half and quarter steps to either side; nothing beyond the stops is asked."""
    bar_step, rear_step = 2 * motion.lock_deg / BAR_STEPS, motion.swing_deg / REAR_STEPS
    low, high = min(0.0, motion.swing_deg), max(0.0, motion.swing_deg)
    moved = [
        Posture(bar_deg=centre.bar_deg + bar * bar_step, rear_deg=centre.rear_deg + rear * rear_step)
        for bar in ((0.0, *_FINER) if bar_step else (0.0,))
        for rear in ((0.0, *_FINER) if rear_step else (0.0,))
        if bar or rear
    ]
    return [one for one in moved if abs(one.bar_deg) <= motion.lock_deg and low <= one.rear_deg <= high]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Told:
    """The shapes that count, told finely: of each leg that at rest and the longest ones.

    legs, postures : what each is of
    is_rest : whether it is the leg's shape at rest, as followed
    rods, lengths : in many pieces, and what both numbers of pieces tell; nan where none was found
    """

    legs: Rows
    postures: tuple[Posture, ...]
    is_rest: Mask
    rods: Rods
    lengths: Array


def _told_finely(all_: _Candidates, lyings: Lyings, count: int) -> _Told:
    known = lyings.shapes.found & ~lyings.is_other
    at_rest = [i for i, is_known in enumerate(known) if is_known and all_.postures[i] == Posture()]
    longest = [int(i) for leg in range(count) for i in all_.longest_of(leg, _TOLD_FINELY)]
    which = np.array(sorted({*at_rest, *longest}), dtype=np.intp)
    shapes = choose_rods(all_.shapes.rods, which)
    rods, lengths, found = refined(rows_of(all_.pairs, which), shapes, least=all_.least[which])
    return _Told(
        legs=all_.legs[which],
        postures=tuple(all_.postures[int(i)] for i in which),
        is_rest=np.isin(which, at_rest),
        rods=rods,
        lengths=np.where(found, lengths, np.nan),
    )


def _range(leg: int, one: LegRange, rows: LegRows, lyings: Lyings, grid: _Candidates, told: _Told) -> HoseRange:
    own = np.flatnonzero(rows.legs == leg)
    least, radius_mm = rows.curves.chains.lengths, one.centreline_radius_mm
    by_row = np.where(rows.is_bent, 0.0, least)
    np.maximum.at(by_row, grid.rows, grid.lengths)
    fine = np.flatnonzero((told.legs == leg) & np.isfinite(told.lengths))
    missing = own[rows.is_bent[own] & (by_row[own] == 0)]
    most_over = int(own[(by_row - least)[own].argmax()])
    asked = [(float(told.lengths[i]), told.postures[int(i)]) for i in fine]
    asked += [(float(least[i]), rows.postures[int(i)]) for i in own if not rows.is_bent[i]]
    known = max((length for length, _ in asked), default=0.0)
    asked += [(max(float(least[i]) + _MOST_OVER, known + _STEEPEST), rows.postures[int(i)]) for i in missing]
    longest, at = max(asked, key=lambda found: found[0])
    return HoseRange(
        rest=_rest_shape(leg, one, bool(rows.is_bent[own[0]]), told),
        longest_mm=(longest + (_MISSED if len(own) > 1 else 0.0)) * radius_mm,
        longest_at=at,
        over_shortest_mm=max(float((by_row - least)[most_over]), 0.0) * radius_mm,
        most_over_mm=float(by_row[most_over]) * radius_mm,
        most_over_at=rows.postures[most_over],
        two_ways=tuple(_two_ways(own, rows, lyings, radius_mm)),
        estimated=tuple(rows.postures[int(i)] for i in missing),
        one_length=None,
    )


def _two_ways(own: Rows, rows: LegRows, lyings: Lyings, radius_mm: float) -> Iterator[tuple[Posture, float, float]]:
    lengths = lyings.shapes.lengths
    for i in np.flatnonzero(lyings.is_other & np.isin(lyings.rows, own)):
        row = lyings.rows[i]
        followed = int(np.flatnonzero(~lyings.is_other & (lyings.rows == row))[0])
        short, long = sorted((float(lengths[followed]), float(lengths[i])))
        yield rows.postures[int(row)], short * radius_mm, long * radius_mm


def _rest_shape(leg: int, one: LegRange, is_bent: bool, told: _Told) -> Curve | None:
    """The relaxed shape at rest, ready to be drawn; the shortest curve where that is straight."""
    start, end, radius_mm = one.motion.start.pose, one.motion.end.pose, one.centreline_radius_mm
    if not is_bent:
        curve = draw_curve(one.curves, row=0, start=start, end=end, centreline_radius_mm=radius_mm)
        return replace(curve, is_proven_shortest=False, is_only_plain_curve=False)
    which = np.flatnonzero((told.legs == leg) & told.is_rest & np.isfinite(told.lengths))
    if not len(which):
        return None
    rods = choose_rods(told.rods, which)
    places = node_places(rods)[0, 1:-1] * radius_mm + np.array(start.position_mm)
    return Curve(
        points_mm=(start.position_mm, *((float(x), float(y), float(z)) for x, y, z in places), end.position_mm),
        length_mm=float(told.lengths[which[0]]) * radius_mm,
        tightest_radius_mm=radius_mm / min(float(curvatures(rods).max()), 1.0),
        shape="relaxed",
    )
