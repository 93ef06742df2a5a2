"""What swings with the rear end, and where it goes.

The rear moves in the plane y = const. Positive swing turns as a link that points rearward has to turn to lift its far
end: about the y axis, right-handed. For a link that points forward the lifting swing is negative.

Four links at their dead point lock at once: nothing says which way they fold, and it is not guessed. Beyond a lock
the rear stays at the lock.
"""

from math import acos, atan2, cos, degrees, dist, inf, radians, sin, sqrt

from planner.errors import ImpossibleDimensionError
from planner.geometry.motion.frame_axes import Pose3
from planner.parts import FourBar, SinglePivot
from planner.quick_dataclass import dataclass

_IN_LINE_MM = 1e-6

_Flat = tuple[float, float]
"""(x, z) in the plane of the motion."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RearPlacement:
    """Where the rear is: turned about the frame's origin and then shifted, in the plane y = const.

    turn_deg : positive lifts what lies behind the centre of turn [deg]
    shift_mm : (x, z) [mm]
    """

    turn_deg: float
    shift_mm: tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkageLocked:
    """The answer "cannot": the links of a four-bar do not reach the angle asked.

    asked_deg : turn of the first link that was asked for [deg]
    locks_at_deg : turn at which the other two links lie in line and nothing goes further [deg]
    placement : where the rear stays, at its lock
    """

    asked_deg: float
    locks_at_deg: float
    placement: RearPlacement


def find_rear_placement(*, rear: SinglePivot | FourBar, swing_deg: float) -> RearPlacement | LinkageLocked:
    """Where the rear end is at a given swing.

    Returns the placement, or the angle at which the links lock before they get there.

    rear : how it is carried
    swing_deg : turn of the swingarm, or of the first link of a four-bar, from rest

    Raises ImpossibleDimensionError when a link of a four-bar has no length.

    Source: Plane geometry, derived. Checked against F. Freudenstein, "An analytical approach to the
    design of four-link mechanisms", Trans. ASME 76 (1954) 483-492.
    """
    if isinstance(rear, SinglePivot):
        return _placement(swing_deg, rear.pivot_mm, rear.pivot_mm)
    _refuse_links_without_length(rear)
    if swing_deg == 0:
        return RearPlacement(turn_deg=0.0, shift_mm=(0.0, 0.0))
    if _is_dead_at_rest(rear):
        at_rest = RearPlacement(turn_deg=0.0, shift_mm=(0.0, 0.0))
        return LinkageLocked(asked_deg=swing_deg, locks_at_deg=0.0, placement=at_rest)
    locks_at_deg = _lock_deg(rear, forward=swing_deg >= 0)
    if abs(swing_deg) > abs(locks_at_deg):
        return LinkageLocked(
            asked_deg=swing_deg, locks_at_deg=locks_at_deg, placement=_swung_four_bar(rear, locks_at_deg)
        )
    return _swung_four_bar(rear, swing_deg)


def _swung_four_bar(rear: FourBar, swing_deg: float) -> RearPlacement:
    """Where the coupler is at a swing that the links reach."""
    first_pivot, second_pivot = rear.frame_pivots_mm
    first, second = rear.link_pivots_mm
    moved_first = _turned(first, first_pivot, swing_deg)
    moved_second = _close(moved_first, dist(first, second), second_pivot, dist(second_pivot, second), _side(rear))
    turn_deg = _bearing_deg(first, second) - _bearing_deg(moved_first, moved_second)
    return _placement((turn_deg + 180) % 360 - 180, first, moved_first)


def move_with_rear(pose: Pose3, *, placement: RearPlacement) -> Pose3:
    """Where a pose on the rear end comes to lie.

    Returns place and heading, both moved; y stays.
    """
    x, y, z = pose.position_mm
    x, z = _turned((x, z), (0.0, 0.0), placement.turn_deg)
    across, side, up = pose.heading
    across, up = _turned((across, up), (0.0, 0.0), placement.turn_deg)
    return Pose3(position_mm=(x + placement.shift_mm[0], y, z + placement.shift_mm[1]), heading=(across, side, up))


def _placement(turn_deg: float, point_at_rest: _Flat, point_now: _Flat) -> RearPlacement:
    turned = _turned(point_at_rest, (0.0, 0.0), turn_deg)
    return RearPlacement(turn_deg=turn_deg, shift_mm=(point_now[0] - turned[0], point_now[1] - turned[1]))


def _turned(point: _Flat, centre: _Flat, turn_deg: float) -> _Flat:
    """Right-handed about y: what lies behind the centre goes up."""
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))
    x, z = point[0] - centre[0], point[1] - centre[1]
    return (centre[0] + x * c + z * s, centre[1] - x * s + z * c)


def _bearing_deg(start: _Flat, end: _Flat) -> float:
    return degrees(atan2(end[1] - start[1], end[0] - start[0]))


def _side(rear: FourBar) -> float:
    """On which side of the line from the first link's end to the second frame pivot the second link's end lies."""
    (_, pivot), (first, second) = rear.frame_pivots_mm, rear.link_pivots_mm
    across = (pivot[0] - first[0]) * (second[1] - first[1]) - (pivot[1] - first[1]) * (second[0] - first[0])
    return 1.0 if across >= 0 else -1.0


def _is_dead_at_rest(rear: FourBar) -> bool:
    """Whether coupler and second link lie in line at rest, so that nothing says which way they fold."""
    (_, pivot), (first, second) = rear.frame_pivots_mm, rear.link_pivots_mm
    apart_mm, coupler_mm, link_mm = dist(first, pivot), dist(first, second), dist(pivot, second)
    return not abs(coupler_mm - link_mm) + _IN_LINE_MM < apart_mm < coupler_mm + link_mm - _IN_LINE_MM


def _close(first: _Flat, coupler_mm: float, pivot: _Flat, link_mm: float, side: float) -> _Flat:
    """The second link's end: on the coupler's circle about the first and on its own about its pivot."""
    apart = dist(first, pivot)
    along = (apart * apart + coupler_mm * coupler_mm - link_mm * link_mm) / (2 * apart)
    beside = side * sqrt(max(coupler_mm * coupler_mm - along * along, 0.0))
    x, z = (pivot[0] - first[0]) / apart, (pivot[1] - first[1]) / apart
    return (first[0] + along * x - beside * z, first[1] + along * z + beside * x)


def _lock_deg(rear: FourBar, *, forward: bool) -> float:
    """The turn of the first link at which coupler and second link first lie in line; infinite where they never do."""
    (frame_pivot, pivot), (first, second) = rear.frame_pivots_mm, rear.link_pivots_mm
    ground_mm, link_mm = dist(frame_pivot, pivot), dist(frame_pivot, first)
    coupler_mm, other_mm = dist(first, second), dist(pivot, second)
    # the bearing grows while the swing shrinks: positive swing turns the other way round in (x, z)
    opening_deg = _bearing_deg(frame_pivot, pivot) - _bearing_deg(frame_pivot, first)
    locks = []
    for reach_mm in (coupler_mm + other_mm, abs(coupler_mm - other_mm)):
        cosine = (ground_mm**2 + link_mm**2 - reach_mm**2) / (2 * ground_mm * link_mm)
        if abs(cosine) > 1:
            continue
        for angle_deg in (degrees(acos(cosine)), -degrees(acos(cosine))):
            swing_deg = (angle_deg - opening_deg) % 360
            locks.append(swing_deg if forward else 360 - swing_deg)
    nearest_deg = min(locks, default=inf)
    return nearest_deg if forward else -nearest_deg


def _refuse_links_without_length(rear: FourBar) -> None:
    (first_pivot, second_pivot), (first, second) = rear.frame_pivots_mm, rear.link_pivots_mm
    lengths = (
        dist(first_pivot, first),
        dist(second_pivot, second),
        dist(first, second),
        dist(first_pivot, second_pivot),
    )
    if not min(lengths) > 0:
        raise ImpossibleDimensionError(
            name="four-bar link", value=min(lengths), unit="mm", rule="must be longer than zero"
        )
