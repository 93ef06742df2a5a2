"""Curves of an arc, a straight and an arc between two poses in space, many pairs at once. In units of the radius.

Seen from either end alike: an arc that turns by t out of a heading a towards the unit vector n carries its traveller by
sin(t) a + (1 - cos(t)) n and leaves along cos(t) a + sin(t) n. Both leavings must lie on one straight: six conditions
on five numbers (two turns, which way around its heading either arc leans, the straight), held by Gauss-Newton steps.

Where a curve with both turns up to half a circle exists it is called plain. In some ten thousands of random pairs it
was then the only one, and nothing else was shorter, in space or in the plane: measured, not proven.

Where there is none, curves without a straight may be shorter: helicoidal arcs, and in the plane three arcs.
"""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from planner.geometry.curves.pose_pairs import Array, Mask, PosePairs, across, crosses, dots, rows_of, square_to
from planner.quick_dataclass import dataclass

FULL_TURN = 2 * np.pi
ACCEPTED = 1e-9
_ROUNDS = 3
_WIDEST_TANGENT = 3.0
_SHARE_OF_WAY = 0.9
_LONGEST_STEP_RAD = 0.5
_DAMPING = 1e-13
_EXACT = 1e-13
_STEPS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcStraightArcs:
    """One such curve a row, both ends told alike: the second looks back from the pair's end.

    turns : of the two arcs, 0 to a full turn (rows, 2). [rad]
    straights : between them (rows)
    towards : unit vectors from either end towards its arc's centre (rows, 2, 3)
    misses : how far the two halves are from meeting (rows)
    """

    turns: Array
    straights: Array
    towards: Array
    misses: Array

    @property
    def is_found(self) -> Mask:
        """Whether the halves meet and the straight goes forward."""
        return (self.misses < ACCEPTED) & (self.straights > -ACCEPTED)

    @property
    def is_plain(self) -> Mask:
        """Whether it is found and neither arc turns by more than half a circle."""
        return self.is_found & (self.turns <= np.pi + ACCEPTED).all(axis=1)

    @property
    def lengths(self) -> Array:
        """Of the whole; infinite for what was not found."""
        return np.where(self.is_found, self.turns.sum(axis=1) + np.maximum(self.straights, 0.0), np.inf)

    def rows(self, which: NDArray[np.intp] | Mask) -> "ArcStraightArcs":
        """Some of the curves."""
        return ArcStraightArcs(
            turns=self.turns[which],
            straights=self.straights[which],
            towards=self.towards[which],
            misses=self.misses[which],
        )


def joined(curves: Sequence[ArcStraightArcs]) -> ArcStraightArcs:
    """The rows of several, one after the other."""
    return ArcStraightArcs(
        turns=np.concatenate([one.turns for one in curves]),
        straights=np.concatenate([one.straights for one in curves]),
        towards=np.concatenate([one.towards for one in curves]),
        misses=np.concatenate([one.misses for one in curves]),
    )


def find_plain_curves(pairs: PosePairs) -> ArcStraightArcs:
    """The curve whose arcs are both up to half a circle, by the quick way; ask each row whether it `is_plain`.

    The straight's direction is first guessed from the corners that the end tangents and it would make.

    Source: H. J. Sussmann, "Shortest 3-dimensional paths with a prescribed curvature bound", Proc. 34th IEEE Conf.
    Decision and Control (1995) 3306-3312; from memory of the paper. The equations: plane geometry, derived.
    """
    ways, headings = pairs.ways, _headings(pairs)
    far = np.sqrt(dots(ways, ways))
    leaving = np.where((far > ACCEPTED)[:, None], ways / np.maximum(far, ACCEPTED)[:, None], across(pairs.starts))
    longest = np.minimum(_WIDEST_TANGENT, _SHARE_OF_WAY * far)[:, None]
    for _ in range(_ROUNDS):
        cosines = np.stack([dots(leaving, pairs.starts), dots(leaving, pairs.ends)], axis=1)
        tangents = np.minimum(np.sqrt(np.maximum(1 - cosines, 0) / np.maximum(1 + cosines, 1e-12)), longest)
        way = ways - tangents[:, :1] * pairs.starts - tangents[:, 1:] * pairs.ends
        size = np.sqrt(dots(way, way))[:, None]
        leaving = np.where(size > ACCEPTED, way / np.maximum(size, ACCEPTED), leaving)
    both = np.stack([leaving, -leaving], axis=1)
    towards, sines = square_to(both, headings)
    towards = np.where((sines > ACCEPTED)[..., None], towards, across(headings))
    return meet_halves(pairs, turns=np.arctan2(sines, dots(both, headings)), towards=towards)


def meet_halves(pairs: PosePairs, *, turns: Array, towards: Array) -> ArcStraightArcs:
    """The curves that first guesses of their arcs lead to.

    Steps are taken on the curve itself, where nothing vanishes, not on equations made from it.

    turns, towards : of both arcs, as in the result
    """
    straights = _nearest_straights(pairs, turns, towards)
    misses = np.full(len(pairs), np.inf)
    open_ = np.arange(len(pairs))
    turns, towards = turns.copy(), towards.copy()
    for step in range(_STEPS):
        these = rows_of(pairs, open_)
        t, s, n = turns[open_], straights[open_], towards[open_]
        miss, slope, sideways = _conditions(these, t, s, n)
        misses[open_] = np.abs(miss).max(axis=1)
        moving = misses[open_] > _EXACT
        if step == _STEPS - 1 or not moving.any():
            break
        change = _least_squares_step(miss, slope)
        turns[open_] = t + change[:, [0, 3]]
        straights[open_] = s + change[:, 2]
        leaned = n + np.tan(change[:, [1, 4]])[..., None] * sideways
        towards[open_] = leaned / np.sqrt(dots(leaned, leaned))[..., None]
        open_ = open_[moving]
    within = turns % FULL_TURN
    within = np.where(within > FULL_TURN - ACCEPTED, 0.0, within)
    return ArcStraightArcs(turns=within, straights=straights, towards=towards, misses=misses)


def misses_of(pairs: PosePairs, *, turns: Array, towards: Array) -> tuple[Array, Array]:
    """How far halves told by their arcs are from meeting, and the straight that brings them nearest."""
    straights = _nearest_straights(pairs, turns, towards)
    places, leavings = _halves(pairs, turns, towards)
    gap = places[:, 0] + straights[:, None] * leavings[:, 0] - pairs.ways - places[:, 1]
    apart = leavings[:, 0] + leavings[:, 1]
    return np.maximum(np.abs(gap).max(axis=1), np.abs(apart).max(axis=1)), straights


def _headings(pairs: PosePairs) -> Array:
    return np.stack([pairs.starts, -pairs.ends], axis=1)


def _halves(pairs: PosePairs, turns: Array, towards: Array) -> tuple[Array, Array]:
    """Where either arc leaves its traveller, from its own end, and which way."""
    headings = _headings(pairs)
    c, s = np.cos(turns)[..., None], np.sin(turns)[..., None]
    return s * headings + (1 - c) * towards, c * headings + s * towards


def _nearest_straights(pairs: PosePairs, turns: Array, towards: Array) -> Array:
    places, leavings = _halves(pairs, turns, towards)
    return dots(pairs.ways + places[:, 1] - places[:, 0], leavings[:, 0])


def _conditions(pairs: PosePairs, turns: Array, straights: Array, towards: Array) -> tuple[Array, Array, Array]:
    """What is missed (rows, 6), its slopes (rows, 6, 5), and which way either arc's centre goes when it leans."""
    headings, straight = _headings(pairs), straights[:, None]
    c, s = np.cos(turns)[..., None], np.sin(turns)[..., None]
    places, leavings = s * headings + (1 - c) * towards, c * headings + s * towards
    onward, sideways = c * towards - s * headings, crosses(headings, towards)
    miss = np.concatenate(
        [places[:, 0] + straight * leavings[:, 0] - pairs.ways - places[:, 1], leavings[:, 0] + leavings[:, 1]], axis=1
    )
    slope = np.zeros((len(pairs), 6, 5))
    slope[:, :3, 0], slope[:, 3:, 0] = leavings[:, 0] + straight * onward[:, 0], onward[:, 0]
    slope[:, :3, 1], slope[:, 3:, 1] = (1 - c + straight[:, None] * s)[:, 0] * sideways[:, 0], (s * sideways)[:, 0]
    slope[:, :3, 2] = leavings[:, 0]
    slope[:, :3, 3], slope[:, 3:, 3] = -leavings[:, 1], onward[:, 1]
    slope[:, :3, 4], slope[:, 3:, 4] = (c - 1)[:, 1] * sideways[:, 1], (s * sideways)[:, 1]
    return miss, slope, sideways


def _least_squares_step(miss: Array, slope: Array) -> Array:
    """Damped by so little that it only matters where a lean is free, as on an axis of symmetry."""
    across_ = slope.transpose(0, 2, 1)
    normal = across_ @ slope
    normal[:, range(5), range(5)] += _DAMPING
    change = -np.linalg.solve(normal, across_ @ miss[:, :, None])[:, :, 0]
    longest = np.abs(change[:, [0, 1, 3, 4]]).max(axis=1, keepdims=True)
    limited: Array = change / np.maximum(1.0, longest / _LONGEST_STEP_RAD)
    return limited
