"""Three arcs of one radius, each in its own plane, between poses so close that a straight between arcs is a detour.

In units of the radius. Each arc is a turn about an axis through its centre and each change of plane a turn about the
tangent, so the curve is a chain of six hinges: its first and second derivatives are vector products of the hinge axes.
Length is made least under the five conditions of the end pose by Newton's method on the Lagrangian, from many guesses
at once. Shorter helicoidal arcs exist for some such poses, so this is the best found and not a proven least.
"""

from math import pi
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.geometry.vectors import across, cross, moved
from planner.parts import Point

Array = NDArray[np.float64]

_STEPS = 18
_LONGEST_STEP_RAD = 0.5
_ACCEPTED = 1e-8
_FULL_TURN = 2 * pi
_UNKNOWNS = 6
_CONDITIONS = 5


class ThreeArcs(NamedTuple):
    """Three arcs in units of the radius.

    length : of the whole
    turns : of each arc [rad]
    towards : unit vector each arc turns towards where it begins
    """

    length: float
    turns: tuple[float, float, float]
    towards: tuple[Point, Point, Point]


def find_three_arcs(*, goal: Point, start_heading: Point, end_heading: Point) -> ThreeArcs | None:
    """The shortest three-arc curve that thirty-two first guesses lead to.

    None where no guess led to one.

    goal : from start to end, in units of the radius
    start_heading, end_heading : unit directions of travel

    Source: H. J. Sussmann, "Shortest 3-dimensional paths with a prescribed curvature bound", Proc. 34th IEEE Conf.
    Decision and Control (1995) 3306-3312, for what the shortest curves are made of; from memory of the paper.
    """
    side, up = across(end_heading), cross(end_heading, across(end_heading))
    square = np.array([side, up]).T
    first, last = np.array(start_heading), np.array(end_heading)
    hinges = _first_guesses()
    for step in range(_STEPS):
        axes, points, place, heading = _chain(hinges, first, np.array(across(start_heading)))
        miss = np.concatenate([place - np.array(goal), heading @ square], axis=1)
        if step < _STEPS - 1:
            hinges = hinges + _newton_step(axes, place[:, None] - points, heading, square, miss, step)
    turns = hinges[:, 1::2] % _FULL_TURN
    found = (np.abs(miss).max(axis=1) < _ACCEPTED) & (heading @ last > 0)
    lengths = np.where(found, turns.sum(axis=1), np.inf)
    best = int(np.argmin(lengths))
    if not np.isfinite(lengths[best]):
        return None
    a, b, c = (float(turn) for turn in turns[best])
    return ThreeArcs(length=a + b + c, turns=(a, b, c), towards=_towards(hinges[best], (a, b, c), start_heading))


def _first_guesses() -> Array:
    """In each of eight planes: a short arc, a long one bent back or coiled on, tilted to either side, a short one."""
    return np.array(
        [(plane * pi / 4, 1.0, tilt, 4.0, tilt, 1.0) for plane in range(8) for tilt in (pi - 0.5, pi + 0.5, -0.9, 0.9)]
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
        n = c * n + s * _cross(t, n)
        centre = place + n
        axes[:, i + 1], points[:, i + 1] = _cross(t, n), centre
        c, s = np.cos(hinges[:, i + 1 : i + 2]), np.sin(hinges[:, i + 1 : i + 2])
        t, n = c * t + s * n, c * n - s * t
        place = centre - n
    return axes, points, place, t


def _newton_step(axes: Array, arms: Array, heading: Array, square: Array, miss: Array, step: int) -> Array:
    count = len(axes)
    moves, swings = _cross(axes, arms), _cross(axes, heading[:, None])
    slope = np.concatenate([moves, swings @ square], axis=2)
    rise = np.tile([0.0, 1.0], _UNKNOWNS // 2)
    transposed = slope.transpose(0, 2, 1)
    prices = -np.linalg.solve(transposed @ slope + 1e-9 * np.eye(_CONDITIONS), (transposed @ rise)[:, :, None])[:, :, 0]
    by_place = _cross(prices[:, None, :3], axes)
    by_heading = _cross((prices[:, 3:] @ square.T)[:, None], axes)
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


def _cross(a: Array, b: Array) -> Array:
    """Vector products; three times as fast as numpy's for so few rows."""
    ax, ay, az = a[..., 0], a[..., 1], a[..., 2]
    bx, by, bz = b[..., 0], b[..., 1], b[..., 2]
    return np.stack([ay * bz - az * by, az * bx - ax * bz, ax * by - ay * bx], axis=-1)


def _towards(hinges: Array, turns: tuple[float, ...], heading: Point) -> tuple[Point, Point, Point]:
    normal, found = across(heading), []
    for plane, turn in zip(hinges[::2], turns, strict=True):
        normal = _turned(normal, cross(heading, normal), float(plane))
        found.append(normal)
        heading, normal = _turned(heading, normal, turn), _turned(normal, heading, -turn)
    return found[0], found[1], found[2]


def _turned(first: Point, second: Point, turn: float) -> Point:
    c, s = float(np.cos(turn)), float(np.sin(turn))
    return moved((c * first[0], c * first[1], c * first[2]), second, s)
