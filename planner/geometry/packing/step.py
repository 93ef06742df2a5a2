"""One step of an interior-point method for round things between walls, for many states at once.

The question of every state is a linear program: the greatest growth g for which
    direction . (centre of first - centre of second) >= apart + gain * g      for every line between two things, and
    normal . centre <= reach - size / 2 - g / 2                              for every thing and every wall.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from planner.geometry.openings.opening_depth import Array

_TO_THE_LIMIT = 0.98
_STEADYING = 1e-10


@dataclass(frozen=True, slots=True, kw_only=True)
class Links:
    """Lines between two things, the same two for every state.

    first, second : indices of the two things
    sign : one row a line: 1 at the first thing, -1 at the second, else 0
    spread : where each thing's walls enter the stiffness: a row for each of their six products, thing by thing, and a
        column for each of its entries
    """

    first: NDArray[np.intp]
    second: NDArray[np.intp]
    sign: Array
    spread: Array


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
    push : states by rows of the program, lines first: multipliers, how hard each limits the growth
    link_count : how many of the rows are lines between things
    """

    centres_mm: Array
    growth_mm: Array
    push: Array
    link_count: int

    @property
    def link_push(self) -> Array:
        """States by lines: how hard each line limits the growth."""
        return self.push[:, : self.link_count]

    @property
    def wall_push(self) -> Array:
        """States by things by walls: how hard each wall, against each thing, limits the growth."""
        return self.push[:, self.link_count :].reshape(*self.centres_mm.shape[:2], -1)

    def only(self, kept: NDArray[np.bool_]) -> "State":
        """The chosen states alone."""
        return State(
            centres_mm=self.centres_mm[kept],
            growth_mm=self.growth_mm[kept],
            push=self.push[kept],
            link_count=self.link_count,
        )


def make_links(*, first: NDArray[np.intp], second: NDArray[np.intp], thing_count: int) -> Links:
    """Lines between pairs of things.

    first, second : indices of the two things of each line
    thing_count : how many things there are
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
    spread = np.zeros((6 * thing_count, wide * wide))
    for row, column, product in (*places, (growth, growth, 5)):
        spread[6 * x + product, row * wide + column] = 1.0
    return Links(first=first, second=second, sign=sign, spread=spread)


def make_wall_rows(normals: Array) -> WallRows:
    """Walls with these normals, ready for the linear program.

    Returns with what each wall adds to the stiffness.

    normals : unit vectors out of the opening: walls by (x, y), or states by things by walls by (x, y)
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
    walls: WallRows,
    slack_mm: Array,
    target: Array,
) -> State:
    """Take one Newton step towards the point where every slack times its push equals the target.

    The step is cut short where a slack or a push would reach zero.

    state : where the states stand; every slack and push above zero
    links : the lines between things
    directions, gains : states by lines by (x, y), and states by lines: the lines' rows of the linear program
    walls : the walls about the things
    slack_mm : states by rows of the program, lines first, then thing by thing its walls: what each has left

    Source: S. Mehrotra, "On the implementation of a primal-dual interior point method", SIAM J. Optim. 2 (1992)
    575-601, for the method, here without its corrector; from memory.
    """
    states, count = state.centres_mm.shape[:2]
    lines = state.link_count
    rows = _link_rows(links, directions, gains)
    weight, pull = state.push / slack_mm, target[:, None] / slack_mm
    stiffness = _stiffness(links, rows, weight[:, :lines], walls, weight[:, lines:].reshape(states, count, -1))
    pulled = _pull(rows, pull[:, :lines], walls, pull[:, lines:].reshape(states, count, -1))
    move = np.linalg.solve(stiffness, pulled[..., None])[..., 0]
    shift = np.asarray(move[:, :-1].reshape(states, 2, count).transpose(0, 2, 1), dtype=np.float64)
    change = np.empty_like(slack_mm)
    change[:, :lines] = np.matmul(rows, move[..., None])[..., 0]
    change[:, lines:] = (-_along(shift, walls) - move[:, -1, None, None] / 2).reshape(states, -1)
    turn = pull - state.push - weight * change
    free, held = _share_allowed(change / slack_mm), _share_allowed(turn / state.push)
    return State(
        centres_mm=state.centres_mm + free[:, None, None] * shift,
        growth_mm=state.growth_mm + free * move[:, -1],
        push=state.push + held[:, None] * turn,
        link_count=lines,
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
    flat += by_thing.reshape(states, -1) @ links.spread
    flat[:, :: wide + 1] += _STEADYING
    return whole


def _pull(rows: Array, link_pull: Array, walls: WallRows, wall_pull: Array) -> Array:
    pull = np.matmul(link_pull[:, None, :], rows)[:, 0]
    by_thing = _sum_over_walls(wall_pull, walls, walls.normals)
    pull[:, :-1] -= by_thing.transpose(0, 2, 1).reshape(len(pull), -1)
    pull[:, -1] += 1 - np.add.reduce(wall_pull, axis=(1, 2)) / 2
    return np.asarray(pull)


def _sum_over_walls(weight: Array, walls: WallRows, factors: Array) -> Array:
    return np.asarray(weight @ factors if walls.is_shared else np.matmul(weight[..., None, :], factors)[..., 0, :])


def _along(shift: Array, walls: WallRows) -> Array:
    if walls.is_shared:
        return np.asarray(shift @ walls.normals.T)
    return np.asarray(np.matmul(walls.normals, shift[..., None])[..., 0])


def _share_allowed(rate: Array) -> Array:
    return np.asarray(_TO_THE_LIMIT / np.maximum(-np.minimum.reduce(rate, axis=1), _TO_THE_LIMIT))
