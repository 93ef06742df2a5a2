"""Two round things in one opening: how much both could grow and still lie side by side, exactly."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache, partial
from itertools import pairwise
from math import atan2, cos, hypot, inf, pi, sin, sqrt

import numpy as np

from planner.geometry.openings.opening_depth import nearest_edge
from planner.geometry.openings.opening_shape import SeenArcs
from planner.geometry.packing.contacts import EdgeContact, Held, PairContact, nearest_side
from planner.geometry.packing.one import find_largest_disc
from planner.geometry.packing.polish import polish

Point = tuple[float, float]

_GROWTH_STEP_MM = 1e-9
_DEFICIT_MM = 1e-9
_CUTS = 30
_HALVINGS = 40
_DEPTH_MM = 1e-13
_EXACT_MM = 1e-5
_CUT_STEP_MM = 1e-7
_FINEST_STEP_RAD = 1e-3
_LADDER_STEPS = 5
_LEAST_TURN_RAD = 1e-6
_FIRST_ANGLES = tuple(k * pi / 16 for k in range(9))


@dataclass(frozen=True, slots=True, kw_only=True)
class PairGrowth:
    """How much two things can grow in an opening.

    growth_mm : found; below zero is what is missing [mm]
    bound_mm : proven: no growth above this [mm]
    centres_mm : where they lie then [mm]
    """

    growth_mm: float
    bound_mm: float
    centres_mm: tuple[tuple[float, float], tuple[float, float]]


@lru_cache(maxsize=8192)
def find_pair_growth(seen: SeenArcs, *, first_mm: float, second_mm: float) -> PairGrowth:
    """The greatest growth of two diameters in an opening with arcs.

    Two things fit where the farthest points of the opening, each set in by one radius, lie far enough apart. The set-in
    openings are held between their tangents; each round adds the tangent where a corner sticks out, until none does.

    Returns exact to 0.000001 mm; where no closed form holds, the bound may lie 0.00001 mm above.

    seen : the opening as the line sees it
    first_mm, second_mm : diameters of the two things
    """
    together = (first_mm + second_mm) / 2
    single = find_largest_disc(seen).diameter_mm - max(first_mm, second_mm)
    if seen.arc_x_mm == seen.arc_y_mm and seen.flat_x_mm >= 0:
        growth, one, two = _growth_up_to(
            single, lambda growth: _missing_in_true_arcs(seen, first_mm, second_mm, growth)
        )
        return PairGrowth(growth_mm=growth, bound_mm=growth, centres_mm=((-one[0], -one[1]), two))
    if seen.flat_x_mm <= 0 == seen.flat_y_mm and seen.arc_x_mm <= seen.arc_y_mm:
        growth, one, two = _growth_up_to(single, partial(_missing_upright, seen, first_mm, second_mm))
        return PairGrowth(growth_mm=growth, bound_mm=growth, centres_mm=((-one[0], -one[1]), two))
    row = seen.flat_x_mm + seen.arc_x_mm - together
    if row <= single and _is_row_farthest(seen):
        ends = _row_ends(seen, (first_mm + row) / 2, (second_mm + row) / 2)
        if ends is not None:
            return PairGrowth(growth_mm=row, bound_mm=row, centres_mm=ends)
    return _cut_by_tangents(seen, first_mm, second_mm, single)


def _missing_in_true_arcs(seen: SeenArcs, first: float, second: float, growth: float) -> tuple[float, Point, Point]:
    """The same as for tangents, where corners are quarter circles or sharp: set in, they stay so.

    Setting in by more than the corner's radius leaves a smaller rectangle with sharp corners.
    """
    insets = [(size + growth) / 2 for size in (first, second)]
    flats = [(seen.flat_x_mm - over, seen.flat_y_mm - over) for over in (max(r - seen.arc_x_mm, 0.0) for r in insets)]
    radii = [max(seen.arc_x_mm - inset, 0.0) for inset in insets]
    across, along = flats[0][0] + flats[1][0], flats[0][1] + flats[1][1]
    length = hypot(across, along)
    ux, uy = (across / length, along / length) if length > 0 else (1.0, 0.0)
    one, two = ((x + r * ux, y + r * uy) for (x, y), r in zip(flats, radii, strict=True))
    return (first + second) / 2 + growth - length - sum(radii), one, two


def _missing_upright(seen: SeenArcs, first: float, second: float, growth: float) -> tuple[float, Point, Point]:
    """The same, where two arcs that are no flatter than upright meet in points above and below the middle.

    Along such an arc, however far set in, the tangent falls back from the middle's side all the way up: no point is
    further from the middle than the one where the two arcs meet, so two things lie furthest apart there.
    """
    heights = [_height_of_meeting(seen, (size + growth) / 2) for size in (first, second)]
    return (first + second) / 2 + growth - sum(heights), (0.0, heights[0]), (0.0, heights[1])


def _height_of_meeting(seen: SeenArcs, inset: float) -> float:
    """How far above the middle a point lies that is `inset` deep under both arcs."""
    height = max(seen.arc_y_mm - inset, 0.0)
    for _ in range(_HALVINGS):
        depth, _, ny = nearest_edge(seen=seen, x_mm=0.0, y_mm=height)
        if abs(depth - inset) < _DEPTH_MM or ny <= 0:
            break
        height = max(0.0, height + (depth - inset) / ny)
    return height


def _is_row_farthest(seen: SeenArcs) -> bool:
    """Whether the opening is nowhere longer, tangent to tangent, than along its length: then no pair beats a row."""
    p, q, a, b = seen.flat_x_mm, seen.flat_y_mm, seen.arc_x_mm, seen.arc_y_mm
    if q > 0:
        return False
    if p < 0:
        return b <= a and b <= p + a
    return b <= a or p * a >= b * b - a * a


def _row_ends(
    seen: SeenArcs, first_radius: float, second_radius: float
) -> tuple[tuple[float, float], tuple[float, float]] | None:
    end = seen.flat_x_mm + seen.arc_x_mm
    for radius in (first_radius, second_radius):
        depth, _, _ = nearest_edge(seen=seen, x_mm=end - radius, y_mm=0.0)
        if depth < radius - _DEFICIT_MM:
            return None
    return (first_radius - end, 0.0), (end - second_radius, 0.0)


def _cut_by_tangents(seen: SeenArcs, first: float, second: float, single: float) -> PairGrowth:
    angles = list(_FIRST_ANGLES)
    bound, best = single, (-inf, ((0.0, 0.0), (0.0, 0.0)))

    def try_out(centres: tuple[Point, Point]) -> None:
        nonlocal best
        best = max(best, (_growth_at(seen, first, second, centres), centres))

    for cut in range(_CUTS):
        missing_at = partial(_missing, [_tangent(seen, k) for k in angles], first, second)
        growth, one, two = _growth_up_to(bound, missing_at, _CUT_STEP_MM)
        bound, centres = min(bound, growth + _CUT_STEP_MM), ((-one[0], -one[1]), two)
        if bound > single - _CUT_STEP_MM:  # the larger thing fills the opening, the other may lie where it likes
            try_out((_pulled_in(seen, centres[0], first + single), _pulled_in(seen, centres[1], second + single)))
        try_out(centres)
        if bound - best[0] < 2 * _CUT_STEP_MM:
            break
        if cut == 0:
            try_out(_polished(seen, first, second, centres))
        angles += [_angle_of_edge(seen, centre) for centre in centres]
        if cut == 0:
            angles += [near for centre in best[1] for near in _angles_about(_angle_of_edge(seen, centre))]
        elif bound - best[0] < _EXACT_MM:
            try_out(_polished(seen, first, second, best[1]))
            break
        angles = _without_doubles(angles)
    return PairGrowth(growth_mm=best[0], bound_mm=max(bound, best[0]), centres_mm=best[1])


def _without_doubles(angles: list[float]) -> list[float]:
    kept: list[float] = []
    for angle in sorted(angles):
        if not kept or angle - kept[-1] > _LEAST_TURN_RAD:
            kept.append(angle)
    kept[-1] = pi / 2
    return kept


def _pulled_in(seen: SeenArcs, centre: Point, size: float) -> Point:
    """A centre that lies a little too near the edge for its size, moved towards the middle until it does not."""
    (x, y), radius = centre, size / 2
    low, high = 0.0, 1.0
    if nearest_edge(seen=seen, x_mm=x, y_mm=y)[0] >= radius:
        return centre
    for _ in range(_HALVINGS):
        share = (low + high) / 2
        is_deep = nearest_edge(seen=seen, x_mm=x * share, y_mm=y * share)[0] >= radius
        low, high = (share, high) if is_deep else (low, share)
    return x * low, y * low


def _growth_at(seen: SeenArcs, first: float, second: float, centres: tuple[Point, Point]) -> float:
    growth = hypot(centres[0][0] - centres[1][0], centres[0][1] - centres[1][1]) - (first + second) / 2
    for (x, y), size in zip(centres, (first, second), strict=True):
        depth, _, _ = nearest_edge(seen=seen, x_mm=x, y_mm=y)
        growth = min(growth, 2 * depth - size)
    return growth


def _polished(seen: SeenArcs, first: float, second: float, centres: tuple[Point, Point]) -> tuple[Point, Point]:
    edges = tuple(
        EdgeContact(thing=thing, side=nearest_side(seen=seen, x_mm=x, y_mm=y), push=0.5)
        for thing, (x, y) in enumerate(centres)
    )
    pair = PairContact(first=0, second=1, push=0.5)
    held = Held(centres_mm=centres, pairs=(pair,), edges=edges, is_settled=False)
    one, two = polish(seen=seen, diameters_mm=(first, second), held=held).centres_mm
    return one, two


def _angle_of_edge(seen: SeenArcs, centre: Point) -> float:
    """Direction of the nearest edge, as if in the first quarter."""
    _, nx, ny = nearest_edge(seen=seen, x_mm=abs(centre[0]), y_mm=abs(centre[1]))
    return atan2(ny, nx)


def _angles_about(angle: float) -> list[float]:
    steps = [sign * _FINEST_STEP_RAD * 4**k for k in range(_LADDER_STEPS) for sign in (1, -1)]
    return [angle + step for step in steps if 0 < angle + step < pi / 2]


def _tangent(seen: SeenArcs, angle: float) -> tuple[float, float, float]:
    c, s = (cos(angle), sin(angle)) if angle < pi / 2 else (0.0, 1.0)
    reach = seen.flat_x_mm * c + seen.flat_y_mm * s + sqrt((seen.arc_x_mm * c) ** 2 + (seen.arc_y_mm * s) ** 2)
    return c, s, reach


def _growth_up_to(
    bound: float, missing_at: Callable[[float], tuple[float, Point, Point]], step_mm: float = _GROWTH_STEP_MM
) -> tuple[float, Point, Point]:
    """The greatest growth, no more than `bound`, at which nothing is missing.

    What is missing grows by at least one for each mm of growth, so the answer lies within that much of `bound`.
    """
    high, (missing_high, one, two) = bound, missing_at(bound)
    if missing_high <= 0:
        return high, one, two
    low = high - missing_high
    missing_low, one, two = missing_at(low)
    side = 0
    for _ in range(100):
        if high - low < step_mm or missing_low > -step_mm / 10:
            break
        middle = (low * missing_high - high * missing_low) / (missing_high - missing_low)
        if not low < middle < high:
            middle = (low + high) / 2
        missing, one_here, two_here = missing_at(middle)
        if missing <= 0:
            low, missing_low, one, two = middle, missing, one_here, two_here
            missing_high = missing_high / 2 if side < 0 else missing_high
            side = -1
        else:
            high, missing_high = middle, missing
            missing_low = missing_low / 2 if side > 0 else missing_low
            side = 1
    return low, one, two


def _missing(
    tangents: list[tuple[float, float, float]], first: float, second: float, growth: float
) -> tuple[float, Point, Point]:
    """How much nearer than side by side the two farthest centres are; both are given in the first quadrant."""
    corners = np.array(_corners_inside(tangents, (first + growth) / 2))
    others = corners if first == second else np.array(_corners_inside(tangents, (second + growth) / 2))
    both = corners[:, None] + others
    square = both[..., 0] ** 2 + both[..., 1] ** 2
    place, other = divmod(int(square.argmax()), len(others))
    one, two = corners[place].tolist(), others[other].tolist()
    return (first + second) / 2 + growth - sqrt(square[place, other]), (one[0], one[1]), (two[0], two[1])


def _corners_inside(tangents: list[tuple[float, float, float]], inset: float) -> list[Point]:
    """Corners of what lies inside all tangents set in by `inset`, counter-clockwise in the first quadrant."""
    kept: list[tuple[float, float, float]] = [(0.0, -1.0, 0.0)]
    for c, s, reach in tangents:
        kept = _without_hidden(kept, (c, s, max(0.0, reach - inset)))  # the middle is never set in further
    kept = _without_hidden(kept, (-1.0, 0.0, 0.0))
    return [_meeting(one, two) for one, two in pairwise(kept)]


def _without_hidden(
    kept: list[tuple[float, float, float]], new: tuple[float, float, float]
) -> list[tuple[float, float, float]]:
    while len(kept) > 1:
        x, y = _meeting(kept[-2], kept[-1])
        if new[0] * x + new[1] * y <= new[2]:
            break
        kept.pop()
    kept.append(new)
    return kept


def _meeting(one: tuple[float, float, float], two: tuple[float, float, float]) -> Point:
    c1, s1, r1 = one
    c2, s2, r2 = two
    cross = c1 * s2 - s1 * c2
    return (r1 * s2 - r2 * s1) / cross, (c1 * r2 - c2 * r1) / cross
