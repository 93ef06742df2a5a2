"""The shortest curve of limited bend between two poses in space; one, or many at once.

Arc-straight-arc curves are all found. Where none is plain, flat words, three arcs in space and helicoidal arcs compete,
the best found of each. Only a straight line is proven.
"""

from collections.abc import Sequence
from math import inf

import numpy as np
from numpy.typing import NDArray

from planner.geometry.curves.all_arc_straight_arcs import find_arc_straight_arcs
from planner.geometry.curves.arc_straight_arc import ArcStraightArcs, find_plain_curves, joined
from planner.geometry.curves.flat_words import find_flat_arcs, find_nearly_flat_curves
from planner.geometry.curves.helicoids import find_arcs_in_space, shortest_of_each
from planner.geometry.curves.piece_chains import (
    PieceChains,
    chain_rows,
    chains_of,
    joined_chains,
    letters_of,
    points_along,
    put_in_space,
    put_rows,
)
from planner.geometry.curves.pose_pairs import Array, Mask, PosePairs, dots, in_own_frames, rows_of
from planner.geometry.motion.frame_axes import Curve, Pose3
from planner.quick_dataclass import dataclass

_CLOSE = 4.0
"""In units of the radius: three arcs can only be shorter between poses closer than this, as in the plane."""

_STRAIGHT = 1e-12


@dataclass(frozen=True, slots=True, kw_only=True)
class ShortestCurves:
    """The shortest curves found between pairs of poses, one a row, in units of the radius.

    chains : the curves
    is_only_plain : whether the curve is plain: an arc, a straight and an arc of no more than half a circle each. In all
        that was tried it was then the only such curve, and nothing else was shorter; without it, what stands here is
        the best found
    """

    chains: PieceChains
    is_only_plain: Mask

    def rows(self, which: NDArray[np.intp]) -> "ShortestCurves":
        """Some of the curves."""
        return ShortestCurves(chains=chain_rows(self.chains, which), is_only_plain=self.is_only_plain[which])


def joined_curves(some: Sequence[ShortestCurves]) -> ShortestCurves:
    """All of them, one after the other."""
    return ShortestCurves(
        chains=joined_chains([curves.chains for curves in some]),
        is_only_plain=np.concatenate([curves.is_only_plain for curves in some]),
    )


def find_shortest_curves(pairs: PosePairs) -> ShortestCurves:
    """The shortest curves of bend radius 1, the same whichever way space is turned and from whichever end.

    Where there is no plain curve, the shortest of all other arc-straight-arc curves, in the plane of three arcs, and
    between close poses of the three arcs in space and the helicoidal arcs found.

    Source: H. J. Sussmann, "Shortest 3-dimensional paths with a prescribed curvature bound", Proc. 34th IEEE Conf.
    Decision and Control (1995) 3306-3312; from memory of the paper. L. E. Dubins, Amer. J. Math. 79 (1957) 497-516,
    for poses in one plane.
    """
    own = in_own_frames(pairs)
    plain = find_plain_curves(own.pairs)
    chains, is_plain = chains_of(own.pairs, plain), plain.is_plain
    left = np.flatnonzero(~is_plain)
    if len(left):
        these = rows_of(own.pairs, left)
        best = _best_with_straight(these)
        chains, is_plain[left] = put_rows(chains, left, chains_of(these, best)), best.is_plain
        lengths = chains.lengths
        lengths[left] = best.lengths
        still = left[~best.is_plain]
        arcs, of = _shorter_arcs(rows_of(own.pairs, still), lengths[still], plain.rows(still))
        chains = put_rows(chains, still[of], arcs)
    far = np.sqrt(dots(pairs.ways, pairs.ways))
    chains = put_in_space(chains, axes=own.axes, is_reversed=own.is_reversed)
    return ShortestCurves(chains=_straightened(chains, pairs, far), is_only_plain=is_plain)


def find_curves_with_straight(pairs: PosePairs) -> tuple[PieceChains, NDArray[np.intp]]:
    """The shortest curves of an arc, a straight and an arc alone, and the rows that have one."""
    own = in_own_frames(pairs)
    best = _best_with_straight(own.pairs)
    which = np.flatnonzero(best.is_found)
    chains = chains_of(rows_of(own.pairs, which), best.rows(which))
    return put_in_space(chains, axes=own.axes[which], is_reversed=own.is_reversed[which]), which


def _straightened(chains: PieceChains, pairs: PosePairs, far: Array) -> PieceChains:
    """Poses in line get exactly the straight between them."""
    off = np.abs(pairs.ways - far[:, None] * pairs.starts).max(axis=1)
    in_line = (off < _STRAIGHT * np.maximum(far, 1)) & (np.abs(pairs.starts - pairs.ends).max(axis=1) < _STRAIGHT)
    chains.sizes[in_line], chains.sizes[in_line, 1] = 0.0, far[in_line]
    return chains


def _best_with_straight(pairs: PosePairs) -> ArcStraightArcs:
    """The shortest arc-straight-arc curve of each pair; infinitely long where there is none."""
    found, rows = find_arc_straight_arcs(pairs)
    flat, flat_rows = find_nearly_flat_curves(pairs)
    found, rows = joined((found, flat)), np.concatenate([rows, flat_rows])
    order = np.lexsort((found.turns[:, 0], found.lengths, rows))
    of, first = np.unique(rows[order], return_index=True)
    best = ArcStraightArcs(
        turns=np.zeros((len(pairs), 2)),
        straights=np.zeros(len(pairs)),
        towards=np.zeros((len(pairs), 2, 3)),
        misses=np.full(len(pairs), inf),
    )
    chosen = found.rows(order[first])
    best.turns[of], best.straights[of], best.towards[of] = chosen.turns, chosen.straights, chosen.towards
    best.misses[of] = chosen.misses
    return best


def _shorter_arcs(pairs: PosePairs, lengths: Array, plain: ArcStraightArcs) -> tuple[PieceChains, NDArray[np.intp]]:
    """Curves of arcs alone that are shorter than what was found with a straight, and the rows they belong to.

    lengths : of what was found
    plain : what the quick way to a plain curve came to
    """
    flat = [(arcs, row) for row in range(len(pairs)) if (arcs := find_flat_arcs(pairs, row)) is not None]
    chains, rows = [arcs for arcs, _ in flat], [np.array([row for _, row in flat], dtype=np.intp)]
    close = np.flatnonzero(np.sqrt(dots(pairs.ways, pairs.ways)) < _CLOSE)
    if len(close):
        found = find_arcs_in_space(rows_of(pairs, close))
        chains += [arcs for arcs, _ in found]
        rows += [close[of] for _, of in found]
    which = np.concatenate(rows)
    together = joined_chains(chains) if chains else chain_rows(chains_of(pairs, plain), which)
    shorter = np.where(together.lengths < lengths[which], together.lengths, inf)
    best = shortest_of_each(shorter, which)
    return chain_rows(together, best), which[best]


def draw_curve(found: ShortestCurves, *, row: int, start: Pose3, end: Pose3, centreline_radius_mm: float) -> Curve:
    """One of the curves found, with the points to draw it by.

    start, end : the poses it was found between
    centreline_radius_mm : that it was found for
    """
    letters = letters_of(found.chains, row)
    places = points_along(found.chains, row)[1:-1] * centreline_radius_mm + np.array(start.position_mm)
    inner = tuple((float(x), float(y), float(z)) for x, y, z in places)
    return Curve(
        points_mm=(start.position_mm, *inner, end.position_mm),
        length_mm=float(found.chains.lengths[row]) * centreline_radius_mm,
        tightest_radius_mm=None if letters == "S" else centreline_radius_mm,
        shape=letters,
        is_proven_shortest=letters == "S",
        is_only_plain_curve=bool(found.is_only_plain[row]),
    )
