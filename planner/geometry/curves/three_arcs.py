"""Three arcs of one radius, each in its own plane, between poses so close that a straight between arcs is a detour.

In units of the radius. Length is made least by Newton's method from many guesses, for all pairs at once. In one plane
such curves may be the shortest; in space a helicoidal arc near them is shorter still, and they lead there.
"""

from math import pi

import numpy as np
from numpy.typing import NDArray

from planner.geometry.curves.arc_straight_arc import ArcStraightArcs
from planner.geometry.curves.hinge_chains import (
    bends_of,
    misses_and_slopes,
    nearest_step,
    prices_of,
    shortening_step,
    walk,
)
from planner.geometry.curves.pose_pairs import Array, PosePairs, across, crosses, dots, rows_of

_STEPS = 8
_MEETING_STEPS = 6
_FIRST_DAMPING, _LAST_DAMPING, _DAMPING_FALLS = 0.5, 1e-4, 0.6
_ACCEPTED = 1e-8
_FULL_TURN = 2 * pi
_SAME = 1e-2
_MOST_KEPT = 3
_MIDDLE_TURNS = (0.2, 0.5, 1.0, 1.8)
"""Of the third arc, where it is guessed beyond the edge. [rad]"""


def find_three_arcs(pairs: PosePairs, *, plain: ArcStraightArcs) -> tuple[Array, NDArray[np.intp]]:
    """Three-arc curves of locally least length, at most three of different length for each pair, shortest first.

    Returns their hinges, lean and turn of each arc, and which pair each belongs to.

    plain : what the quick way to a plain curve came to, whose straight may go backwards

    Source: H. J. Sussmann, "Shortest 3-dimensional paths with a prescribed curvature bound", Proc. 34th IEEE Conf.
    Decision and Control (1995) 3306-3312, for what the shortest curves are made of; from memory of the paper.
    """
    spread = _first_guesses()
    guesses = np.concatenate([np.tile(spread, (len(pairs), 1)), _past_edge(pairs, plain)])
    every = np.arange(len(pairs))
    rows = np.concatenate([np.repeat(every, len(spread)), np.repeat(every, len(_MIDDLE_TURNS))])
    hinges, is_found = _shortened(guesses, rows_of(pairs, rows))
    hinges, rows = hinges[is_found], rows[is_found]
    lengths = hinges[:, 1::2].sum(axis=1)
    order = np.lexsort((lengths, rows))
    kept: list[int] = []
    for one in order.tolist():
        mates = [other for other in kept[-_MOST_KEPT:] if rows[other] == rows[one]]
        if len(mates) < _MOST_KEPT and all(lengths[one] - lengths[other] > _SAME for other in mates):
            kept.append(one)
    return hinges[kept], rows[kept]


def _shortened(hinges: Array, pairs: PosePairs) -> tuple[Array, NDArray[np.bool_]]:
    rise = np.tile([0.0, 1.0], (len(hinges), 3))
    for step in range(_STEPS + _MEETING_STEPS + 1):
        found = walk(hinges, pairs.starts)
        miss, slope, square = misses_and_slopes(found, pairs)
        if step == _STEPS + _MEETING_STEPS:
            break
        if step < _STEPS:
            hinges = hinges + shortening_step(
                bends=bends_of(found, prices_of(slope, rise), square),
                slope=slope,
                rise=rise,
                miss=miss,
                damping=max(_LAST_DAMPING, _FIRST_DAMPING * _DAMPING_FALLS**step),
            )
        else:
            hinges = hinges + nearest_step(slope=slope, miss=miss)
    within = hinges.copy()
    within[:, 1::2] %= _FULL_TURN
    return within, (np.abs(miss).max(axis=1) < _ACCEPTED) & (dots(found.heading, pairs.ends) > 0)


def edge_hinges(pairs: PosePairs, plain: ArcStraightArcs) -> Array:
    """Lean and turn of the two arcs of a curve whose straight is used up, leaving none between them (rows, 4).

    plain : the curves, the second arc seen back from the end
    """
    headings = np.stack([pairs.starts, -pairs.ends], axis=1)
    c, s = np.cos(plain.turns)[..., None], np.sin(plain.turns)[..., None]
    leaving = c[:, 0] * headings[:, 0] + s[:, 0] * plain.towards[:, 0]
    inward = c * plain.towards - s * headings
    lean = _angles(across(pairs.starts), plain.towards[:, 0], pairs.starts)
    tilt = _angles(inward[:, 0], inward[:, 1], leaving)
    return np.stack([lean, plain.turns[:, 0], tilt, plain.turns[:, 1]], axis=1)


def _past_edge(pairs: PosePairs, plain: ArcStraightArcs) -> Array:
    """Just beyond the edge a short third arc takes the middle, half of the tilt on either side of it."""
    lean, first, tilt, last = np.repeat(edge_hinges(pairs, plain), len(_MIDDLE_TURNS), axis=0).T
    middle = np.tile(_MIDDLE_TURNS, len(pairs))
    return np.stack([lean, first - middle / 2, tilt / 2, middle, tilt / 2, last - middle / 2], axis=1)


def _angles(first: Array, second: Array, axis: Array) -> Array:
    return np.asarray(np.arctan2(dots(crosses(axis, first), second), dots(first, second)))


def _first_guesses() -> Array:
    """In each of twelve planes: a short arc, a long one bent back or coiled on, tilted to a side, a short one."""
    tilts = ((pi - 0.5, -0.9), (pi + 0.5, 0.9))
    return np.array([(plane * pi / 6, 1.0, tilt, 4.0, tilt, 1.0) for plane in range(12) for tilt in tilts[plane % 2]])
