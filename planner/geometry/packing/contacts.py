"""What holds round things in place: which touch each other, and which side of the opening each of them touches."""

from dataclasses import dataclass
from math import hypot

import numpy as np

from planner.geometry.openings.opening_depth import arc_depth, corner_depth, nearest_edge
from planner.geometry.openings.opening_shape import SeenArcs
from planner.geometry.packing.step import State
from planner.geometry.packing.walls import walls_about

_PUSH_THAT_COUNTS = 1e-2


@dataclass(frozen=True, slots=True, kw_only=True)
class PairContact:
    """Two things that touch.

    first, second : which
    push : how hard, against the others of the same placement [no unit]
    """

    first: int
    second: int
    push: float


@dataclass(frozen=True, slots=True, kw_only=True)
class EdgeContact:
    """A thing that touches the opening's edge.

    thing : which
    side : the arc's quarter, as the signs of x and y; or the straight edge's normal, where one of them is 0
    push : how hard, against the others of the same placement [no unit]
    """

    thing: int
    side: tuple[int, int]
    push: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Held:
    """A placement with what holds it.

    centres_mm : where the things lie [mm]
    pairs, edges : its contacts
    is_settled : whether no contact pulls and none is pushed through: the growth is the greatest thereabouts
    """

    centres_mm: tuple[tuple[float, float], ...]
    pairs: tuple[PairContact, ...]
    edges: tuple[EdgeContact, ...]
    is_settled: bool


def held_by_pushes(*, seen: SeenArcs, state: State, index: int, walls_per_quarter: int) -> Held:
    """One state of a search as a placement held by what pushes in it.

    Returns not settled yet; with the contacts that push at least a hundredth as hard as the hardest.

    seen : the opening as the line sees it
    state : where a search against straight walls ended
    walls_per_quarter : how many walls stood for each quarter of a turn
    """
    link_push, wall_push = state.link_push[index], state.wall_push[index]
    least = _PUSH_THAT_COUNTS * max(float(link_push.max(initial=0.0)), float(wall_push.max()))
    first, second = np.triu_indices(wall_push.shape[0], 1)
    pairs = [
        PairContact(first=int(first[k]), second=int(second[k]), push=float(link_push[k]))
        for k in np.flatnonzero(link_push > least)
    ]
    normals = walls_about(seen, walls_per_quarter).normals.tolist()
    edges: dict[tuple[int, tuple[int, int]], float] = {}
    for thing, wall in zip(*np.nonzero(wall_push > least), strict=True):
        key = (int(thing), _side_of(seen, normals[wall], state.centres_mm[index, thing].tolist()))
        edges[key] = edges.get(key, 0.0) + float(wall_push[thing, wall])
    return Held(
        centres_mm=tuple((float(x), float(y)) for x, y in state.centres_mm[index]),
        pairs=tuple(pairs),
        edges=tuple(EdgeContact(thing=thing, side=side, push=push) for (thing, side), push in edges.items()),
        is_settled=False,
    )


def _side_of(seen: SeenArcs, normal: list[float], centre: list[float]) -> tuple[int, int]:
    """The straight edge or the arc that a wall stands for; on an axis between two arcs, the one on the thing's side."""
    nx, ny = normal
    if nx == 0 or ny == 0:
        if (seen.flat_x_mm if nx == 0 else seen.flat_y_mm) > 0:
            return round(nx), round(ny)
        nx, ny = nx or centre[0], ny or centre[1]
    return (1 if nx >= 0 else -1), (1 if ny >= 0 else -1)


def edge_of_side(
    *, seen: SeenArcs, x_mm: float, y_mm: float, side: tuple[int, int]
) -> tuple[float, float, float, float]:
    """Depth of a point under one side of an opening, and the side's normal where it is nearest.

    Returns depth [mm], normal (x, y), and how far beyond the point the centre of the arc's curvature lies, 0 for an
    edge that is straight there. [mm]

    seen : the opening as the line sees it
    x_mm, y_mm : the point, from the opening's middle
    side : the arc's quarter, as the signs of x and y; or the straight edge's normal, where one of them is 0
    """
    p, q, a, b = seen.flat_x_mm, seen.flat_y_mm, seen.arc_x_mm, seen.arc_y_mm
    sx, sy = side
    if sx == 0 or sy == 0:
        return (p + a - sx * x_mm if sx else q + b - sy * y_mm), float(sx), float(sy), 0.0
    x, y = sx * x_mm - p, sy * y_mm - q
    depth, nx, ny = arc_depth(x_mm=x, y_mm=y, arc_x_mm=a, arc_y_mm=b) or corner_depth(
        x_mm=x, y_mm=y, arc_x_mm=a, arc_y_mm=b
    )
    if a == 0 or (nx == 0 and p > 0) or (ny == 0 and q > 0):
        return depth, sx * nx, sy * ny, 0.0
    return depth, sx * nx, sy * ny, (a * b) ** 2 / hypot(a * nx, b * ny) ** 3 - depth


def nearest_side(*, seen: SeenArcs, x_mm: float, y_mm: float) -> tuple[int, int]:
    """Which side of an opening is nearest to a point: an arc's quarter, or a straight edge.

    Returns the signs of x and y for an arc; for a straight edge its normal, where one of them is 0.

    seen : the opening as the line sees it
    x_mm, y_mm : the point, from the opening's middle
    """
    _, nx, ny = nearest_edge(seen=seen, x_mm=x_mm, y_mm=y_mm)
    sx, sy = (1 if x_mm >= 0 else -1), (1 if y_mm >= 0 else -1)
    if nx == 0 and seen.flat_x_mm > 0:
        return 0, sy
    if ny == 0 and seen.flat_y_mm > 0:
        return sx, 0
    return sx, sy
