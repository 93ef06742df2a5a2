"""The shortest curve of limited bend that is led past given points, its ends' headings kept.

What is sought is the heading at every point; between two points lies an arc, a straight and an arc. Where nothing
hinders it, the shortest curve passes a point in the middle of one arc, so its heading there halves the angle between
the two straights: repeated, that finds it. Where a straight is used up or a loop about to begin, headings around are
tried. In units of the bend radius.
"""

from collections.abc import Sequence
from functools import cached_property
from itertools import pairwise, product

import numpy as np

from planner.geometry.curves.arc_straight_arc import ArcStraightArcs, find_plain_curves
from planner.geometry.curves.pose_pairs import Array, Mask, PosePairs, across, crosses, dots, square_to
from planner.geometry.curves.space_curves import ShortestCurves, find_shortest_curves
from planner.quick_dataclass import dataclass

_BEST = 6
_APART = 0.8
"""Cosine of the least angle between two headings of seeds that are both followed."""

_HALVINGS = 25
_SETTLED_RAD = 1e-7
_WIDEST_RAD, _FINEST_RAD = 0.15, 2e-4
_COMPASS = 12
_MOST_TRIES = 40


@dataclass(frozen=True, slots=True, kw_only=True)
class LedCurve:
    """A curve through points, as the pieces between them.

    headings : unit directions of travel at the points
    pieces : the curves between start, points and end, in this order
    """

    headings: Array
    pieces: ShortestCurves


class LedWays:
    """The ways found from a start past points to an end; what is asked of them is worked out once, when it is asked.

    Source: the condition at a free point: derived from the slopes of the length, which are those of the arcs' ends.
    """

    def __init__(self, *, start: tuple[Array, Array], points: Array, end: tuple[Array, Array]) -> None:
        """Begin with a few ways, each shortened by halving the angles at its points.

        start, end : place, in units of the bend radius, and unit direction of travel
        points : places between, in order (points, 3)
        """
        self._places = _places_of(start, points, end)
        self._headings, self._curves = _begun(self._places, start[1], end[1])

    @cached_property
    def shortest(self) -> LedCurve:
        """The shortest curve found."""
        lengths = _lengths(self._curves, len(self._places) - 1)
        best = _searched_around(self._places, self._headings[int(lengths.argmin())], float(lengths.min()))
        return LedCurve(headings=best[1:-1], pieces=find_shortest_curves(_pairs(self._places, best[None])))

    @cached_property
    def is_led_past(self) -> bool:
        """Whether a curve is found that is led past the points and loops nowhere; it need not be the shortest."""
        return _is_any_plain(self._curves, len(self._places) - 1) or bool(self.shortest.pieces.is_only_plain.all())


def is_seen_led_past(*, start: tuple[Array, Array], points: Array, end: tuple[Array, Array]) -> bool:
    """Whether a curve past points that loops nowhere is found quickly: begun onwards only, and not sought around.

    False in one case of some twenty where `LedWays` finds one.

    start, end : place, in units of the bend radius, and unit direction of travel
    points : places between, in order (points, 3)
    """
    places = _places_of(start, points, end)
    _, curves = _begun(places, start[1], end[1], is_quick=True)
    return _is_any_plain(curves, len(places) - 1)


def _places_of(start: tuple[Array, Array], points: Array, end: tuple[Array, Array]) -> Array:
    return np.concatenate([start[0][None], points, end[0][None]])


def _begun(places: Array, first: Array, last: Array, *, is_quick: bool = False) -> tuple[Array, ArcStraightArcs]:
    """A few ways, each shortened by halving the angles at its points; quickly only onwards, until one loops nowhere."""
    seeds = _all_headings(_seeds(places, first, last, is_onward=is_quick), first, last)
    return _halved(places, seeds, until_plain=is_quick)


def _is_any_plain(curves: ArcStraightArcs, pieces: int) -> bool:
    return bool(curves.is_plain.reshape(-1, pieces).all(axis=1).any())


def _pairs(places: Array, headings: Array) -> PosePairs:
    """The pieces of several curves, one after the other, from places (n, 3) and headings (curves, n, 3)."""
    ways = np.tile(np.diff(places, axis=0), (len(headings), 1))
    return PosePairs(ways=ways, starts=headings[:, :-1].reshape(-1, 3), ends=headings[:, 1:].reshape(-1, 3))


def _all_headings(inner: Array, first: Array, last: Array) -> Array:
    count = len(inner)
    return np.concatenate([np.tile(first, (count, 1, 1)), inner, np.tile(last, (count, 1, 1))], axis=1)


def _lengths(curves: ArcStraightArcs, pieces: int) -> Array:
    whole: Array = curves.lengths.reshape(-1, pieces).sum(axis=1)
    return whole


def _seeds(places: Array, first: Array, last: Array, *, is_onward: bool) -> Array:
    """Headings to begin with (seeds, points, 3): the cheapest ways through a choice of directions at every point."""
    choices = [
        _directions(a, b, c, is_onward=is_onward) for a, b, c in zip(places, places[1:], places[2:], strict=False)
    ]
    stages = [first[None], *choices, last[None]]
    costs = [
        _costs(place, onward, a, b) for (place, onward), (a, b) in zip(pairwise(places), pairwise(stages), strict=True)
    ]
    to_end = [np.zeros(1)]
    for cost in reversed(costs[1:]):
        to_end.append((cost + to_end[-1][None]).min(axis=1))
    to_end.reverse()
    found: list[Array] = []
    for choice in np.argsort(costs[0][0] + to_end[0], kind="stable"):
        inner = _followed(int(choice), choices, costs[1:], to_end[1:])
        if all(dots(inner, other).min() < _APART for other in found):
            found.append(inner)
        if len(found) == _BEST:
            break
    return np.array(found)


def _followed(choice: int, choices: Sequence[Array], costs: Sequence[Array], to_end: Sequence[Array]) -> Array:
    path = [choice]
    for cost, left in zip(costs[:-1], to_end[:-1], strict=True):
        path.append(int((cost[path[-1]] + left).argmin()))
    return np.array([stage[i] for stage, i in zip(choices, path, strict=True)])


def _costs(place: Array, onward: Array, starts: Array, ends: Array) -> Array:
    """Lengths of one piece for every pair of headings at its ends; a large number where none was found quickly."""
    count = len(starts) * len(ends)
    curves = find_plain_curves(
        PosePairs(
            ways=np.tile(onward - place, (count, 1)),
            starts=np.repeat(starts, len(ends), axis=0),
            ends=np.tile(ends, (len(starts), 1)),
        )
    )
    lengths = np.where(curves.is_found, curves.lengths, 4 * np.pi + np.linalg.norm(onward - place))
    return lengths.reshape(len(starts), len(ends))


def _directions(before: Array, here: Array, after: Array, *, is_onward: bool) -> Array:
    """Directions spread over the sphere around the way past a point, or its half onwards; and the ways to and from."""
    ways = np.array([here - before, after - here])
    far = np.linalg.norm(ways, axis=1, keepdims=True)
    ways = ways[far[:, 0] > 0] / far[far[:, 0] > 0]
    middle = ways.sum(axis=0) if len(ways) else np.array([1.0, 0.0, 0.0])
    middle = middle if np.linalg.norm(middle) > 1e-6 else across(ways[:1])[0]
    middle /= np.linalg.norm(middle)
    normal, size = square_to(ways[:1] if len(ways) else middle[None], middle[None])
    side = normal[0] if size[0] > 1e-6 else across(middle[None])[0]
    frame = np.array([middle, side, crosses(middle, side)])
    steps = product((1.0, 0.0) if is_onward else (1.0, 0.0, -1.0), (1.0, 0.0, -1.0), (1.0, 0.0, -1.0))
    around = np.array([step for step in steps if any(step)])
    around /= np.linalg.norm(around, axis=1, keepdims=True)
    return np.concatenate([around @ frame, ways])


def _halved(places: Array, headings: Array, *, until_plain: bool) -> tuple[Array, ArcStraightArcs]:
    """Every heading again and again put half-way between the straights beside it, while that shortens the whole.

    until_plain : whether it is enough that one of them loops nowhere
    """
    pieces = len(places) - 1
    curves = find_plain_curves(_pairs(places, headings))
    lengths, shares = _lengths(curves, pieces), np.ones(len(headings))
    for _ in range(_HALVINGS):
        if until_plain and _is_any_plain(curves, pieces):
            break
        wanted = _half_way(places, headings, curves)
        moved = headings.copy()
        moved[:, 1:-1] += shares[:, None, None] * (wanted - headings[:, 1:-1])
        moved[:, 1:-1] /= np.maximum(np.linalg.norm(moved[:, 1:-1], axis=2, keepdims=True), 1e-12)
        tried = find_plain_curves(_pairs(places, moved))
        new = _lengths(tried, pieces)
        better = new < lengths
        shares = np.where(better, np.minimum(2 * shares, 1.0), shares / 3)
        change = float(np.abs(moved - headings)[better].max(initial=0.0))
        headings = np.where(better[:, None, None], moved, headings)
        curves = _chosen(np.repeat(better, pieces), tried, curves)
        lengths = np.where(better, new, lengths)
        if change < _SETTLED_RAD and not (shares > 0.01).any():
            break
    return headings, curves


def _chosen(which: Mask, these: ArcStraightArcs, those: ArcStraightArcs) -> ArcStraightArcs:
    return ArcStraightArcs(
        turns=np.where(which[:, None], these.turns, those.turns),
        straights=np.where(which, these.straights, those.straights),
        towards=np.where(which[:, None, None], these.towards, those.towards),
        misses=np.where(which, these.misses, those.misses),
    )


def _half_way(places: Array, headings: Array, curves: ArcStraightArcs) -> Array:
    """The direction between the straight that comes to each point and the one that leaves it."""
    pairs = _pairs(places, headings)
    c, s = np.cos(curves.turns[:, :1]), np.sin(curves.turns[:, :1])
    straights = (c * pairs.starts + s * curves.towards[:, 0]).reshape(len(headings), -1, 3)
    middle = straights[:, :-1] + straights[:, 1:]
    size = np.linalg.norm(middle, axis=2, keepdims=True)
    return np.where(size > 1e-9, middle / np.maximum(size, 1e-9), headings[:, 1:-1])


def _searched_around(places: Array, headings: Array, length: float) -> Array:
    """The headings after a search around each, in ever smaller circles, by the complete solver."""
    reach = _WIDEST_RAD
    pieces = find_plain_curves(_pairs(places, headings[None])).lengths
    for _ in range(_MOST_TRIES):
        if reach < _FINEST_RAD:
            break
        tried = _circles(headings[1:-1], reach)
        lengths = _pieces_beside(places, headings, tried, pieces)
        whole = lengths.sum(axis=1)
        best = int(whole.argmin())
        if whole[best] < length - 1e-12:
            point, turned = divmod(best, _COMPASS)
            headings = headings.copy()
            headings[point + 1] = tried[point, turned]
            pieces, length = lengths[best], float(whole[best])
        else:
            reach /= 2
    return headings


def _circles(headings: Array, reach: float) -> Array:
    """Directions all around each heading (points, compass, 3). [reach in rad]"""
    angles = 2 * np.pi * np.arange(_COMPASS)[None, :, None] / _COMPASS
    side = across(headings)
    around = np.cos(angles) * side[:, None] + np.sin(angles) * crosses(headings, side)[:, None]
    circles: Array = np.cos(reach) * headings[:, None] + np.sin(reach) * around
    return circles


def _pieces_beside(places: Array, headings: Array, tried: Array, pieces: Array) -> Array:
    """Lengths of all pieces for every direction tried at every point (tries, pieces).

    A direction at one point changes the piece before and the piece behind it; only these are looked for.

    tried : directions (points, compass, 3)
    pieces : lengths of all pieces with the headings as they stand
    """
    count, each, _ = tried.shape
    ways = np.diff(places, axis=0)
    turned = tried.reshape(-1, 3)
    beside = find_plain_curves(
        PosePairs(
            ways=np.repeat(np.concatenate([ways[:-1], ways[1:]]), each, axis=0),
            starts=np.concatenate([np.repeat(headings[:-2], each, axis=0), turned]),
            ends=np.concatenate([turned, np.repeat(headings[2:], each, axis=0)]),
        )
    ).lengths
    lengths = np.tile(pieces, (count * each, 1))
    tries, point = np.arange(count * each), np.repeat(np.arange(count), each)
    lengths[tries, point], lengths[tries, point + 1] = beside[: len(tries)], beside[len(tries) :]
    return lengths
