"""A placement brought to its last digit: Newton steps on just the contacts that hold it, against true arcs."""

from dataclasses import dataclass, replace
from math import hypot

import numpy as np

from planner.geometry.openings.opening_shape import SeenArcs
from planner.geometry.packing.contacts import EdgeContact, Held, PairContact, edge_of_side, nearest_side

_PUSH_KEPT = 1e-6
_THROUGH_MM = 1e-7
_ROUNDS = 6
_STEPS = 8
_DONE_MM = 1e-6
_STEADYING = 1e-9
_LONGEST_STEP_RATIO = 0.3
_NEAR_AXIS_RATIO = 0.15


def polish(*, seen: SeenArcs, diameters_mm: tuple[float, ...], held: Held) -> Held:
    """Move a placement to where its contacts hold it best.

    A contact that would have to pull is let go, one that is pushed through is taken in, and the rest moved again.

    Returns in its new place; what growth that allows is for the caller to measure.

    seen : the opening as the line sees it
    held : near its best place, with its likely contacts and about how hard they push

    Source: Newton's method on the conditions of Karush, Kuhn and Tucker; textbook, from memory.
    """
    polished = _polished(seen, diameters_mm, held)
    if not polished.is_settled:
        other = _polished(seen, diameters_mm, _with_mirrored_sides(seen, held))
        return other if other.is_settled else polished
    return polished


def _with_mirrored_sides(seen: SeenArcs, held: Held) -> Held:
    """Where two arcs follow each other, a thing near the axis between them may be held by both."""
    more = {}
    for edge in held.edges:
        (x, y), (sx, sy) = held.centres_mm[edge.thing], edge.side
        if sx and sy and seen.flat_x_mm <= 0 and abs(x) < _NEAR_AXIS_RATIO * seen.arc_x_mm:
            more[edge.thing, (-sx, sy)] = edge.push
        if sx and sy and seen.flat_y_mm <= 0 and abs(y) < _NEAR_AXIS_RATIO * seen.arc_y_mm:
            more[edge.thing, (sx, -sy)] = edge.push
    known = {(edge.thing, edge.side) for edge in held.edges}
    mirrored = tuple(
        EdgeContact(thing=thing, side=side, push=push)
        for (thing, side), push in more.items()
        if (thing, side) not in known
    )
    return replace(held, edges=held.edges + mirrored)


def _polished(seen: SeenArcs, diameters_mm: tuple[float, ...], held: Held) -> Held:
    spot = _Spot(
        centres=[list(centre) for centre in held.centres_mm],
        growth=None,
        pairs=[[c.first, c.second] for c in held.pairs],
        edges=[(c.thing, c.side) for c in held.edges],
        pushes=[c.push for c in held.pairs] + [c.push for c in held.edges],
    )
    is_settled = False
    for _ in range(_ROUNDS):
        if not spot.pushes or not _settle(seen, diameters_mm, spot):
            break
        if not (_let_go(spot) or _take_in(seen, diameters_mm, spot)):
            is_settled = True
            break
    return Held(
        centres_mm=tuple((x, y) for x, y in spot.centres),
        pairs=tuple(
            PairContact(first=i, second=j, push=push) for (i, j), push in zip(spot.pairs, spot.pushes, strict=False)
        ),
        edges=tuple(
            EdgeContact(thing=i, side=side, push=push)
            for (i, side), push in zip(spot.edges, spot.pushes[len(spot.pairs) :], strict=True)
        ),
        is_settled=is_settled,
    )


@dataclass(slots=True)
class _Spot:
    """Where the Newton steps stand: changed as they go. Pushes are those of the pairs, then those of the edges."""

    centres: list[list[float]]
    growth: float | None
    pairs: list[list[int]]
    edges: list[tuple[int, tuple[int, int]]]
    pushes: list[float]


def _settle(seen: SeenArcs, sizes: tuple[float, ...], spot: _Spot) -> bool:
    """Newton steps until nothing moves; False where they lead nowhere."""
    longest = _LONGEST_STEP_RATIO * min(sizes)
    held = 2 * len(sizes) + 1
    for _ in range(_STEPS):
        if any(spot.centres[i] == spot.centres[j] for i, j in spot.pairs):
            return False  # two things in one place: nothing says which way they push each other
        rows, slack, bend = _conditions(seen, sizes, spot)
        every = len(slack)
        if spot.growth is None:
            spot.growth = min(room / -row[-1] for room, row in zip(slack, rows, strict=True))
        whole = np.zeros((held + every, held + every))
        matrix = np.array(rows)
        whole[:held, :held] = bend
        whole[:held, held:], whole[held:, :held] = matrix.T, matrix
        diagonal = whole.reshape(-1)[:: held + every + 1]
        diagonal[:held] -= _STEADYING
        diagonal[held:] -= _STEADYING / 10
        right = np.zeros(held + every)
        right[held - 1] = -1.0
        right[held:] = -np.array(slack) - matrix[:, -1] * spot.growth
        try:
            solution = np.linalg.solve(whole, right).tolist()
        except np.linalg.LinAlgError:
            return False
        size = max(map(abs, solution[:held]))
        share = min(1.0, longest / size) if size > 0 else 1.0
        spot.growth += share * solution[held - 1]
        for i, centre in enumerate(spot.centres):
            centre[0] += share * solution[2 * i]
            centre[1] += share * solution[2 * i + 1]
        spot.pushes = solution[held:]
        if size < _DONE_MM:
            return True
    return False


def _let_go(spot: _Spot) -> bool:
    weakest = min(spot.pushes)
    if weakest >= -_PUSH_KEPT:
        return False
    place = spot.pushes.index(weakest)
    del spot.pushes[place]
    if place < len(spot.pairs):
        del spot.pairs[place]
    else:
        del spot.edges[place - len(spot.pairs)]
    return True


def _take_in(seen: SeenArcs, sizes: tuple[float, ...], spot: _Spot) -> bool:
    """Add the pair or the edge that is pushed through furthest, if any is."""
    assert spot.growth is not None
    worst, pair, edge = -_THROUGH_MM, None, None
    for i, (x, y) in enumerate(spot.centres):
        side = nearest_side(seen=seen, x_mm=x, y_mm=y)
        slack = edge_of_side(seen=seen, x_mm=x, y_mm=y, side=side)[0] - (sizes[i] + spot.growth) / 2
        if slack < worst and (i, side) not in spot.edges:
            worst, pair, edge = slack, None, (i, side)
        for j in range(i + 1, len(sizes)):
            apart = hypot(x - spot.centres[j][0], y - spot.centres[j][1])
            slack = apart - (sizes[i] + sizes[j]) / 2 - spot.growth
            if slack < worst and [i, j] not in spot.pairs:
                worst, pair, edge = slack, [i, j], None
    if pair:
        spot.pairs.append(pair)
        spot.pushes.insert(len(spot.pairs) - 1, 0.0)
    if edge:
        spot.edges.append(edge)
        spot.pushes.append(0.0)
    return bool(pair or edge)


def _conditions(
    seen: SeenArcs, sizes: tuple[float, ...], spot: _Spot
) -> tuple[list[list[float]], list[float], list[list[float]]]:
    """How each contact's slack changes with (x, y) of each thing and growth; its slack at no growth; pushes' bend."""
    wide = 2 * len(sizes) + 1
    rows: list[list[float]] = []
    slack: list[float] = []
    bend = [[0.0] * wide for _ in range(wide)]
    for (i, j), push in zip(spot.pairs, spot.pushes, strict=False):
        dx, dy = spot.centres[i][0] - spot.centres[j][0], spot.centres[i][1] - spot.centres[j][1]
        distance = hypot(dx, dy)
        nx, ny = dx / distance, dy / distance
        row = [0.0] * wide
        row[2 * i], row[2 * i + 1], row[2 * j], row[2 * j + 1], row[-1] = nx, ny, -nx, -ny, -1.0
        rows.append(row)
        slack.append(distance - (sizes[i] + sizes[j]) / 2)
        for one, two, sign in ((i, i, push), (j, j, push), (i, j, -push), (j, i, -push)):
            _add_bend(bend, 2 * one, 2 * two, sign / distance, -ny, nx)
    for (i, side), push in zip(spot.edges, spot.pushes[len(spot.pairs) :], strict=True):
        depth, nx, ny, beyond = edge_of_side(seen=seen, x_mm=spot.centres[i][0], y_mm=spot.centres[i][1], side=side)
        row = [0.0] * wide
        row[2 * i], row[2 * i + 1], row[-1] = -nx, -ny, -0.5
        rows.append(row)
        slack.append(depth - sizes[i] / 2)
        if beyond > 0:
            _add_bend(bend, 2 * i, 2 * i, -push / beyond, -ny, nx)
    return rows, slack, bend


def _add_bend(bend: list[list[float]], row: int, column: int, much: float, tx: float, ty: float) -> None:
    bend[row][column] += much * tx * tx
    bend[row][column + 1] += much * tx * ty
    bend[row + 1][column] += much * tx * ty
    bend[row + 1][column + 1] += much * ty * ty
