"""Rules about the places on a way: holes, guides, cavities, walls and the way itself."""

from planner.rules.row import (
    AT_BOTH_MOMENTS,
    FITS,
    NO_FIT,
    TIGHT,
    UNKNOWN,
    WHILE_DRAWING,
    WHILE_RIDING,
    About,
    Answer,
    Measure,
    Row,
    RuleOfTopic,
)

WORK_RAN_OUT = "work ran out"
"""What is said of a hole where the search used up its allowance before it had found or ruled out anything."""
PLAN_WORK_RAN_OUT = "plan work ran out"
"""What is said of a hole that was not asked about because the allowance of the whole plan was used up."""
SIDE_BY_SIDE = "side_by_side"
"""The answer of a hole whose sizes are known, and which is not proven either way."""

GAUGED, SPREAD = "gauged", "spread"
"""The notes of a hole that only a gauge was put into, and of one whose tilt or wall is known too roughly."""

_PASSES: dict[Answer, str] = {
    FITS: "{whose}{size} passes {place}{beside}: {clearance} to spare, {worst} in the worst case",
    TIGHT: "{whose}{size} passes {place}{beside} at nominal size, {clearance} to spare, but in the worst case {worst}",
    UNKNOWN: "{place} was not measured",
    (
        UNKNOWN,
        SIDE_BY_SIDE,
    ): "whether {size} passes {place}{beside} is not proven: neither a way to lie side by side nor a"
    " proof against it was found; lay the real things into a hole of that size",
    (UNKNOWN, WORK_RAN_OUT): "in {place} the work that the shop allows a hole ran out before anything was proven",
    (UNKNOWN, PLAN_WORK_RAN_OUT): "whether {size} passes {place}{beside} was not asked: the work that the shop allows"
    " a plan had run out",
    (UNKNOWN, GAUGED): "{whose}{size} through {place}{beside} is not proven: only {available} is sure there, by a gauge"
    " that went in; measure the hole",
    (UNKNOWN, SPREAD): "{whose}{size} passes {place}{beside} only where the line leans little and the wall is thin:"
    " measure the tilt and the wall",
    NO_FIT: "{whose}{size} does not pass {place}{beside}: {available} at best, {missing} missing",
}
_STIFF_PASSES: dict[Answer, str] = {
    FITS: "{piece} passes {place}: up to {available}",
    TIGHT: "{piece} passes {place} at nominal size: up to {available}; in the worst case {worst}",
    NO_FIT: "{piece} does not pass {place}: {available} at best",
}

IN_LINE = "in line with the tube"
"""The note of a wall that is not asked to be dipped through, its hole looking along the tube."""

HOLE_NOT_MEASURED, CAVITY_NOT_MEASURED = "opening not measured", "cavity not measured"
"""The notes of a wall that could not be asked."""

LOOKS_NOT_TOLD = "looks not told"
"""The note of a wall that a piece would have to dip through if its hole went through the tube's side."""

_GOES_STRAIGHT: dict[Answer, str] = {
    (FITS, IN_LINE): "{piece} goes straight through {place}, which looks along its tube"
}


def _not_proven(verb: str) -> dict[Answer, str]:
    begins = f"whether {{piece}} {verb} through {{place}} is not proven"
    return {
        UNKNOWN: f"{begins}: it touches, or nearly",
        (UNKNOWN, GAUGED): f"{begins}: only a gauge went into the hole; measure it",
        (UNKNOWN, SPREAD): f"{begins}: it hangs on the wall and on the cavity, which are known too roughly",
        (UNKNOWN, LOOKS_NOT_TOLD): f"{begins}, if it goes through the tube's side: say whether it looks along (looks)",
        (UNKNOWN, HOLE_NOT_MEASURED): f"{begins}: {{note}}",
        (UNKNOWN, CAVITY_NOT_MEASURED): f"{begins}: {{note}}",
    }


class PlaceRule(RuleOfTopic):
    """What is asked of the places on a way."""

    PORT_CLEARANCE = (
        "port_clearance",
        Row(measures=Measure.DIAMETER, about=About.HOLE, asked=AT_BOTH_MOMENTS, says=_PASSES),
    )
    LEADING_FITTING = (
        "leading_fitting",
        Row(measures=Measure.DIAMETER, about=About.HOLE, asked=WHILE_DRAWING, says=_PASSES),
    )
    GUIDE_BORE = (
        "guide_bore",
        Row(measures=Measure.DIAMETER, about=About.GUIDE, asked=AT_BOTH_MOMENTS, says=_PASSES),
    )
    ZONE_BORE = (
        "zone_bore",
        Row(measures=Measure.DIAMETER, about=About.CAVITY, asked=AT_BOTH_MOMENTS, says=_PASSES),
    )
    GUIDE_BEND = (
        "guide_bend",
        Row(
            measures=Measure.STIFF_LENGTH,
            about=About.GUIDE,
            asked=WHILE_DRAWING,
            says={**_STIFF_PASSES, UNKNOWN: "the bend of {place} was not measured: {note}"},
        ),
    )
    WEDGE = (
        "wedge",
        Row(
            measures=Measure.DIAMETER,
            about=About.JOB,
            asked=WHILE_DRAWING,
            says={
                TIGHT: "three lines alike can wedge side by side in {place}: it is {note} times as wide as one of them,"
                " and near three times they line up across it; move one at a time, and back where it sticks",
            },
        ),
    )
    PLAN_WORK = (
        "plan_work",
        Row(
            measures=Measure.PART,
            about=About.JOB,
            says={
                UNKNOWN: "the work that the shop allows the holes of one plan, {note} million rows, ran out: what was"
                " not asked by then is told as not known (plan_work)",
            },
        ),
    )
    WALL_ENTRY = (
        "wall_entry",
        Row(
            measures=Measure.STIFF_LENGTH,
            about=About.WALL,
            asked=WHILE_DRAWING,
            says={
                **_STIFF_PASSES,
                **_GOES_STRAIGHT,
                **_not_proven("dips in"),
            },
        ),
    )
    WALL_EXIT = (
        "wall_exit",
        Row(
            measures=Measure.STIFF_LENGTH,
            about=About.WALL,
            asked=WHILE_DRAWING,
            says={
                **_STIFF_PASSES,
                **_GOES_STRAIGHT,
                **_not_proven("comes out"),
            },
        ),
    )
    BEND_RADIUS = (
        "bend_radius",
        Row(
            measures=Measure.RADIUS,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                FITS: "{place} bends the line to {available}, where it allows {size}",
                TIGHT: "{place} bends the line to {available} where it allows {size}: only along the outer wall is"
                " there room",
                UNKNOWN: "the bend of {place} was not measured; the line allows {size}",
                NO_FIT: "{place} bends the line to {available} where it needs {size}",
            },
        ),
    )
    LED_POINT = (
        "led_point",
        Row(
            measures=Measure.RADIUS,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                NO_FIT: "{place} is led so that no bend of {size} goes {note}: {available} at most",
            },
        ),
    )
    LINE_KIND = (
        "line_kind",
        Row(
            measures=Measure.PART,
            about=About.HOLE,
            says={FITS: "{place} takes this kind of line", NO_FIT: "{place} takes only: {note}"},
        ),
    )
    OLD_ROUTE = (
        "old_route",
        Row(
            measures=Measure.PART,
            about=About.JOB,
            says={
                FITS: "the new line follows the old one through {note}",
                NO_FIT: "the ports the old line is said to run through ({note}) make no way between the two ends",
            },
        ),
    )
