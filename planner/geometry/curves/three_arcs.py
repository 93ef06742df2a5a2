"""Three arcs of one radius, each in its own plane, between poses so close that a straight between arcs is a detour.

In units of the radius. Each arc is a turn about an axis through its centre and each change of plane a turn about the
tangent, so the curve is a chain of six hinges: its first and second derivatives are vector products of the hinge axes.
Length is made least under the five conditions of the end pose by Newton's method on the Lagrangian, from many guesses
at once. Shorter helicoidal arcs exist for some such poses, so this is the best found and not a proven least.
"""

from math import pi

import numpy as np

from planner.geometry.curves.piece_chains import PieceChains
from planner.geometry.curves.pose_pairs import Array, across, crosses, dots

_STEPS = 18
_LONGEST_STEP_RAD = 0.5
_ACCEPTED = 1e-8
_FULL_TURN = 2 * pi
_UNKNOWNS = 6
_CONDITIONS = 5
_MIDDLE_TURNS = (0.2, 0.5, 1.0, 1.8)
"""Of the third arc, where it is guessed beyond the edge. [rad]"""


def find_three_arcs(*, way: Array, start: Array, end: Array, guesses: Array) -> PieceChains | None:
    """The shortest three-arc curve that the guesses handed in, and forty-eight more, lead to.

    None where no guess led to one.

    way : from start to end, in units of the radius
    start, end : unit directions of travel
    guesses : hinges a row: which way around its heading an arc leans, against the last one, and its turn, three times

    Source: H. J. Sussmann, "Shortest 3-dimensional paths with a prescribed curvature bound", Proc. 34th IEEE Conf.
    Decision and Control (1995) 3306-3312, for what the shortest curves are made of; from memory of the paper.
    """
    side = across(end)
    square = np.stack([side, crosses(end, side)], axis=1)
    hinges = np.concatenate([guesses, _first_guesses()])
    for step in range(_STEPS):
        axes, points, place, heading = _chain(hinges, start, across(start))
        miss = np.concatenate([place - way, heading @ square], axis=1)
        if step < _STEPS - 1:
            hinges = hinges + _newton_step(axes, place[:, None] - points, heading, square, miss, step)
    turns = hinges[:, 1::2] % _FULL_TURN
    found = (np.abs(miss).max(axis=1) < _ACCEPTED) & (heading @ end > 0)
    lengths = np.where(found, turns.sum(axis=1), np.inf)
    best = int(np.argmin(lengths))
    if not np.isfinite(lengths[best]):
        return None
    headings, own_axes = axes[best, None, ::2], axes[best, None, 1::2]
    return PieceChains(
        sizes=turns[best, None], bends=np.ones((1, 3)), headings=headings, towards=crosses(own_axes, headings)
    )


def hinges_past_edge(*, start: Array, end: Array, turns: Array, towards: Array) -> Array:
    """First guesses just beyond the posture at which the straight between two arcs is used up.

    There a short third arc takes the middle, half of the tilt between the planes of the two on either side of it.

    turns, towards : of the two arcs, the second seen back from the end, where their straight goes backwards
    """
    headings = np.stack([start, -end])
    c, s = np.cos(turns)[:, None], np.sin(turns)[:, None]
    leaving = c[0] * headings[0] + s[0] * towards[0]
    inward = c * towards - s * headings
    lean = _angle(across(start), towards[0], start)
    tilt = _angle(inward[0], inward[1], leaving)
    middle = np.array(_MIDDLE_TURNS)
    ones = np.ones_like(middle)
    return np.stack(
        [lean * ones, turns[0] - middle / 2, tilt / 2 * ones, middle, tilt / 2 * ones, turns[1] - middle / 2], axis=1
    )


def _angle(first: Array, second: Array, axis: Array) -> float:
    return float(np.arctan2(dots(crosses(axis, first), second), dots(first, second)))


def _first_guesses() -> Array:
    """In each of twelve planes: a short arc, a long one bent back or coiled on, tilted to either side, a short one."""
    return np.array(
        [(plane * pi / 6, 1.0, tilt, 4.0, tilt, 1.0) for plane in range(12) for tilt in (pi - 0.5, pi + 0.5, -0.9, 0.9)]
    )


def _chain(hinges: Array, heading: Array, normal: Array) -> tuple[Array, Array, Array, Array]:
    """Axes and places of the hinges, and the pose at the end of the chain; one row a guess."""
    count = len(hinges)
    t, n = np.broadcast_to(heading, (count, 3)), np.broadcast_to(normal, (count, 3))
    place = np.zeros((count, 3))
    axes, points = np.empty((count, _UNKNOWNS, 3)), np.empty((count, _UNKNOWNS, 3))
    for i in range(0, _UNKNOWNS, 2):
        axes[:, i], points[:, i] = t, place
        c, s = np.cos(hinges[:, i : i + 1]), np.sin(hinges[:, i : i + 1])
        n = c * n + s * crosses(t, n)
        centre = place + n
        axes[:, i + 1], points[:, i + 1] = crosses(t, n), centre
        c, s = np.cos(hinges[:, i + 1 : i + 2]), np.sin(hinges[:, i + 1 : i + 2])
        t, n = c * t + s * n, c * n - s * t
        place = centre - n
    return axes, points, place, t


def _newton_step(axes: Array, arms: Array, heading: Array, square: Array, miss: Array, step: int) -> Array:
    count = len(axes)
    moves, swings = crosses(axes, arms), crosses(axes, heading[:, None])
    slope = np.concatenate([moves, swings @ square], axis=2)
    rise = np.tile([0.0, 1.0], _UNKNOWNS // 2)
    transposed = slope.transpose(0, 2, 1)
    prices = -np.linalg.solve(transposed @ slope + 1e-9 * np.eye(_CONDITIONS), (transposed @ rise)[:, :, None])[:, :, 0]
    by_place = crosses(prices[:, None, :3], axes)
    by_heading = crosses((prices[:, 3:] @ square.T)[:, None], axes)
    curved = np.triu(by_place @ moves.transpose(0, 2, 1) + by_heading @ swings.transpose(0, 2, 1))
    curved = curved + np.triu(curved, 1).transpose(0, 2, 1)
    lowest = np.linalg.eigvalsh(curved + 20 * slope @ transposed)[:, 0]
    raised = np.maximum(0.0, -1.5 * lowest) + max(1e-3, 0.5 * 0.6**step)
    system = np.zeros((count, _UNKNOWNS + _CONDITIONS, _UNKNOWNS + _CONDITIONS))
    system[:, :_UNKNOWNS, :_UNKNOWNS] = curved + raised[:, None, None] * np.eye(_UNKNOWNS)
    system[:, :_UNKNOWNS, _UNKNOWNS:], system[:, _UNKNOWNS:, :_UNKNOWNS] = slope, transposed
    system[:, _UNKNOWNS:, _UNKNOWNS:] = -1e-9 * np.eye(_CONDITIONS)
    right = -np.concatenate([np.broadcast_to(rise, (count, _UNKNOWNS)), miss], axis=1)
    change: Array = np.linalg.solve(system, right[:, :, None])[:, :_UNKNOWNS, 0]
    shorten = np.maximum(1.0, np.abs(change).max(axis=1, keepdims=True) / _LONGEST_STEP_RAD)
    change /= shorten
    return change
