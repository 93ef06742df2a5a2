"""A frame drawn from its geometry table: where its tubes, its axles and its steering axis lie.

Every tube is straight. Where a tube ends short of the point it is drawn to, and how far apart two stays start, is
common practice, no source; the rest is plane trigonometry, derived.
"""

from math import asin, cos, degrees, hypot, radians, sin, sqrt

from planner.errors import ImpossibleDimensionError
from planner.geometry.motion.frame_axes import unit_vector
from planner.geometry.vectors import from_to, moved, scaled
from planner.parts import FrameTable, Point
from planner.quick_dataclass import dataclass

Path2 = tuple[Point, Point]
"""A straight tube: its two ends."""

DOWN_TUBE_FROM_HEAD_MM = 20.0
TOP_TUBE_FROM_HEAD_MM, TOP_TUBE_FROM_SEAT_MM = 28.0, 15.0
SEAT_TUBE_FROM_BB_MM = 35.0
LOW_STEP_FROM_HEAD_MM, LOW_STEP_ON_SEAT_RATIO = 60.0, 0.55
STAY_START_MM, SWING_STAY_START_MM = (-5.0, 21.0, 14.0), (-26.0, 42.0, 25.0)
STAY_FROM_AXLE_MM, STAY_END_DROP_MM = 28.0, 18.0
SEAT_STAY_FROM_SEAT_MM, SEAT_STAY_ASIDE_MM, SEAT_STAY_FROM_AXLE_MM = 35.0, 24.0, 18.0
DROPOUT_MM = 7.0
CROWN_RACE_MM = 10.0


def steering_axis(table: FrameTable) -> tuple[Point, Point]:
    """The steering axis: the top of the head tube, and the way up along it, length 1 [no unit]."""
    angle_rad = radians(table.head_angle_deg)
    return (table.reach_mm, 0.0, table.stack_mm), (-cos(angle_rad), 0.0, sin(angle_rad))


def forward_of_axis(table: FrameTable) -> Point:
    """Square to the steering axis, forward, length 1 [no unit]."""
    angle_rad = radians(table.head_angle_deg)
    return (sin(angle_rad), 0.0, cos(angle_rad))


def head_tube_bottom_mm(table: FrameTable) -> Point:
    """The lower end of the head tube."""
    top_mm, up = steering_axis(table)
    return moved(top_mm, up, -table.head_tube_mm)


def rear_axle_mm(table: FrameTable) -> Point:
    """The middle of the rear axle.

    Raises ImpossibleDimensionError when the bottom bracket lies further below or above it than the chainstay is long.
    """
    if abs(table.bb_drop_mm) >= table.chainstay_mm:
        raise ImpossibleDimensionError(
            name="bb_drop", value=table.bb_drop_mm, unit="mm", rule="must be less than the chainstay's length"
        )
    return (-sqrt(table.chainstay_mm**2 - table.bb_drop_mm**2), 0.0, table.bb_drop_mm)


def front_axle_by_fork_mm(table: FrameTable) -> Point | None:
    """The middle of the front axle, as the fork puts it; None where fork or offset are not told."""
    if table.fork_mm is None or table.offset_mm is None:
        return None
    _, up = steering_axis(table)
    below_mm = moved(head_tube_bottom_mm(table), up, -table.fork_mm - CROWN_RACE_MM)
    return moved(below_mm, forward_of_axis(table), table.offset_mm)


def find_tubes(table: FrameTable) -> dict[str, Path2]:
    """The tubes that a table draws, by the ids that frame files use for them.

    Returns without seat tube, top tube and seat stays where the table does not tell the seat tube.

    Raises ImpossibleDimensionError when the bottom bracket lies further below the rear axle than the chainstay is long.
    """
    top_mm, up = steering_axis(table)
    bottom_mm = head_tube_bottom_mm(table)
    lower_mm = moved(bottom_mm, up, DOWN_TUBE_FROM_HEAD_MM)
    tubes = {
        "head_tube": (top_mm, bottom_mm),
        "down_tube": (lower_mm, scaled(unit_vector(lower_mm, name="down tube"), table.down_tube_short_mm)),
        "stay_left": _chainstay(table, 1.0),
        "stay_right": _chainstay(table, -1.0),
    }
    if table.seat_angle_deg is None or table.seat_tube_mm is None:
        return tubes
    angle_rad = radians(table.seat_angle_deg)
    seat = (-cos(angle_rad), 0.0, sin(angle_rad))
    tubes["seat_tube"] = (scaled(seat, SEAT_TUBE_FROM_BB_MM), scaled(seat, table.seat_tube_mm))
    tubes["top_tube"] = (
        (moved(bottom_mm, up, LOW_STEP_FROM_HEAD_MM), scaled(seat, LOW_STEP_ON_SEAT_RATIO * table.seat_tube_mm))
        if table.steps_low
        else (moved(top_mm, up, -TOP_TUBE_FROM_HEAD_MM), scaled(seat, table.seat_tube_mm - TOP_TUBE_FROM_SEAT_MM))
    )
    for id_, side in (("seatstay_left", 1.0), ("seatstay_right", -1.0)):
        x, _, z = scaled(seat, table.seat_tube_mm - SEAT_STAY_FROM_SEAT_MM)
        start_mm = (x, SEAT_STAY_ASIDE_MM * side, z)
        tubes[id_] = (start_mm, _short_of(start_mm, _dropout_mm(table, side), SEAT_STAY_FROM_AXLE_MM))
    return tubes


def _dropout_mm(table: FrameTable, side: float) -> Point:
    """side : 1 left, -1 right [no unit]"""
    x, _, z = rear_axle_mm(table)
    return (x, side * (table.spacing_mm / 2 - DROPOUT_MM), z)


def _chainstay(table: FrameTable, side: float) -> Path2:
    x, y, z = SWING_STAY_START_MM if table.has_swingarm else STAY_START_MM
    start_mm, dropout_mm = (x, side * y, z), _dropout_mm(table, side)
    end_mm = _short_of(start_mm, dropout_mm, STAY_FROM_AXLE_MM)
    return start_mm, (end_mm[0], end_mm[1], dropout_mm[2] - STAY_END_DROP_MM)


def _short_of(start_mm: Point, towards_mm: Point, by_mm: float) -> Point:
    return moved(towards_mm, unit_vector(from_to(start_mm, towards_mm), name="stay"), -by_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class TableGaps:
    """How far a table that tells more than it needs fails to close; None where it does not tell that much.

    height_mm : how much higher than the rear axle the fork puts the front axle
    wheelbase_mm : how much longer than told it comes out by the fork, or else by the front centre
    front_centre_mm : how much longer than told it comes out by the fork
    """

    height_mm: float | None = None
    wheelbase_mm: float | None = None
    front_centre_mm: float | None = None


def find_table_gaps(table: FrameTable) -> TableGaps:
    """How far a geometry table fails to close.

    Raises ImpossibleDimensionError when the bottom bracket lies further from the rear axle's line than the chainstay is
    long.

    Derived: the axles lie level, as far apart as the wheelbase; the front centre is the way from the bottom bracket.
    """
    front_mm, rear_mm, centre_mm = front_axle_by_fork_mm(table), rear_axle_mm(table), table.front_centre_mm
    long_mm = gap_mm = None
    if front_mm is not None:
        long_mm = front_mm[0] - rear_mm[0]
        gap_mm = None if centre_mm is None else hypot(*front_mm) - centre_mm
    elif centre_mm is not None and centre_mm > abs(table.bb_drop_mm):
        long_mm = sqrt(centre_mm**2 - table.bb_drop_mm**2) - rear_mm[0]
    return TableGaps(
        height_mm=None if front_mm is None else front_mm[2] - table.bb_drop_mm,
        wheelbase_mm=None if long_mm is None or table.wheelbase_mm is None else long_mm - table.wheelbase_mm,
        front_centre_mm=gap_mm,
    )


def swing_of_travel_deg(*, axle_mm: Point, pivot_mm: tuple[float, float], travel_mm: float) -> float:
    """How far a swingarm turns while its axle rises by so much.

    axle_mm : the rear axle at rest
    pivot_mm : (x, z) of the pivot

    Raises ImpossibleDimensionError when no turn lifts the axle that far.

    >>> round(swing_of_travel_deg(axle_mm=(-430, 0, 30), pivot_mm=(14, 60), travel_mm=131), 2)
    16.98
    """
    below_mm, arm_mm = pivot_mm[1] - axle_mm[2], hypot(axle_mm[0] - pivot_mm[0], axle_mm[2] - pivot_mm[1])
    if arm_mm <= 0 or not -1 <= (travel_mm - below_mm) / arm_mm <= 1:
        raise ImpossibleDimensionError(
            name="travel", value=travel_mm, unit="mm", rule=f"must be in reach of an arm of {arm_mm:.0f} mm"
        )
    return degrees(asin(below_mm / arm_mm) + asin((travel_mm - below_mm) / arm_mm))
