"""A frame and its cockpit by the figures of a geometry table and a tape measure."""

from enum import StrEnum

from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameTable:
    """The figures of a geometry table that draw a frame.

    reach_mm, stack_mm : top of the head tube, forward of and above the bottom bracket
    head_angle_deg, seat_angle_deg : against the ground, behind; the seat tube's None where it is not told
    head_tube_mm, seat_tube_mm : lengths; the seat tube's None where it is not told
    chainstay_mm : straight from the bottom bracket to the rear axle
    bb_drop_mm : bottom bracket below the line of the axles; negative above it
    spacing_mm : between the dropouts, at the rear axle
    down_tube_short_mm : how far before the bottom bracket the down tube's cavity ends
    has_swingarm : whether the chainstays start at a swingarm's pivot
    steps_low : whether the top tube goes low to the seat tube, for stepping through
    fork_mm, offset_mm : axle to crown, and the axle's offset from the steering axis; None where not told
    wheelbase_mm, front_centre_mm : axle to axle, and bottom bracket to front axle; None where not told
    """

    reach_mm: float
    stack_mm: float
    head_angle_deg: float
    head_tube_mm: float
    chainstay_mm: float
    bb_drop_mm: float
    spacing_mm: float
    down_tube_short_mm: float
    seat_angle_deg: float | None = None
    seat_tube_mm: float | None = None
    has_swingarm: bool = False
    steps_low: bool = False
    fork_mm: float | None = None
    offset_mm: float | None = None
    wheelbase_mm: float | None = None
    front_centre_mm: float | None = None


class BarKind(StrEnum):
    """What sort of bar the levers sit on."""

    FLAT = "flat"
    CITY = "city"
    DROP = "drop"


@dataclass(frozen=True, slots=True, kw_only=True)
class Outlet:
    """Where a line leaves a lever, as seen from the bar.

    inboard_mm : from the bar's end towards its middle
    ahead_mm, below_mm : of the bar there; of a hood, ahead of and below the foremost point of the bend
    heading : of a left one, as it leaves [no unit]
    """

    inboard_mm: float
    ahead_mm: float
    below_mm: float
    heading: tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Cockpit:
    """Bar and stem.

    width_mm : end to end of a flat bar; of a drop bar, between the hoods
    rise_mm : of the bar, from the clamp to where it has bent up
    sweep_deg, upsweep_deg : backward and upward, of the grips against the bar's middle
    stem_mm, stem_angle_deg : length, and its angle to the square on the steerer; positive points up
    spacers_mm : under the stem
    bar_reach_mm : of a drop bar, from its middle to the foremost point of the bend
    """

    bar: BarKind
    width_mm: float
    rise_mm: float
    sweep_deg: float
    upsweep_deg: float
    stem_mm: float
    stem_angle_deg: float
    spacers_mm: float
    bar_reach_mm: float
