"""From where on a frame as told is asked about: a slip is likely there, and nothing of it is refused."""

from typing import Annotated, Any

from pydantic import Field

from catalog.field_types import measure
from catalog.fields import Entry, Share, Times
from planner.parts import SlipLimits

SlipLength = Annotated[float, measure("asked from", "Asked about from here on.", "mm", least=0, most=10_000)]
SlipAngle = Annotated[float, measure("asked from", "Asked about from here on.", "degrees", least=0, most=3600)]
SlipPair = Annotated[
    tuple[SlipLength, SlipLength], Field(title="from, to", description="[from, to] of what is asked about.")
]


def _told(help_text: str) -> Any:
    """May be left out; what it is for, over what its kind says of itself."""
    return Field(default=None, description=help_text)


class SlipsEntry(Entry):
    """What is asked about as a likely slip; all may be left out."""

    frame_least: SlipLength | None = _told("Furthest two points of a frame: nearer is asked about.")
    frame_most: SlipLength | None = _told("Furthest two points of a frame: further is asked about.")
    frame_cm: SlipPair | None = _told("That distance, from and to, where centimetres were likely meant.")
    frame_inches: SlipPair | None = _told("That distance, from and to, where inches were likely meant.")
    off_tube: SlipLength | None = _told("A hole this far beyond its tube's wall.")
    off_window: SlipLength | None = _told("A window between two cavities this far beyond a wall.")
    side: SlipLength | None = _told("What is called left this far to the right, or the other way round.")
    points_out_off: SlipLength | None = _told("A hole this far off the middle line has a side.")
    points_out_share: Share | None = _told("The same, as a part of the tube's radius.")
    points_out: Share | None = _told("Sine of the angle by which a line points out where it goes in.")
    backwards: Share | None = _told("Sine of the angle by which a line points away from where it goes, in a hole.")
    anchor_backwards: Share | None = _told("The same at a lever or caliper.")
    lever_aside_least: SlipLength | None = _told("A lever nearer to the middle than this.")
    lever_aside_most: SlipLength | None = _told("A lever further from the middle than this.")
    lever_from_axis: SlipLength | None = _told("A lever further from the steering axis' point than this.")
    lever_below_axis: SlipLength | None = _told("A lever further below it than this.")
    caliper_from_stay: SlipLength | None = _told("What sits at the rear further from a stay's end than this.")
    loop_turn: SlipAngle | None = _told("A leg whose shortest curve turns more than this altogether.")
    loop_extra: SlipLength | None = _told("A leg this much longer than straight, where its ends are near.")
    loop_chord: Times | None = _told("Ends nearer than so many bend radii are near.")
    loop_radius: SlipLength | None = _told("Bend radius to the centre line where no line is named.")
    guide_short: SlipLength | None = _told("A told length this much shorter than straight.")
    guide_long_times: Times | None = _told("A guide longer than so many times the straight way,")
    guide_long: SlipLength | None = _told("and this much.")
    steering_off: SlipLength | None = _told("Steering axis this far beside the head tube.")
    steering_lean: SlipAngle | None = _told("Steering axis leaning this much against the head tube.")
    told_twice: SlipLength | None = _told("A hole's numbers this far from its place on the tube.")
    told_twice_turn: SlipAngle | None = _told("The same of its heading.")
    drawn_caliper: SlipLength | None = _told(
        "How far a caliper's outlet may be off that is drawn from its mount alone."
    )
    table_open: SlipLength | None = _told("A geometry table that fails to close by this much.")


_PARTS = {
    "frame_least": "frame_least_mm",
    "frame_most": "frame_most_mm",
    "frame_cm": "frame_cm_mm",
    "frame_inches": "frame_inches_mm",
    "off_tube": "off_tube_mm",
    "off_window": "off_window_mm",
    "side": "side_mm",
    "points_out_off": "points_out_off_mm",
    "points_out_share": "points_out_off_ratio",
    "points_out": "points_out_ratio",
    "backwards": "backwards_ratio",
    "anchor_backwards": "anchor_backwards_ratio",
    "lever_aside_least": "lever_aside_least_mm",
    "lever_aside_most": "lever_aside_most_mm",
    "lever_from_axis": "lever_from_axis_mm",
    "lever_below_axis": "lever_below_axis_mm",
    "caliper_from_stay": "caliper_from_stay_mm",
    "loop_turn": "loop_turn_deg",
    "loop_extra": "loop_extra_mm",
    "loop_chord": "loop_chord_ratio",
    "loop_radius": "loop_radius_mm",
    "guide_short": "guide_short_mm",
    "guide_long_times": "guide_long_ratio",
    "guide_long": "guide_long_mm",
    "steering_off": "steering_off_mm",
    "steering_lean": "steering_lean_deg",
    "told_twice": "told_twice_mm",
    "told_twice_turn": "told_twice_deg",
    "drawn_caliper": "drawn_caliper_mm",
    "table_open": "table_open_mm",
}
"""What each figure is called in the planner, with its unit."""


def slip_limits(entry: SlipsEntry | None) -> SlipLimits | None:
    """The planner's limits; None where the shop leaves one open: then nothing is asked."""
    if entry is None:
        return None
    told: dict[str, Any] = {part: getattr(entry, name) for name, part in _PARTS.items()}
    return None if None in told.values() else SlipLimits(**told)
