"""Every curve in space made of an arc, a straight and an arc between two poses, many pairs of poses at once.

In units of the radius. An arc that turns by `turn` from heading h towards a unit normal n leaves along
u = cos(turn) h + sin(turn) n. Written as the vector v = turn n in the plane normal to h, the arc has no special case:
u and the place where it ends are smooth in v, also where the turn passes half a circle. With u' = du/dturn, an arc
carries its traveller by sin(turn) u - (1 - cos(turn)) u', whichever end h is at. Start and end arc share u, so

    D = stretch u - (1 - cos a) u_a' - (1 - cos b) u_b',     u_a = u_b,     stretch = straight + sin a + sin b

which is solved for v_a, v_b and the stretch by damped Gauss-Newton steps from several first guesses.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]

_STEPS = 24
_LONGEST_STEP_RAD = 0.8
_CONVERGED = 1e-12
_ACCEPTED = 1e-9


@dataclass(frozen=True, slots=True, kw_only=True)
class ArcStraightArcs:
    """The solutions found, one row a pair of poses, one column a first guess; all in units of the radius.

    lengths : whole length; infinite where this guess led to no curve
    first_turns, last_turns : turn of the arcs [rad]
    straights : length between the arcs
    first_normals, last_normals : unit vectors from the heading at that end towards the arc's turn
    """

    lengths: Array
    first_turns: Array
    last_turns: Array
    straights: Array
    first_normals: Array
    last_normals: Array


class _Arc(NamedTuple):
    """One end's arc for every row: its turn, the way it leaves, and how that changes."""

    turn: Array
    normal: Array  # unit, from the heading towards the turn
    side: Array  # unit, square to heading and normal
    leaving: Array  # u
    change: Array  # u' = du/dturn
    cos: Array
    sin: Array
    sin_over_turn: Array
    versine_over_turn: Array
    polar: Array  # cosine and sine of the normal's place in its plane


def find_arc_straight_arcs(*, displacements: Array, start_headings: Array, end_headings: Array) -> ArcStraightArcs:
    """All arc-straight-arc curves between pairs of poses that eleven first guesses lead to.

    Four curves a guess: either arc the short or the long way round. Idealised: a line without thickness.

    Parameters
    ----------
    displacements : Array
        From start to end, in units of the radius; one row a pair.
    start_headings, end_headings : Array
        Unit directions of travel; one row a pair.

    Returns
    -------
    ArcStraightArcs
        Every guess's result, an infinite length where it led nowhere.

    References
    ----------
    H. J. Sussmann, "Shortest 3-dimensional paths with a prescribed curvature bound", Proc. 34th IEEE Conf. Decision
    and Control (1995) 3306-3312: a shortest curve is a helicoidal arc or made of arcs and straights (CSC, CCC);
    from memory of the paper. The equations above are plane geometry.
    """
    guesses = _guess_leavings(displacements, start_headings, end_headings)
    rows, count, _ = guesses.shape
    many = 4 * count
    start, end = np.repeat(start_headings, many, axis=0), np.repeat(end_headings, many, axis=0)
    goal = np.repeat(displacements, many, axis=0)
    start_axes, end_axes = _normal_axes(start), _normal_axes(end)
    leaving = np.repeat(guesses.reshape(-1, 3), 4, axis=0)
    long_first = np.tile([False, False, True, True], rows * count)
    long_last = np.tile([False, True, False, True], rows * count)
    first = _turn_vectors(leaving, start, start_axes, long_first)
    last = _turn_vectors(leaving, end, end_axes, long_last)
    stretch = np.einsum("nk,nk->n", leaving, goal)
    first, last, stretch, error = _solve(goal, (start, start_axes), (end, end_axes), first, last, stretch)
    arc_a, arc_b = _arc(first, start, start_axes), _arc(last, end, end_axes)
    straight = stretch - arc_a.sin[:, 0] - arc_b.sin[:, 0]
    found = (error < _ACCEPTED) & (straight > -_ACCEPTED) & (np.maximum(arc_a.turn, arc_b.turn) < 2 * np.pi)
    straight = np.maximum(straight, 0.0)
    lengths = np.where(found, arc_a.turn + arc_b.turn + straight, np.inf)
    return ArcStraightArcs(
        lengths=lengths.reshape(rows, many),
        first_turns=arc_a.turn.reshape(rows, many),
        last_turns=arc_b.turn.reshape(rows, many),
        straights=straight.reshape(rows, many),
        first_normals=arc_a.normal.reshape(rows, many, 3),
        last_normals=arc_b.normal.reshape(rows, many, 3),
    )


def _solve(
    goal: Array,
    start: tuple[Array, tuple[Array, Array]],
    end: tuple[Array, tuple[Array, Array]],
    first: Array,
    last: Array,
    stretch: Array,
) -> tuple[Array, Array, Array, Array]:
    for _ in range(_STEPS):
        a, b = _arc(first, *start), _arc(last, *end)
        reach = stretch[:, None] * a.leaving - (1 - a.cos) * a.change - (1 - b.cos) * b.change
        miss = np.concatenate([reach - goal, a.leaving - b.leaving], axis=1)
        error = np.abs(miss).max(axis=1)
        if bool((error < _CONVERGED).all()):
            break
        step = _step(a, b, stretch[:, None], miss, error)
        first = first + _in_plane(step[:, 0:2], a.polar)
        last = last + _in_plane(step[:, 2:4], b.polar)
        stretch = stretch + step[:, 4]
    return first, last, stretch, error


def _step(a: _Arc, b: _Arc, stretch: Array, miss: Array, error: Array) -> Array:
    slope = np.zeros((len(miss), 6, 5))
    slope[:, :3, 0] = (stretch - a.sin) * a.change + (1 - a.cos) * a.leaving
    slope[:, :3, 1] = (stretch * a.sin_over_turn - a.versine_over_turn * a.cos) * a.side
    slope[:, :3, 2] = (1 - b.cos) * b.leaving - b.sin * b.change
    slope[:, :3, 3] = -b.versine_over_turn * b.cos * b.side
    slope[:, :3, 4] = a.leaving
    slope[:, 3:, 0] = a.change
    slope[:, 3:, 1] = a.sin_over_turn * a.side
    slope[:, 3:, 2] = -b.change
    slope[:, 3:, 3] = -b.sin_over_turn * b.side
    across = slope.transpose(0, 2, 1)
    normal = across @ slope
    normal[:, range(5), range(5)] += 1e-13 + 1e-3 * np.minimum(error, 1.0)[:, None] ** 2
    step: Array = np.linalg.solve(normal, -(across @ miss[:, :, None]))[:, :, 0]
    return step / np.maximum(1.0, np.abs(step[:, :4]).max(axis=1) / _LONGEST_STEP_RAD)[:, None]


def _arc(vector: Array, heading: Array, axes: tuple[Array, Array]) -> _Arc:
    turn = np.hypot(vector[:, 0], vector[:, 1])
    none = turn < 1e-12
    divisor = np.where(none, 1.0, turn)[:, None]
    polar = np.where(none[:, None], (1.0, 0.0), vector / divisor)
    normal = polar[:, :1] * axes[0] + polar[:, 1:] * axes[1]
    side = polar[:, :1] * axes[1] - polar[:, 1:] * axes[0]
    cos, sin = np.cos(turn)[:, None], np.sin(turn)[:, None]
    return _Arc(
        turn=turn,
        normal=normal,
        side=side,
        leaving=cos * heading + sin * normal,
        change=cos * normal - sin * heading,
        cos=cos,
        sin=sin,
        sin_over_turn=np.where(none[:, None], 1.0, sin / divisor),
        versine_over_turn=(1 - cos) / divisor,
        polar=polar,
    )


def _in_plane(step: Array, polar: Array) -> Array:
    """A step given along and across the turn vector, in the axes of its plane."""
    along, across = step[:, :1], step[:, 1:]
    return along * polar + across * np.stack([-polar[:, 1], polar[:, 0]], axis=1)


def _turn_vectors(leaving: Array, heading: Array, axes: tuple[Array, Array], long_way: Array) -> Array:
    """The turn vector that makes an arc leave in a given direction, the short or the long way round."""
    flat = np.stack([np.einsum("nk,nk->n", leaving, axis) for axis in axes], axis=1)
    size = np.hypot(flat[:, 0], flat[:, 1])
    turn = np.arctan2(size, np.einsum("nk,nk->n", leaving, heading))
    none = size < 1e-9
    towards = np.where(none[:, None], (1.0, 0.0), flat / np.where(none, 1.0, size)[:, None])
    vectors: Array = np.where(long_way, turn - 2 * np.pi, turn)[:, None] * towards
    return vectors


def _guess_leavings(displacement: Array, start: Array, end: Array) -> Array:
    """First guesses for the straight's direction: towards the goal, along and against both headings, and across."""
    goal = _unit(displacement + 1e-12)
    across = _unit(np.cross(start, end) + 1e-9 * np.cross(start, (0.3, 0.5, 0.8)))
    beside = _unit(np.cross(across, start) + 0.01)
    back_a, back_b = 1e-3 * across - start, -1e-3 * across - end
    guesses = (goal, back_a, back_b, -goal, across, -across, beside, -beside, start, end, start + end + 1e-9)
    return np.stack([_unit(guess) for guess in guesses], axis=1)


def _unit(vectors: Array) -> Array:
    lengths: Array = np.linalg.norm(vectors, axis=1, keepdims=True)
    return vectors / lengths


def _normal_axes(heading: Array) -> tuple[Array, Array]:
    """Two unit vectors square to each heading and to each other."""
    least = np.zeros_like(heading)
    np.put_along_axis(least, np.argmin(np.abs(heading), axis=1)[:, None], 1.0, axis=1)
    first = _unit(np.cross(heading, least))
    return first, np.cross(heading, first)
