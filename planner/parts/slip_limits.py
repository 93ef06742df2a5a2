"""From where on a frame is asked about as if a slip had been made in telling it."""

from planner.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class SlipLimits:
    """What is unlikely enough to be asked about, and never enough to be refused.

    frame_least_mm, frame_most_mm : between the furthest two points of a frame
    frame_cm_mm, frame_inches_mm : that distance, from and to, where centimetres or inches were likely meant
    off_tube_mm, off_window_mm : of a hole from its tube's wall; of a window between two cavities
    side_mm : on the other side of the middle than its name says
    points_out_off_mm, points_out_off_ratio : how far a hole is off the middle line, at least, and as a part of the
        tube's radius, to have a side
    points_out_ratio : sine of the angle by which a line points out where it goes in
    backwards_ratio, anchor_backwards_ratio : the same of a line that points away from where it goes, at a hole and at
        an anchor
    lever_aside_least_mm, lever_aside_most_mm : of a lever or shifter from the frame's middle
    lever_from_axis_mm, lever_below_axis_mm : from the steering axis' point, and below it
    caliper_from_stay_mm : of what sits at the rear from the end of a stay
    loop_turn_deg : whole turn of a leg's shortest curve
    loop_extra_mm, loop_chord_ratio : longer than the straight way, where that is less than so many bend radii
    loop_radius_mm : of that curve, to the centre line, where no line is named
    guide_short_mm : shorter than the straight way between its ends
    guide_long_ratio, guide_long_mm : longer than so many times the straight way and so much
    steering_off_mm, steering_lean_deg : of the steering axis from the head tube
    told_twice_mm, told_twice_deg : between a hole's numbers and its words
    drawn_caliper_mm : how far a caliper's outlet may be off that is drawn from its mount alone
    table_open_mm : by which a geometry table fails to close
    """

    frame_least_mm: float
    frame_most_mm: float
    frame_cm_mm: tuple[float, float]
    frame_inches_mm: tuple[float, float]
    off_tube_mm: float
    off_window_mm: float
    side_mm: float
    points_out_off_mm: float
    points_out_off_ratio: float
    points_out_ratio: float
    backwards_ratio: float
    anchor_backwards_ratio: float
    lever_aside_least_mm: float
    lever_aside_most_mm: float
    lever_from_axis_mm: float
    lever_below_axis_mm: float
    caliper_from_stay_mm: float
    loop_turn_deg: float
    loop_extra_mm: float
    loop_chord_ratio: float
    loop_radius_mm: float
    guide_short_mm: float
    guide_long_ratio: float
    guide_long_mm: float
    steering_off_mm: float
    steering_lean_deg: float
    told_twice_mm: float
    told_twice_deg: float
    drawn_caliper_mm: float
    table_open_mm: float
