"""Where lines leave levers, shifters and calipers, from the measures of bar, stem and rear axle.

The offsets of a lever's or caliper's outlet from bar and axle are common practice, no source; the rest is trigonometry,
derived.
"""

from math import cos, radians, sin, tan

from planner.geometry.frame_table.frame_table import forward_of_axis, steering_axis
from planner.geometry.motion.frame_axes import Pose3
from planner.geometry.vectors import moved
from planner.parts import BarKind, Cockpit, FrameTable, MountKind, Outlet, Point


def bar_clamp_mm(table: FrameTable, cockpit: Cockpit) -> Point:
    """The middle of the bar, in the stem's clamp."""
    top_mm, up = steering_axis(table)
    angle_rad = radians(cockpit.stem_angle_deg)
    over_mm = moved(top_mm, up, cockpit.spacers_mm)
    ahead_mm = moved(over_mm, forward_of_axis(table), cockpit.stem_mm * cos(angle_rad))
    return moved(ahead_mm, up, cockpit.stem_mm * sin(angle_rad))


def find_outlet(*, table: FrameTable, cockpit: Cockpit, outlet: Outlet, is_left: bool) -> Pose3:
    """Where a line leaves a lever, a shifter or a hood, and the way it points."""
    x, _, z = bar_clamp_mm(table, cockpit)
    aside_mm, side = cockpit.width_mm / 2 - outlet.inboard_mm, 1.0 if is_left else -1.0
    if cockpit.bar is BarKind.DROP:
        position_mm = (x + cockpit.bar_reach_mm + outlet.ahead_mm, side * aside_mm, z - outlet.below_mm)
    else:
        position_mm = (
            x - aside_mm * tan(radians(cockpit.sweep_deg)) + outlet.ahead_mm,
            side * aside_mm,
            z + cockpit.rise_mm + aside_mm * tan(radians(cockpit.upsweep_deg)) - outlet.below_mm,
        )
    along, aside, up = outlet.heading
    return Pose3(position_mm=position_mm, heading=(along, side * aside, up))


def find_caliper_outlet(*, axle_mm: Point, mount: MountKind, is_left: bool, far_mm: Point | None = None) -> Pose3:
    """Where a line leaves a rear caliper: a guess from the mount alone, which a measured tail beats.

    The line points forward and down, as along a chainstay; and up where it goes on to a place above, as on a seat stay.

    axle_mm : the rear axle
    far_mm : where the line goes from there; None where that is not known
    """
    side = 1.0 if is_left else -1.0
    back_mm, aside_mm, up_mm = (28.0, 70.0, 22.0) if mount is MountKind.FLAT else (10.0, 76.0, 28.0)
    position_mm = (axle_mm[0] + back_mm, side * aside_mm, axle_mm[2] + up_mm)
    goes_up = far_mm is not None and far_mm[2] > position_mm[2]
    return Pose3(position_mm=position_mm, heading=(0.7, -0.15 * side, 0.7) if goes_up else (0.85, -0.1 * side, -0.5))
