"""Hoses over the postures of bar and rear, each followed on one branch from rest to the stops."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from planner.geometry.curves.elastica_chain import Rods, choose_rods, joined_rods, put_rods
from planner.geometry.curves.hose_shapes import HoseShapes, blank_rods, shapes_from_curves, shapes_from_neighbours
from planner.geometry.curves.legs import BAR_STEPS, REAR_STEPS, LegMotion, LegRange, Posture, ends_in_postures
from planner.geometry.curves.pose_pairs import Array, Mask, PosePairs, dots, joined_pairs, pairs_of, rows_of
from planner.geometry.curves.space_curves import ShortestCurves, find_shortest_curves, joined_curves
from planner.quick_dataclass import dataclass

Rows = NDArray[np.intp]

STRAIGHT = 1e-5
"""In units of the bend radius: a shortest curve this little longer than its chord is as good as relaxed."""

_SUBSTEPS = (2, 4, 8, 16)
_STEEPEST, _ROUNDING = 4.0, 0.02
"""How much a length may change for what its ends move and turn, before the shape is taken for another one."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LegRows:
    """Legs in the postures of their grids, one a row.

    legs : which leg a row is of
    postures : where bar and rear stand
    depths : how many strides from rest
    parents : the row of the neighbour it is followed from, nearer to rest; the row itself at rest
    pairs, curves : ends and shortest curves, in units of the radius
    centreline_radius_mm : the tightest bend allowed
    """

    legs: Rows
    postures: tuple[Posture, ...]
    depths: Rows
    parents: Rows
    pairs: PosePairs
    curves: ShortestCurves
    centreline_radius_mm: float

    @property
    def is_bent(self) -> Mask:
        """Whether there is anything to relax."""
        apart = np.sqrt(dots(self.pairs.ways, self.pairs.ways))
        bent: Mask = self.curves.chains.lengths - apart > STRAIGHT
        return bent


@dataclass(frozen=True, slots=True, kw_only=True)
class Lyings:
    """Ways in which hoses lie; a row of the legs may have two.

    rows : which row of the legs each is for
    shapes : in few pieces
    is_other : whether it was reached from its own shortest curve while another one was followed from rest
    """

    rows: Rows
    shapes: HoseShapes
    is_other: Mask


def rows_of_legs(ranges: Sequence[LegRange]) -> LegRows:
    """The grids of several legs, one after the other."""
    legs: list[int] = []
    postures: list[Posture] = []
    depths: list[int] = []
    parents: list[int] = []
    for leg, one in enumerate(ranges):
        places = {_place(posture, one.motion): len(postures) + i for i, posture in enumerate(one.postures[: one.grid])}
        for posture in one.postures[: one.grid]:
            bar, rear = _place(posture, one.motion)
            nearer = (bar, rear - _stride(rear)) if rear else (bar - _stride(bar), 0)
            legs.append(leg)
            depths.append((abs(bar) + 1) // 2 + (rear + 1) // 2)
            parents.append(places[nearer] if (bar, rear) != (0, 0) else places[0, 0])
        postures += one.postures[: one.grid]
    grids = [np.arange(one.grid) for one in ranges]
    return LegRows(
        legs=np.array(legs, dtype=np.intp),
        postures=tuple(postures),
        depths=np.array(depths, dtype=np.intp),
        parents=np.array(parents, dtype=np.intp),
        pairs=joined_pairs([rows_of(one.pairs, grid) for one, grid in zip(ranges, grids, strict=True)]),
        curves=joined_curves([one.curves.rows(grid) for one, grid in zip(ranges, grids, strict=True)]),
        centreline_radius_mm=ranges[0].centreline_radius_mm,
    )


def _stride(steps: int) -> int:
    """Two steps of the grid at a time, one to those between."""
    stride = 2 if steps % 2 == 0 else 1
    return stride if steps > 0 else -stride


def _place(posture: Posture, motion: LegMotion) -> tuple[int, int]:
    """Steps of bar and rear from rest."""
    bar_step, rear_step = 2 * motion.lock_deg / BAR_STEPS, motion.swing_deg / REAR_STEPS
    return (
        round(posture.bar_deg / bar_step) if bar_step else 0,
        round(posture.rear_deg / rear_step) if rear_step else 0,
    )


def follow_shapes(rows: LegRows, motions: Sequence[LegMotion]) -> Lyings:
    """How each hose lies in each posture: at rest near its shortest curve, elsewhere as its neighbour nearer to rest.

    At the farthest postures, and in every posture of a leg that lies differently there, it is looked at also from the
    shortest curve: then the hose has two ways to lie. A branch that ends is left for that other way.

    motions : of the legs
    """
    bent = rows.is_bent
    deepest = np.zeros(len(motions), dtype=np.intp)
    np.maximum.at(deepest, rows.legs, rows.depths)
    at_stops = bent & (rows.depths == deepest[rows.legs])
    alone = _from_curves(rows, np.flatnonzero(bent & ((rows.depths == 0) | at_stops)))
    state = _State(rods=blank_rods(rows.pairs), found=np.zeros(len(bent), dtype=np.bool_))
    state = state.with_these(alone.rows, alone.shapes, only=rows.depths[alone.rows] == 0)
    left: list[int] = []
    for depth in range(1, int(rows.depths.max(initial=0)) + 1):
        layer = np.flatnonzero(bent & (rows.depths == depth))
        ready = layer[state.found[rows.parents[layer]]]
        state = _followed(rows, motions, state, ready)
        lost = layer[~state.found[layer]]
        ended = _from_curves(rows, lost)
        state = state.with_these(lost, ended.shapes, only=np.ones(len(lost), dtype=np.bool_))
        left += lost.tolist()
    differs = _lie_otherwise(state, alone)
    more = np.flatnonzero(bent & np.isin(rows.legs, rows.legs[alone.rows[differs]]) & (rows.depths > 0))
    others = _from_curves(rows, np.setdiff1d(more, left))
    kept = _lie_otherwise(state, others)
    followed = np.flatnonzero(bent)
    shapes = HoseShapes(rods=choose_rods(state.rods, followed), found=state.found[followed])
    return Lyings(
        rows=np.concatenate([followed, others.rows[kept]]),
        shapes=HoseShapes(
            rods=joined_rods(shapes.rods, choose_rods(others.shapes.rods, kept)),
            found=np.concatenate([shapes.found, others.shapes.found[kept]]),
        ),
        is_other=np.concatenate([np.zeros(len(followed), dtype=np.bool_), np.ones(int(kept.sum()), dtype=np.bool_)]),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _State:
    """What is known so far of every row."""

    rods: Rods
    found: Mask

    def with_these(self, rows: Rows, shapes: HoseShapes, *, only: Mask) -> "_State":
        kept = only & shapes.found
        found = self.found.copy()
        found[rows[kept]] = True
        return _State(rods=put_rods(self.rods, rows[kept], choose_rods(shapes.rods, kept)), found=found)


def _from_curves(rows: LegRows, which: Rows) -> Lyings:
    pairs, curves = rows_of(rows.pairs, which), rows.curves.rows(which)
    if not len(which):
        nothing = HoseShapes(rods=blank_rods(pairs), found=np.zeros(0, dtype=np.bool_))
        return Lyings(rows=which, shapes=nothing, is_other=np.zeros(0, dtype=np.bool_))
    shapes = shapes_from_curves(pairs, curves)
    return Lyings(rows=which, shapes=shapes, is_other=np.ones(len(which), dtype=np.bool_))


def _lie_otherwise(state: _State, others: Lyings) -> Mask:
    """Where another shape was found that is not the one followed."""
    lengths = state.rods.steps.sum(axis=1)[others.rows]
    differs: Mask = np.abs(others.shapes.lengths - lengths) > _ROUNDING
    return differs & others.shapes.found & state.found[others.rows]


def _followed(rows: LegRows, motions: Sequence[LegMotion], state: _State, which: Rows) -> _State:
    """Shapes from those of the neighbours nearer to rest.

    Where one step is too far, from the shortest curve if that leads to the same branch, else in ever smaller steps.
    """
    for count in (1, 0, *_SUBSTEPS):
        if not len(which):
            break
        if count == 0:
            near = rows_of(rows.pairs, rows.parents[which]), rows_of(rows.pairs, which)
            alone = _from_curves(rows, which).shapes
            same = _is_same_branch(*near, choose_rods(state.rods, rows.parents[which]), alone)
            state = state.with_these(which, alone, only=same)
            which = which[~(same & alone.found)]
            continue
        now = choose_rods(state.rods, rows.parents[which])
        kept = np.ones(len(which), dtype=np.bool_)
        before, was_least = rows_of(rows.pairs, rows.parents[which]), rows.curves.chains.lengths[rows.parents[which]]
        for i in range(1, count + 1):
            pairs, least = _part_way(rows, motions, which, i / count)
            shapes = shapes_from_neighbours(pairs, now, least=least, neighbours_least=was_least)
            kept &= shapes.found & _is_same_branch(before, pairs, now, shapes)
            now, before, was_least = shapes.rods, pairs, least
        state = state.with_these(which, HoseShapes(rods=now, found=kept), only=kept)
        which = which[~kept]
    return state


def _part_way(rows: LegRows, motions: Sequence[LegMotion], which: Rows, share: float) -> tuple[PosePairs, Array]:
    """Ends and least lengths between the neighbours' postures and those asked."""
    if share == 1:
        return rows_of(rows.pairs, which), rows.curves.chains.lengths[which]
    ends = []
    for row in which:
        near, far = rows.postures[int(rows.parents[row])], rows.postures[int(row)]
        between = Posture(
            bar_deg=near.bar_deg + share * (far.bar_deg - near.bar_deg),
            rear_deg=near.rear_deg + share * (far.rear_deg - near.rear_deg),
        )
        ends += ends_in_postures(motions[int(rows.legs[row])], [between])
    pairs = pairs_of(ends=ends, centreline_radius_mm=rows.centreline_radius_mm)
    return pairs, find_shortest_curves(pairs).chains.lengths


def _is_same_branch(before: PosePairs, after: PosePairs, was: Rods, shapes: HoseShapes) -> Mask:
    moved = np.sqrt(dots(after.ways - before.ways, after.ways - before.ways))
    turned = sum(np.sqrt(dots(b - a, b - a)) for a, b in ((before.starts, after.starts), (before.ends, after.ends)))
    change = np.abs(shapes.lengths - was.steps.sum(axis=1))
    same: Mask = change <= _STEEPEST * (moved + turned) + _ROUNDING
    return same
