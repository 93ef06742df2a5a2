"""One step of an interior-point method for round things between walls, for many states at once.

The question of every state is a linear program: the greatest growth g for which
    direction . (centre of first - centre of second) >= apart + gain * g      for every line between two things, and
    normal . centre <= reach - size / 2 - g / 2                              for every thing and every wall.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.geometry.opening_depth import Array

_TO_THE_LIMIT = 0.98
_STEADYING = 1e-10


@dataclass(frozen=True, slots=True, kw_only=True)
class Links:
    """Lines between two things, the same two for every state.

    first, second : indices of the two things
    sign : one row a line: 1 at the first thing, -1 at the second, else 0
    entries, sources : where each thing's walls enter the stiffness, entry by entry, and which of their products does
    """

    first: NDArray[np.intp]
    second: NDArray[np.intp]
    sign: Array
    entries: NDArray[np.intp]
    sources: NDArray[np.intp]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallRows:
    """Walls of the linear program: shared by all things, or for each state and thing their own.

    normals : walls by (x, y), or states by things by walls by (x, y)
    products : for each wall, what it adds to the stiffness: nx nx, nx ny, ny ny, nx / 2, ny / 2, 1 / 4
    """

    normals: Array
    products: Array

    @property
    def is_shared(self) -> bool:
        """Whether all things of all states have the same walls."""
        return self.normals.ndim == 2

    def only(self, kept: NDArray[np.bool_]) -> "WallRows":
        """The walls of the chosen states alone."""
        return self if self.is_shared else WallRows(normals=self.normals[kept], products=self.products[kept])


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """Where many states stand.

    centres_mm : states by things by (x, y) [mm]
    growth_mm : one for each state [mm]
    link_push, wall_push : multipliers: how hard each line, and each wall against each thing, limits the growth
    """

    centres_mm: Array
    growth_mm: Array
    link_push: Array
    wall_push: Array

    def only(self, kept: NDArray[np.bool_]) -> "State":
        """The chosen states alone."""
        return State(
            centres_mm=self.centres_mm[kept],
            growth_mm=self.growth_mm[kept],
            link_push=self.link_push[kept],
            wall_push=self.wall_push[kept],
        )


def make_links(*, first: NDArray[np.intp], second: NDArray[np.intp], thing_count: int) -> Links:
    """Lines between pairs of things.

    Parameters
    ----------
    first, second : arrays of int
        Indices of the two things of each line.
    thing_count : int
        How many things there are.

    Returns
    -------
    Links
        With the sign of each thing in each line.

    References
    ----------
    Common practice, no source.
    """
    sign = np.zeros((len(first), thing_count))
    lines = np.arange(len(first))
    sign[lines, first], sign[lines, second] = 1.0, -1.0
    wide = 2 * thing_count + 1
    x = np.arange(thing_count)
    y, growth = x + thing_count, np.full(thing_count, 2 * thing_count)
    places = (
        (x, x, 0),
        (x, y, 1),
        (y, x, 1),
        (y, y, 2),
        (x, growth, 3),
        (growth, x, 3),
        (y, growth, 4),
        (growth, y, 4),
    )
    return Links(
        first=first,
        second=second,
        sign=sign,
        entries=np.concatenate([row * wide + column for row, column, _ in places]),
        sources=np.concatenate([6 * x + product for *_, product in places]),
    )


def make_wall_rows(normals: Array) -> WallRows:
    """Walls with these normals, ready for the linear program.

    Parameters
    ----------
    normals : Array
        Unit vectors out of the opening: walls by (x, y), or states by things by walls by (x, y).

    Returns
    -------
    WallRows
        With what each wall adds to the stiffness.

    References
    ----------
    Common practice, no source.
    """
    nx, ny = normals[..., 0], normals[..., 1]
    products = np.stack([nx * nx, nx * ny, ny * ny, nx / 2, ny / 2, np.full_like(nx, 0.25)], axis=-1)
    return WallRows(normals=normals, products=products)


def step_towards(
    *,
    state: State,
    links: Links,
    directions: Array,
    gains: Array,
    link_slack_mm: Array,
    walls: WallRows,
    wall_slack_mm: Array,
    target: Array,
) -> State:
    """Take one Newton step towards the point where every slack times its push equals the target.

    The step is cut short where a slack or a push would reach zero.

    Parameters
    ----------
    state : State
        Where the states stand; every slack and push above zero.
    links : Links
        The lines between things.
    directions, gains : Array
        States by lines by (x, y), and states by lines: the lines' rows of the linear program.
    link_slack_mm : Array
        States by lines: what each line has left. [mm]
    walls : WallRows
        The walls about the things.
    wall_slack_mm : Array
        States by things by walls: what each wall has left. [mm]
    target : Array
        One for each state.

    Returns
    -------
    State
        After the step.

    References
    ----------
    S. Mehrotra, "On the implementation of a primal-dual interior point method", SIAM J. Optim. 2 (1992) 575-601, for
    the method, here without its corrector; from memory.
    """
    count = state.centres_mm.shape[1]
    rows = _link_rows(links, directions, gains)
    link_weight, wall_weight = state.link_push / link_slack_mm, state.wall_push / wall_slack_mm
    link_pull, wall_pull = target[:, None] / link_slack_mm, target[:, None, None] / wall_slack_mm
    move = np.linalg.solve(
        _stiffness(links, rows, link_weight, walls, wall_weight), _pull(rows, link_pull, walls, wall_pull)[..., None]
    )[..., 0]
    shift = np.asarray(move[:, :-1].reshape(-1, 2, count).transpose(0, 2, 1), dtype=np.float64)
    link_change = np.matmul(rows, move[..., None])[..., 0]
    wall_change = -_along(shift, walls) - move[:, -1, None, None] / 2
    link_turn = link_pull - state.link_push - link_weight * link_change
    wall_turn = wall_pull - state.wall_push - wall_weight * wall_change
    free = _share_allowed(link_change / link_slack_mm, wall_change / wall_slack_mm)
    held = _share_allowed(link_turn / state.link_push, wall_turn / state.wall_push)
    return State(
        centres_mm=state.centres_mm + free[:, None, None] * shift,
        growth_mm=state.growth_mm + free * move[:, -1],
        link_push=state.link_push + held[:, None] * link_turn,
        wall_push=state.wall_push + held[:, None, None] * wall_turn,
    )


def _link_rows(links: Links, directions: Array, gains: Array) -> Array:
    lines, count = links.sign.shape
    rows = np.empty((len(directions), lines, 2 * count + 1))
    rows[..., :count] = links.sign * directions[..., 0, None]
    rows[..., count:-1] = links.sign * directions[..., 1, None]
    rows[..., -1] = -gains
    return rows


def _stiffness(links: Links, rows: Array, link_weight: Array, walls: WallRows, wall_weight: Array) -> Array:
    whole: Array = np.matmul((rows * link_weight[..., None]).transpose(0, 2, 1), rows)
    states, wide, _ = whole.shape
    by_thing = _sum_over_walls(wall_weight, walls, walls.products)
    flat = whole.reshape(states, -1)
    flat[:, links.entries] += by_thing.reshape(states, -1)[:, links.sources]
    flat[:, -1] += by_thing[..., 5].sum(axis=1)
    flat[:, :: wide + 1] += _STEADYING
    return whole


def _pull(rows: Array, link_pull: Array, walls: WallRows, wall_pull: Array) -> Array:
    pull = np.matmul(link_pull[:, None, :], rows)[:, 0]
    by_thing = _sum_over_walls(wall_pull, walls, walls.normals)
    pull[:, :-1] -= by_thing.transpose(0, 2, 1).reshape(len(pull), -1)
    pull[:, -1] += 1 - wall_pull.sum((1, 2)) / 2
    return np.asarray(pull)


def _sum_over_walls(weight: Array, walls: WallRows, factors: Array) -> Array:
    return np.asarray(weight @ factors if walls.is_shared else np.matmul(weight[..., None, :], factors)[..., 0, :])


def _along(shift: Array, walls: WallRows) -> Array:
    if walls.is_shared:
        return np.asarray(shift @ walls.normals.T)
    return np.asarray(np.matmul(walls.normals, shift[..., None])[..., 0])


def _share_allowed(link_rate: Array, wall_rate: Array) -> Array:
    fastest = -np.minimum(link_rate.min(axis=1, initial=0.0), wall_rate.min(axis=(1, 2)))
    return np.asarray(_TO_THE_LIMIT / np.maximum(fastest, _TO_THE_LIMIT))
