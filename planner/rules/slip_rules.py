"""Rules about slips in telling a frame: nothing of them is refused, and none says anything of whether a line fits."""

from planner.rules.row import UNKNOWN, About, Measure, Row, RuleOfTopic


def _asked(says: str, about: About = About.HOLE) -> Row:
    return Row(measures=Measure.LENGTH, about=about, says={UNKNOWN: says})


class SlipRule(RuleOfTopic):
    """What is asked where a frame as told is unlikely."""

    FRAME_UNITS = (
        "slip_frame_units",
        _asked("the furthest two points of this frame lie {size} apart: {note}", About.JOB),
    )
    OFF_TUBE = (
        "slip_off_tube",
        _asked("{place} lies {size} off the wall of {with}, and at most {available} is usual: {note}"),
    )
    OTHER_SIDE = ("slip_other_side", _asked("{place} is called {with} and lies {size} on the other side: {note}"))
    POINTS_OUT = (
        "slip_points_out",
        _asked("in {place} the line points out of {with} where it goes in, or into it where it comes out: {note}"),
    )
    BACKWARDS = ("slip_backwards", _asked("in {place} the line points away from {with}, where it goes: {note}"))
    ANCHOR_BACKWARDS = (
        "slip_anchor_backwards",
        _asked("at {place} the line points away from {with}, where it goes: {note}", About.END),
    )
    LEVER_PLACE = ("slip_lever_place", _asked("{place} is no likely place for a lever ({with}): {note}", About.END))
    CALIPER_PLACE = (
        "slip_caliper_place",
        _asked("{place} lies {size} from the end of a stay, and at most {available} is usual: {note}", About.END),
    )
    DRAWN_CALIPER = (
        "slip_drawn_caliper",
        _asked("{place} is drawn from its mount alone and may be {available} off: {note}", About.END),
    )
    LOOPS = (
        "slip_loops",
        _asked("{place} would take {size} of line between ends {available} apart ({with}): {note}", About.LEG),
    )
    SHORT_LENGTH = (
        "slip_short_length",
        _asked("{place} is told {size} long and its ends lie {available} apart: {note}", About.LEG),
    )
    LONG_LENGTH = (
        "slip_long_length",
        _asked("{place} is told {size} long, and {available} would be long for its ends: {note}", About.LEG),
    )
    STEERING_AXIS = (
        "slip_steering_axis",
        _asked("the steering axis lies {size} beside the head tube ({with}): {note}", About.JOB),
    )
    STANDS_STILL = (
        "slip_stands_still",
        _asked("{place} stands still, though {with} rides on the rear: {note}"),
    )
    TOLD_TWICE = (
        "slip_told_twice",
        _asked("{place} is told twice, by numbers and by its tube, {size} apart ({with}): {note}"),
    )
    TABLE_OPEN = (
        "slip_table_open",
        _asked("the geometry table does not close, by {size} ({with}): {note}", About.JOB),
    )
