"""A drawn edge of a hole as the corners of an outline that is never larger than what was drawn.

Where the edge bulges outwards its chords lie inside the hole; where it bulges inwards the tangents at the chord's ends
do. So a curve is cut up until the triangle of chord and tangents is low enough, and the side of it that lies inside the
hole is taken. Curves that wind within a piece are cut up until what is left of the winding is a ten thousandth of a
millimetre.
"""

import re
from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import hypot

from planner.geometry.openings.edge_pieces import BezierPiece, EdgePiece, Flat
from planner.quick_dataclass import dataclass

_WINDING_MM = 1e-4
_LEAST_CUTS = 4
_DEEPEST = 24
_SAME_MM = 1e-9
_ON_LINE_MM = 1e-7
_GLIMPSES = 16
"""How many points of each curve tell which way round an edge goes."""


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineFigures:
    """The figures of an outline.

    length_mm, width_mm : over everything, along x and along y [mm]
    area_mm2 : of the hole [mm2]
    """

    length_mm: float
    width_mm: float
    area_mm2: float


def trace_inside(pieces: Sequence[EdgePiece], *, within_mm: float) -> tuple[Flat, ...]:
    """Corners around a closed edge, on it or inside the hole, nowhere farther from it than asked.

    Returns the corners counter-clockwise, x to the right and y up. [mm]

    pieces : end to end around the hole
    within_mm : how far inside the hole a side may lie
    """
    is_counter_clockwise = _signed_area_mm2(_glimpsed(pieces)) > 0
    corners: list[Flat] = []
    for piece in pieces:
        corners += _cut_up(piece, is_inside_left=is_counter_clockwise, within_mm=within_mm)
    corners = _without_idle(corners)
    return tuple(corners if is_counter_clockwise else reversed(corners))


def measure_outline(points_mm: Sequence[Flat]) -> OutlineFigures:
    """Length, width and area of an outline.

    points_mm : its corners in order
    """
    xs, ys = zip(*points_mm, strict=True)
    area = abs(_signed_area_mm2(points_mm))
    return OutlineFigures(length_mm=max(xs) - min(xs), width_mm=max(ys) - min(ys), area_mm2=area)


def find_crossing(points_mm: Sequence[Flat]) -> Flat | None:
    """Where an outline crosses or touches itself; None where it goes around once.

    points_mm : its corners in order
    """
    from shapely.geometry import Polygon
    from shapely.validation import explain_validity

    shape = Polygon(points_mm)
    if shape.is_valid:
        return None
    told = re.search(r"\[(\S+) (\S+)\]", str(explain_validity(shape)))
    return points_mm[0] if told is None else (float(told[1]), float(told[2]))


def lies_inside(inner_mm: Sequence[Flat], outer_mm: Sequence[Flat]) -> bool:
    """Whether one outline lies inside another.

    inner_mm, outer_mm : their corners in order
    """
    from shapely.geometry import Polygon

    return bool(Polygon(outer_mm).buffer(0).contains(Polygon(inner_mm).buffer(0)))


def _cut_up(piece: EdgePiece, *, is_inside_left: bool, within_mm: float) -> Iterator[Flat]:
    """The corners of one piece after its first end, up to its last."""
    if isinstance(piece, BezierPiece) and len(piece.points_mm) == 2:
        yield piece.points_mm[-1]
        return
    for cut in range(_LEAST_CUTS):
        ends = (cut / _LEAST_CUTS, (cut + 1) / _LEAST_CUTS)
        yield from _corners(piece, ends, within_mm=within_mm, is_inside_left=is_inside_left, depth=0)


def _corners(
    piece: EdgePiece, ends: tuple[float, float], *, within_mm: float, is_inside_left: bool, depth: int
) -> Iterator[Flat]:
    start, end = piece.at(ends[0]), piece.at(ends[1])
    tip = _tip(start, piece.along(ends[0]), end, piece.along(ends[1])) if _turns_one_way(piece, ends) else None
    height = 0.0 if tip is None else _height_mm(tip, start, end)
    winds = tip is None and _strays(piece, start, end, ends)
    if (winds or height > within_mm) and depth < _DEEPEST:
        middle = (ends[0] + ends[1]) / 2
        for half in ((ends[0], middle), (middle, ends[1])):
            yield from _corners(piece, half, within_mm=within_mm, is_inside_left=is_inside_left, depth=depth + 1)
        return
    if tip is not None and (_side(start, end, tip) > 0) == is_inside_left:
        yield tip
    yield end


def _tip(start: Flat, leaves: Flat, end: Flat, arrives: Flat) -> Flat | None:
    """Where the tangents at both ends meet on one side of the chord, before half a turn; None where they do not."""
    chord = (end[0] - start[0], end[1] - start[1])
    leaving, arriving, turn = _cross(chord, leaves), _cross(chord, arrives), _cross(leaves, arrives)
    if leaving * arriving >= 0 or turn * leaving >= 0 or _dot(leaves, arrives) <= 0:
        return None
    share = _cross(chord, arrives) / turn
    return start[0] + share * leaves[0], start[1] + share * leaves[1]


def _turns_one_way(piece: EdgePiece, ends: tuple[float, float]) -> bool:
    """Whether a piece turns one way only, by its direction at five places."""
    ways = [piece.along(ends[0] + (ends[1] - ends[0]) * n / 4) for n in range(5)]
    turns = [_cross(before, after) for before, after in pairwise(ways)]
    return all(turn > 0 for turn in turns) or all(turn < 0 for turn in turns)


def _strays(piece: EdgePiece, start: Flat, end: Flat, ends: tuple[float, float]) -> bool:
    """Whether a piece that winds, or turns far, leaves its chord by more than can be left."""
    quarters = (ends[0] + (ends[1] - ends[0]) * share for share in (0.25, 0.5, 0.75))
    return any(_height_mm(piece.at(share), start, end) > _WINDING_MM for share in quarters)


def _height_mm(point: Flat, start: Flat, end: Flat) -> float:
    chord = hypot(end[0] - start[0], end[1] - start[1])
    if chord < _SAME_MM:
        return hypot(point[0] - start[0], point[1] - start[1])
    return abs(_side(start, end, point)) / chord


def _without_idle(corners: Sequence[Flat]) -> list[Flat]:
    """Without corners that stand twice, or on the line from the one before to the one after."""
    kept: list[Flat] = []
    for corner in corners:
        if not kept or hypot(corner[0] - kept[-1][0], corner[1] - kept[-1][1]) > _SAME_MM:
            kept.append(corner)
    while len(kept) > 1 and hypot(kept[0][0] - kept[-1][0], kept[0][1] - kept[-1][1]) <= _SAME_MM:
        kept.pop()
    bent: list[Flat] = kept[:1]
    passed: list[Flat] = []
    for corner, after in zip(kept[1:], (*kept[2:], *kept[:1]), strict=True):
        passed.append(corner)
        if not all(_is_idle(bent[-1], one, after) for one in passed):
            bent.append(corner)
            passed = []
    return bent if len(bent) > 2 else kept


def _is_idle(before: Flat, corner: Flat, after: Flat) -> bool:
    is_onward = _dot((corner[0] - before[0], corner[1] - before[1]), (after[0] - corner[0], after[1] - corner[1])) > 0
    return is_onward and _height_mm(corner, before, after) < _ON_LINE_MM


def _glimpsed(pieces: Sequence[EdgePiece]) -> list[Flat]:
    return [piece.at(n / _GLIMPSES) for piece in pieces for n in range(_GLIMPSES)]


def _signed_area_mm2(points: Sequence[Flat]) -> float:
    around = zip(points, (*points[1:], points[0]), strict=True)
    return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in around) / 2


def _side(a: Flat, b: Flat, p: Flat) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])


def _cross(a: Flat, b: Flat) -> float:
    return a[0] * b[1] - a[1] * b[0]


def _dot(a: Flat, b: Flat) -> float:
    return a[0] * b[0] + a[1] * b[1]
