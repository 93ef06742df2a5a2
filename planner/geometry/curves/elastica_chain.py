"""The least-bent shape of clamped rods of given lengths, many rods at once, as chains of unit tangents.

Each rod is cut at nodes, closer together near its ends. Its unknowns are the unit tangents t at the inner nodes and
the force f that holds its far end in place. Between two nodes the tangent turns by theta along a great circle, so the
bending energy is theta^2 / 2h and the way covered, as along a circular arc, h q (t_i + t_j) with
q = tan(theta/2)/theta: a Ritz method with linear elements. Newton's method on energy minus force times way, damped
where the shape is not yet a valley. Lengths in units of the bend radius.
"""

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from planner.geometry.curves.pose_pairs import Array, Mask
from planner.quick_dataclass import dataclass

_LARGEST_STEP_RAD = 0.4
_MOST_STEPS = 40
_UNGUARDED_STEPS = 6
_HALVINGS = 7
_HAIR = 1e-9
_EVENLY = 0.25
"""Share of the nodes that is spread evenly; the rest gathers towards the two ends."""

_CONVERGED = 1e-5
"""How far a node may be off before the last step, which takes it fifty times closer. [rad]"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rods:
    """Several clamped rods, each a row.

    tangents : unit tangents at the nodes (rods, nodes, 3); the first and last are clamped
    forces : that hold the far ends (rods, 3)
    steps : lengths between nodes (rods, nodes - 1)
    goals : from start to end (rods, 3)
    """

    tangents: Array
    forces: Array
    steps: Array
    goals: Array


def place_nodes(*, count: int, lengths: Array, first_turns: Array, last_turns: Array) -> Array:
    """Where to cut rods so that sharp bends near their ends are met with short pieces.

    Returns shares of the length from 0 to 1, one row a rod.

    count : how many pieces
    lengths : of the rods, in units of the bend radius
    first_turns, last_turns : about how far each rod turns near its ends, which is how long its end bends are. [rad]

    Source: Common practice in solving boundary value problems: nodes at equal steps of a function that rises where
    the solution changes fast; here the logarithm of the distance from either end.
    """
    wanted = np.linspace(0.0, 1.0, count + 1)[None]
    length, near, far = lengths[:, None], first_turns[:, None], last_turns[:, None]
    low, high = np.zeros((len(lengths), count + 1)), np.ones((len(lengths), count + 1))
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        is_below = _rise(middle, length, near, far)[0] < wanted
        low, high = np.where(is_below, middle, low), np.where(is_below, high, middle)
    nodes = (low + high) / 2
    for _ in range(2):
        rise, slope = _rise(nodes, length, near, far)
        nodes = np.clip(nodes - (rise - wanted) / slope, low, high)
    nodes[:, 0], nodes[:, -1] = 0.0, 1.0
    return nodes


def _rise(share: Array, length: Array, near: Array, far: Array) -> tuple[Array, Array]:
    """Share of the nodes that lie before a share of the length, and how fast it rises there."""
    before, after = np.log1p(share * length / near), np.log1p((1 - share) * length / far)
    to_start, to_end = np.log1p(length / near), np.log1p(length / far)
    ends = (1 - _EVENLY) / 2
    rise = _EVENLY * share + ends * (before / to_start + 1 - after / to_end)
    slope = _EVENLY + ends * length * (
        1 / (to_start * (near + share * length)) + 1 / (to_end * (far + (1 - share) * length))
    )
    return rise, slope


def relax(rods: Rods, *, guarded: bool) -> tuple[Rods, NDArray[np.bool_]]:
    """Let rods take their least-bent shape.

    Returns which of them came to rest.

    rods : first guesses
    guarded : whether every step is checked to go downhill; needed from a rough guess, not from a neighbouring shape

    Source: M. Moll, L. E. Kavraki, "Path planning for deformable linear objects", IEEE Trans. Robotics 22(4) (2006)
    625-636: a hose's shape as the curve of least bending energy between two clamped ends.
    """
    tangents, forces = rods.tangents.copy(), rods.forces.copy()
    restless = np.arange(len(tangents))
    for step in range(_MOST_STEPS):
        if not len(restless):
            break
        still_moving = Rods(
            tangents=tangents[restless],
            forces=forces[restless],
            steps=rods.steps[restless],
            goals=rods.goals[restless],
        )
        moved, errors = _newton_step(still_moving, guarded or step >= _UNGUARDED_STEPS)
        tangents[restless], forces[restless] = moved.tangents, moved.forces
        restless = restless[errors > _CONVERGED]
    found = np.ones(len(tangents), dtype=np.bool_)
    found[restless] = False
    return Rods(tangents=tangents, forces=forces, steps=rods.steps, goals=rods.goals), found


def curvatures(rods: Rods) -> Array:
    """How sharply each rod bends at its nodes, and then at the middles between them, per bend radius.

    Half the squared curvature plus the force along the tangent is the same all along an elastica; its value comes from
    the mean over all pieces, which also gives the curvature at the clamps.

    Returns one row a rod; 1 is the bend radius.

    Source: R. Levien, "The elastica: a mathematical history", UC Berkeley UCB/EECS-2008-103 (2008).
    """
    t, h, f = rods.tangents, rods.steps, rods.forces
    turns, _, share, _ = _pieces(t)
    sums = t[:, 1:] + t[:, :-1]
    middle = sums / np.linalg.norm(sums, axis=2, keepdims=True)
    along = np.einsum("pnk,pk->pn", middle, f)
    across_squared = (f * f).sum(axis=1)[:, None] - along**2
    squared = (turns / h) ** 2 + h**2 / 12 * across_squared
    way = share * np.einsum("pnk,pk->pn", sums, f)
    constant = (h * (squared + 2 * way)).sum(axis=1) / h.sum(axis=1)
    headings = np.concatenate([t, middle], axis=1)
    curved: Array = np.sqrt(np.maximum(constant[:, None] - 2 * np.einsum("pnk,pk->pn", headings, f), 0.0))
    return curved


def node_places(rods: Rods) -> Array:
    """Where the nodes lie, from each rod's start.

    Returns places (rods, nodes, 3), in units of the bend radius.

    rods : any shapes
    """
    t = rods.tangents
    _, _, share, _ = _pieces(t)
    ways = (rods.steps * share)[:, :, None] * (t[:, 1:] + t[:, :-1])
    places = np.zeros_like(t)
    np.cumsum(ways, axis=1, out=places[:, 1:])
    return places


def _pieces(t: Array) -> tuple[Array, Array, Array, Array]:
    """For each piece: its turn, turn / sin(turn), its share q of the way, and dq / d cos(turn); series to turn^4."""
    apart = t[:, 1:] - t[:, :-1]
    turn = 2 * np.arcsin(np.minimum(1.0, np.sqrt((apart * apart).sum(axis=2)) / 2))
    square = turn * turn
    ratio = 1 + square / 6 + 7 * square * square / 360
    share = 0.5 + square / 24 + square * square / 240
    return turn, ratio, share, -(1 / 12 + square * (1 / 60 + 1 / 72))


class NewtonSystem(NamedTuple):
    """What one step needs: rows of linear equations for the turns of the inner tangents and the change of the forces.

    matrix : (rods, unknowns, unknowns)
    wanted : right-hand side that brings each rod to rest (rods, unknowns)
    by_length : right-hand side for what a small relative change of the length asks (rods, unknowns)
    axes : two axes of turning at each inner node (rods, nodes - 2, 2, 3)
    errors : how far each rod is from rest (rods). [rad]
    """

    matrix: Array
    wanted: Array
    by_length: Array
    axes: Array
    errors: Array


def newton_system(rods: Rods, *, guarded: bool) -> NewtonSystem:
    """Energy minus force times way, to the second order around the shapes as they are.

    guarded : whether each is made a valley, so that a step goes downhill
    """
    t, f, h = rods.tangents, rods.forces, rods.steps
    count = len(t)
    _, ratio, share, slope = _pieces(t)
    sums = t[:, 1:] + t[:, :-1]
    stiff, drawn = ratio / h, h * slope * np.einsum("pnk,pk->pn", sums, f)
    pull, way = stiff + drawn, h * share
    weight = way[:, 1:] + way[:, :-1]
    axes = _axes(t[:, 1:-1])
    loaded = weight[:, :, None] * f[:, None]
    steepest = -_pulled(t, pull) - loaded
    gradient = np.einsum("pnak,pnk->pna", axes, steepest)
    covered = np.einsum("pn,pnk->pk", way, sums)
    gap = rods.goals - covered
    errors = np.maximum(np.abs(gradient / pull[:, 1:, None]).max(axis=(1, 2)), np.abs(gap).max(axis=1))
    matrix = _system(axes, t[:, 1:-1], steepest, pull, weight)
    if guarded:
        _make_valley(matrix, h, weight)
    with_length = np.einsum("pnak,pnk->pna", axes, _pulled(t, stiff - drawn) - loaded)
    return NewtonSystem(
        matrix=matrix,
        wanted=-np.concatenate([gradient.reshape(count, -1), gap], axis=1),
        by_length=-np.concatenate([with_length.reshape(count, -1), -covered], axis=1),
        axes=axes,
        errors=errors,
    )


def _pulled(t: Array, pull: Array) -> Array:
    pulled: Array = t[:, :-2] * pull[:, :-1, None] + t[:, 2:] * pull[:, 1:, None]
    return pulled


def shortened(step: Array) -> Array:
    """How much of each step to take, so that no tangent turns too far at once."""
    largest = np.abs(step[:, :-3]).max(axis=1)
    share: Array = np.minimum(1.0, _LARGEST_STEP_RAD / np.maximum(largest, 1e-30))
    return share


def stepped(rods: Rods, axes: Array, step: Array, *, stretch: Array | None = None) -> Rods:
    """The rods after a step.

    axes : of turning, from the system that the step solves
    stretch : factor of each length; None where they stay
    """
    turns = step[:, :-3].reshape(*axes.shape[:3])
    moved = rods.tangents[:, 1:-1] + np.einsum("pna,pnak->pnk", turns, axes)
    tangents = rods.tangents.copy()
    tangents[:, 1:-1] = moved / np.sqrt((moved * moved).sum(axis=2, keepdims=True))
    steps = rods.steps if stretch is None else rods.steps * stretch[:, None]
    return Rods(tangents=tangents, forces=rods.forces + step[:, -3:], steps=steps, goals=rods.goals)


def _newton_step(rods: Rods, guarded: bool) -> tuple[Rods, Array]:
    system = newton_system(rods, guarded=guarded)
    step = solved(system.matrix, system.wanted[:, :, None])[:, :, 0]
    return stepped(rods, system.axes, step * shortened(step)[:, None]), system.errors


def solved(matrix: Array, right: Array) -> Array:
    """Solutions of rows of linear equations; what a wandering rod makes unsolvable is moved a hair aside."""
    try:
        return np.asarray(np.linalg.solve(matrix, right), dtype=np.float64)
    except np.linalg.LinAlgError:
        return np.asarray(np.linalg.solve(matrix + _HAIR * np.eye(matrix.shape[1]), right), dtype=np.float64)


def are_valleys(rods: Rods) -> Mask:
    """Whether each shape lies in a valley of the energy, so that it stays where it is."""
    system = newton_system(rods, guarded=False)
    size = system.matrix.shape[1] - 3
    found = np.zeros(len(rods.steps), dtype=np.bool_)
    for row, matrix in enumerate(system.matrix):
        found[row] = _is_valley(_held(matrix[:size, :size], matrix[:size, size:], rods.steps[row]))
    return found


def _held(curved: Array, border: Array, steps: Array) -> Array:
    """The energy's second derivatives, made steep in the directions that would move the far end."""
    held: Array = curved + 400 * len(steps) ** 2 / steps.sum() ** 3 * (border @ border.T)
    return held


def choose_rods(rods: Rods, which: NDArray[np.intp] | Mask) -> Rods:
    """Some of the rods."""
    return Rods(
        tangents=rods.tangents[which], forces=rods.forces[which], steps=rods.steps[which], goals=rods.goals[which]
    )


def joined_rods(first: Rods, second: Rods) -> Rods:
    """Both, one after the other."""
    return Rods(
        tangents=np.concatenate([first.tangents, second.tangents]),
        forces=np.concatenate([first.forces, second.forces]),
        steps=np.concatenate([first.steps, second.steps]),
        goals=np.concatenate([first.goals, second.goals]),
    )


def put_rods(rods: Rods, which: NDArray[np.intp] | Mask, these: Rods) -> Rods:
    """The rods with some of them replaced."""
    new = Rods(
        tangents=rods.tangents.copy(), forces=rods.forces.copy(), steps=rods.steps.copy(), goals=rods.goals.copy()
    )
    new.tangents[which], new.forces[which] = these.tangents, these.forces
    new.steps[which], new.goals[which] = these.steps, these.goals
    return new


def _system(axes: Array, t: Array, steepest: Array, pull: Array, weight: Array) -> Array:
    """Second derivatives of energy minus force times way, bordered with the way's first derivatives.

    What the change of q adds to the second derivatives is left out: it is of the order of turn^2 and costs a step more.
    """
    count, inner = t.shape[:2]
    size = 2 * inner
    system = np.zeros((count, size + 3, size + 3))
    flat = system.reshape(count, -1)
    own = np.arange(size) * (size + 4)
    flat[:, own] = np.repeat(-(t * steepest).sum(axis=2), 2, axis=1)
    links = -np.einsum("pnak,pnbk->pnab", axes[:, :-1], axes[:, 1:]) * pull[:, 1:-1, None, None]
    row = 2 * np.arange(inner - 1)[:, None, None] + np.arange(2)[None, :, None]
    column = 2 * np.arange(1, inner)[:, None, None] + np.arange(2)[None, None, :]
    flat[:, (row * (size + 3) + column).ravel()] = links.reshape(count, -1)
    flat[:, (column * (size + 3) + row).ravel()] = links.reshape(count, -1)
    border = -(weight[:, :, None, None] * axes).reshape(count, size, 3)
    system[:, :size, size:] = border
    system[:, size:, :size] = border.transpose(0, 2, 1)
    return system


def _make_valley(system: Array, h: Array, weight: Array) -> None:
    """Raise the diagonal until the shape is a valley in every direction that keeps the ends in place."""
    size = system.shape[1] - 3
    diagonal = np.arange(size)
    for row in range(len(system)):
        border = system[row, :size, size:]
        curved = _held(system[row, :size, :size], border, h[row])
        add, raised = np.repeat(weight[row], 2), 0.0
        while not _is_valley(curved + np.diag(raised * add)):
            raised = max(3 * raised, 0.3)
        system[row, diagonal, diagonal] += raised * add


def _is_valley(matrix: Array) -> bool:
    try:
        np.linalg.cholesky(matrix)
    except np.linalg.LinAlgError:
        return False
    return True


def _axes(t: Array) -> Array:
    """Two unit vectors square to each tangent and to each other, without branches or square roots."""
    x, y, z = t[..., 0], t[..., 1], t[..., 2]
    sign = np.where(z < 0, -1.0, 1.0)
    a = -1 / (sign + z)
    b = x * y * a
    return np.stack([1 + sign * x * x * a, sign * b, -sign * x, b, sign + y * y * a, -y], axis=-1).reshape(
        *t.shape[:-1], 2, 3
    )
