"""A placement brought to its last digit: Newton steps on just the contacts that hold it, against true arcs."""

from dataclasses import dataclass
from math import atan2, cos, hypot, sin

import numpy as np

from planner.geometry.opening_depth import Array
from planner.geometry.opening_shape import SeenArcs, corner_depth
from planner.geometry.packing_step import State
from planner.geometry.packing_walls import walls_about

_PUSH_THAT_COUNTS = 1e-2
_PUSH_KEPT = 1e-6
_THROUGH_MM = 1e-7
_ROUNDS = 5
_STEPS = 7
_DONE_MM = 1e-6
_STEADYING = 1e-9
_LONGEST_STEP_RATIO = 0.3
_TOUCH_STEPS = 12
_SLOPE_MM = 1e-13
_LONGEST_TURN_RAD = 0.2


@dataclass(frozen=True, slots=True, kw_only=True)
class Contacts:
    """What holds a placement.

    pairs : indices of two things that touch, with how hard
    walls : a thing, the direction of the edge it touches, whether that edge is straight, and how hard
    """

    pairs: tuple[tuple[int, int, float], ...]
    walls: tuple[tuple[int, float, bool, float], ...]


def contacts_of(*, seen: SeenArcs, state: State, index: int, walls_per_quarter: int) -> Contacts:
    """The contacts that limit the growth of one state.

    Neighbouring walls that push the same thing are one contact with the arc they stand for.

    Parameters
    ----------
    seen : SeenArcs
        The opening as the line sees it.
    state : State
        Where a search ended.
    index : int
        Which of its states.
    walls_per_quarter : int
        How many walls stood for each quarter of a turn.

    Returns
    -------
    Contacts
        Those that push at least a hundredth as hard as the hardest.

    References
    ----------
    Plane geometry; no outside source needed.
    """
    link_push, wall_push = state.link_push[index], state.wall_push[index]
    least = _PUSH_THAT_COUNTS * max(float(link_push.max(initial=0.0)), float(wall_push.max()))
    first, second = np.triu_indices(wall_push.shape[0], 1)
    pairs = [(int(first[k]), int(second[k]), float(link_push[k])) for k in np.flatnonzero(link_push > least)]
    normals = walls_about(seen, walls_per_quarter).normals
    walls: list[tuple[int, float, bool, float]] = []
    for thing, pushes in enumerate(wall_push):
        for group in _neighbours(np.flatnonzero(pushes > least).tolist(), len(normals)):
            nx, ny = (pushes[group] @ normals[group]).tolist()
            is_flat = len(group) == 1 and _is_flat(seen, normals[group[0]].tolist())
            walls.append((thing, atan2(ny, nx), is_flat, hypot(nx, ny)))
    return Contacts(pairs=tuple(pairs), walls=tuple(walls))


def _neighbours(places: list[int], around: int) -> list[list[int]]:
    groups: list[list[int]] = []
    for place in places:
        if groups and place - groups[-1][-1] <= 1 and around > 4:
            groups[-1].append(place)
        else:
            groups.append([place])
    if len(groups) > 1 and around > 4 and groups[0][0] == 0 and groups[-1][-1] == around - 1:
        groups[0] = groups.pop() + groups[0]
    return groups


def _is_flat(seen: SeenArcs, normal: list[float]) -> bool:
    return bool((normal[0] == 0 and seen.flat_x_mm > 0) or (normal[1] == 0 and seen.flat_y_mm > 0))


def polish(*, seen: SeenArcs, diameters_mm: Array, centres_mm: Array, contacts: Contacts) -> Array:
    """Move a placement to where its contacts hold it best.

    A contact that would have to pull is let go, one that is pushed through is taken in, and the rest moved again.

    Parameters
    ----------
    seen : SeenArcs
        The opening as the line sees it.
    diameters_mm : Array
        Outer diameters. [mm]
    centres_mm : Array
        One row (x, y) for each thing. [mm]
    contacts : Contacts
        What touches what.

    Returns
    -------
    Array
        The new centres; not checked: the caller measures what growth they allow. [mm]

    References
    ----------
    Newton's method on the conditions of Karush, Kuhn and Tucker; textbook, from memory.
    """
    sizes = diameters_mm.tolist()
    spot = _Spot(centres=centres_mm.tolist(), growth=None, pairs=list(contacts.pairs), walls=list(contacts.walls))
    for _ in range(_ROUNDS):
        if not _settle(seen, sizes, spot):
            break
        if not (_let_go(spot) or _take_in(seen, sizes, spot)):
            break
    return np.array(spot.centres)


@dataclass(slots=True)
class _Spot:
    """Where the Newton steps stand: changed as they go."""

    centres: list[list[float]]
    growth: float | None
    pairs: list[tuple[int, int, float]]
    walls: list[tuple[int, float, bool, float]]


def _settle(seen: SeenArcs, sizes: list[float], spot: _Spot) -> bool:
    """Newton steps until nothing moves; False where they lead nowhere."""
    longest = _LONGEST_STEP_RATIO * min(sizes)
    count = len(sizes)
    for _ in range(_STEPS):
        rows, slack, bend = _conditions(seen, sizes, spot)
        every = len(slack)
        growth = min(slack[k] / -rows[k][-1] for k in range(every)) if spot.growth is None else spot.growth
        whole = np.zeros((2 * count + 1 + every,) * 2)
        held = 2 * count + 1
        matrix = np.array(rows)
        whole[:held, :held] = bend
        whole[:held, held:], whole[held:, :held] = matrix.T, matrix
        whole[np.arange(held), np.arange(held)] -= _STEADYING
        whole[np.arange(held, held + every), np.arange(held, held + every)] -= _STEADYING / 10
        right = np.concatenate([np.zeros(held), -np.array(slack) - matrix[:, -1] * growth])
        right[held - 1] = -1.0
        try:
            solution = np.linalg.solve(whole, right).tolist()
        except np.linalg.LinAlgError:
            return False
        size = max(map(abs, solution[:held]))
        share = min(1.0, longest / size) if size > 0 else 1.0
        spot.growth = growth + share * solution[held - 1]
        for i, centre in enumerate(spot.centres):
            centre[0] += share * solution[2 * i]
            centre[1] += share * solution[2 * i + 1]
        pushes = solution[held:]
        spot.pairs = [(i, j, push) for (i, j, _), push in zip(spot.pairs, pushes, strict=False)]
        spot.walls = [
            (i, angle, flat, push)
            for (i, angle, flat, _), push in zip(spot.walls, pushes[len(spot.pairs) :], strict=True)
        ]
        if size < _DONE_MM:
            return True
    return False


def _let_go(spot: _Spot) -> bool:
    hardest = min([push for *_, push in spot.pairs] + [push for *_, push in spot.walls])
    if hardest >= -_PUSH_KEPT:
        return False
    spot.pairs = [pair for pair in spot.pairs if pair[-1] > hardest]
    spot.walls = [wall for wall in spot.walls if wall[-1] > hardest]
    return bool(spot.pairs or spot.walls)


def _take_in(seen: SeenArcs, sizes: list[float], spot: _Spot) -> bool:
    """Add the pair or the edge that is pushed through furthest, if any is."""
    assert spot.growth is not None
    known = {(i, j) for i, j, _ in spot.pairs}
    worst, pair, wall = -_THROUGH_MM, None, None
    for i, (x, y) in enumerate(spot.centres):
        depth, nx, ny = corner_depth(abs(x) - seen.flat_x_mm, abs(y) - seen.flat_y_mm, seen.arc_x_mm, seen.arc_y_mm)
        slack = depth - (sizes[i] + spot.growth) / 2
        if slack < worst:
            angle = atan2(ny if y >= 0 else -ny, nx if x >= 0 else -nx)
            worst, pair, wall = slack, None, (i, angle, 0.0 in (nx, ny) and _is_flat(seen, [nx, ny]), 0.0)
        for j in range(i + 1, len(sizes)):
            apart = hypot(x - spot.centres[j][0], y - spot.centres[j][1])
            slack = apart - (sizes[i] + sizes[j]) / 2 - spot.growth
            if slack < worst and (i, j) not in known:
                worst, pair, wall = slack, (i, j, 0.0), None
    if pair:
        spot.pairs.append(pair)
    if wall:
        spot.walls.append(wall)
    return bool(pair or wall)


def _conditions(
    seen: SeenArcs, sizes: list[float], spot: _Spot
) -> tuple[list[list[float]], list[float], list[list[float]]]:
    """How each contact's slack changes with (x, y) of each thing and growth; its slack at no growth; pushes' bend."""
    wide = 2 * len(sizes) + 1
    rows: list[list[float]] = []
    slack: list[float] = []
    bend = [[0.0] * wide for _ in range(wide)]
    for i, j, push in spot.pairs:
        dx, dy = spot.centres[i][0] - spot.centres[j][0], spot.centres[i][1] - spot.centres[j][1]
        distance = hypot(dx, dy)
        nx, ny = dx / distance, dy / distance
        row = [0.0] * wide
        row[2 * i], row[2 * i + 1], row[2 * j], row[2 * j + 1], row[-1] = nx, ny, -nx, -ny, -1.0
        rows.append(row)
        slack.append(distance - (sizes[i] + sizes[j]) / 2)
        for one, two, sign in ((i, i, push), (j, j, push), (i, j, -push), (j, i, -push)):
            _add_bend(bend, 2 * one, 2 * two, sign / distance, -ny, nx)
    for w, (i, angle, is_flat, push) in enumerate(spot.walls):
        angle, depth, to_centre = _touch(seen, spot.centres[i][0], spot.centres[i][1], angle, is_flat)
        spot.walls[w] = (i, angle, is_flat, push)
        c, s = cos(angle), sin(angle)
        row = [0.0] * wide
        row[2 * i], row[2 * i + 1], row[-1] = -c, -s, -0.5
        rows.append(row)
        slack.append(depth - sizes[i] / 2)
        if to_centre > 0:
            _add_bend(bend, 2 * i, 2 * i, -push / to_centre, -s, c)
    return rows, slack, bend


def _add_bend(bend: list[list[float]], row: int, column: int, much: float, tx: float, ty: float) -> None:
    bend[row][column] += much * tx * tx
    bend[row][column + 1] += much * tx * ty
    bend[row + 1][column] += much * tx * ty
    bend[row + 1][column + 1] += much * ty * ty


def _touch(seen: SeenArcs, x: float, y: float, angle: float, is_flat: bool) -> tuple[float, float, float]:
    """Direction and depth of the edge near `angle` where it is nearest, and how far beyond its arc's centre lies."""
    p, q, a, b = seen.flat_x_mm, seen.flat_y_mm, seen.arc_x_mm, seen.arc_y_mm
    depth = beyond = 0.0
    for _ in range(1 if is_flat else _TOUCH_STEPS):
        c, s = cos(angle), sin(angle)
        px, qy = (p if c >= 0 else -p), (q if s >= 0 else -q)
        reach = hypot(a * c, b * s)
        depth = (px - x) * c + (qy - y) * s + reach
        if is_flat or reach == 0:
            return angle, depth, 0.0
        slope = (x - px) * s - (y - qy) * c + (b * b - a * a) * s * c / reach
        beyond = (a * b) ** 2 / reach**3 - depth
        if beyond <= 0 or abs(slope) < _SLOPE_MM:
            break
        angle -= max(-_LONGEST_TURN_RAD, min(_LONGEST_TURN_RAD, slope / beyond))
    return angle, depth, beyond
