"""The shortest curve of limited bend between two poses in space; one, or many at once."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from planner.errors import ImpossibleDimensionError
from planner.geometry.curves.all_arc_straight_arcs import find_arc_straight_arcs
from planner.geometry.curves.arc_straight_arc import ArcStraightArcs, find_plain_curves, joined
from planner.geometry.curves.flat_words import find_flat_arcs, find_nearly_flat_curves
from planner.geometry.curves.piece_chains import (
    PieceChains,
    chains_of,
    letters_of,
    points_along,
    put_in_space,
    put_rows,
)
from planner.geometry.curves.pose_pairs import Array, Mask, PosePairs, dots, in_own_frames, pairs_of, rows_of
from planner.geometry.curves.three_arcs import find_three_arcs, hinges_past_edge
from planner.geometry.motion.frame_axes import Curve, Pose3

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


def find_shortest_curves(pairs: PosePairs) -> ShortestCurves:
    """The shortest curves of bend radius 1, the same whichever way space is turned and from whichever end.

    Where there is no plain curve, the shortest of all other arc-straight-arc curves, in the plane of three arcs, and
    between close poses of three arcs in space. Helicoidal arcs, which may be shorter still, are left out.

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
        for row in left[~best.is_plain]:
            arcs = _shorter_arcs(own.pairs, int(row), float(lengths[row]), plain)
            chains = chains if arcs is None else put_rows(chains, np.array([row]), arcs)
    far = np.sqrt(dots(pairs.ways, pairs.ways))
    chains = put_in_space(chains, axes=own.axes, is_reversed=own.is_reversed)
    return ShortestCurves(chains=_straightened(chains, pairs, far), is_only_plain=is_plain)


def _straightened(chains: PieceChains, pairs: PosePairs, far: Array) -> PieceChains:
    """Poses in line get exactly the straight between them."""
    off = np.abs(pairs.ways - far[:, None] * pairs.starts).max(axis=1)
    in_line = (off < _STRAIGHT * np.maximum(far, 1)) & (np.abs(pairs.starts - pairs.ends).max(axis=1) < _STRAIGHT)
    chains.sizes[in_line] = np.stack([0 * far, far, 0 * far], axis=1)[in_line]
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


def _shorter_arcs(pairs: PosePairs, row: int, length: float, plain: ArcStraightArcs) -> PieceChains | None:
    """Three arcs between the poses of this row, flat or in space; None where none are shorter."""
    way, start, end = pairs.ways[row], pairs.starts[row], pairs.ends[row]
    candidates = [find_flat_arcs(pairs, row)]
    if np.sqrt(way @ way) < _CLOSE:
        guesses = hinges_past_edge(start=start, end=end, turns=plain.turns[row], towards=plain.towards[row])
        candidates.append(find_three_arcs(way=way, start=start, end=end, guesses=guesses))
    found = [arcs for arcs in candidates if arcs is not None and arcs.lengths[0] < length]
    return min(found, key=lambda arcs: float(arcs.lengths[0]), default=None)


def shortest_bend_limited_curves(*, ends: Sequence[tuple[Pose3, Pose3]], centreline_radius_mm: float) -> ShortestCurves:
    """The shortest lines between several pairs of poses that nowhere bend tighter than allowed.

    A real hose springs outward of them and needs more.

    ends : where each line starts and ends, heading in the direction of travel
    centreline_radius_mm : the tightest bend allowed, to the centre line

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.

    Source: as `find_shortest_curves`.
    """
    if not 0 < centreline_radius_mm < inf:
        raise ImpossibleDimensionError(
            name="centreline_radius_mm", value=centreline_radius_mm, unit="mm", rule="must be above zero"
        )
    return find_shortest_curves(pairs_of(ends=ends, centreline_radius_mm=centreline_radius_mm))


def shortest_bend_limited_curve(*, start: Pose3, end: Pose3, centreline_radius_mm: float) -> Curve:
    """The shortest line between two poses that nowhere bends tighter than allowed, ready to be drawn.

    Returns the curve with its length; its shape is S, CSC or CCC. Only a straight line is proven shortest.

    start : where the line starts, heading in the direction of travel
    end : where it ends, heading in the direction of travel there
    centreline_radius_mm : the tightest bend allowed, to the centre line

    Raises ImpossibleDimensionError when the radius is not above zero or a heading has no length.

    Source: as `find_shortest_curves`.
    """
    found = shortest_bend_limited_curves(ends=((start, end),), centreline_radius_mm=centreline_radius_mm)
    return draw_curve(found, row=0, start=start, end=end, centreline_radius_mm=centreline_radius_mm)


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
