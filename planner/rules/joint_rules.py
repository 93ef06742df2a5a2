"""Rules about the joint: whether it can be made between two lines, and at which end."""

from planner.rules.row import (
    FITS,
    NO_FIT,
    TIGHT,
    UNKNOWN,
    WHILE_DRAWING,
    WHILE_RIDING,
    About,
    Measure,
    Row,
    RuleOfTopic,
    Suits,
)

EMPTY_ONLY, STEEL_TUBE, NO_HOUSING, EITHER_END = "empty_only", "steel_tube", "no_housing", "either_end"
TOO_THIN, TOO_THICK = "too_thin", "too_thick"
SLIPS_OFF, NOT_STRETCHED, NOT_THROUGH_LINER = "slips_off", "not_stretched", "not_through_liner"
"""Notes that make another sentence."""


class JointRule(RuleOfTopic):
    """What is asked of the joint, and of the ends of the lines it joins."""

    STUD_SQUEEZE = (
        "stud_squeeze",
        Row(
            measures=Measure.DIAMETER,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            suits=Suits.MUCH_ROOM,
            says={
                FITS: "the stud is {size} thicker than the bore of {available}: it grips",
                (NO_FIT, TOO_THIN): "the stud is {missing} too thin to bite in a bore of {available}",
                (NO_FIT, TOO_THICK): "the stud is {missing} too thick for a bore of {available}: it would split it",
            },
        ),
    )
    SLEEVE_GRIP = (
        "sleeve_grip",
        Row(
            measures=Measure.DIAMETER,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                FITS: "a sleeve of {size} bore is stretched over a line of {available}",
                NO_FIT: "a sleeve of {size} bore grips nothing on a line of {available}",
            },
        ),
    )
    SLEEVE_STRETCH = (
        "sleeve_stretch",
        Row(
            measures=Measure.DIAMETER,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                NO_FIT: "a sleeve of {size} bore cannot be stretched over a line of {available}",
            },
        ),
    )
    SPOKE_BORE = (
        "spoke_bore",
        Row(
            measures=Measure.DIAMETER,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            suits=Suits.LITTLE_ROOM,
            says={
                FITS: "a spoke of {size} lies in a bore of {available}",
                NO_FIT: "a spoke of {size} does not go into a bore of {available}",
            },
        ),
    )
    JOINT_BORE = (
        "joint_bore",
        Row(
            measures=Measure.PART,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                UNKNOWN: "the bore of {with} was not measured: measure it at a clean square cut",
                NO_FIT: "a line without a bore cannot take this joint",
            },
        ),
    )
    JOINT_NEEDS_LINE = (
        "joint_needs_line",
        Row(
            measures=Measure.PART,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                NO_FIT: "there is no old line in the frame to join to",
            },
        ),
    )
    LEADER_USE = (
        "leader_use",
        Row(
            measures=Measure.PART,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                FITS: "a leader draws the new line through",
                NO_FIT: "a leader is for an empty frame or in place of a bare cable; here the old line does the"
                " drawing",
                (NO_FIT, EMPTY_ONLY): "this way in is for an empty frame; here something lies in it",
            },
        ),
    )
    GOES_OUTSIDE = (
        "goes_outside",
        Row(
            measures=Measure.PART,
            about=About.JOINT,
            asked=WHILE_RIDING,
            says={
                FITS: "the line goes through no hole: it is laid along the outside and clipped",
            },
        ),
    )
    MAGNET_WALL = (
        "magnet_wall",
        Row(
            measures=Measure.LENGTH,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                FITS: "a magnet leads the tip through walls up to {available}; the thickest here is {size}",
                UNKNOWN: "how thick a wall this magnet works through was not tried",
                NO_FIT: "the magnet works through walls up to {available}; the thickest here is {size}",
                (NO_FIT, STEEL_TUBE): "a magnet leads nothing through a steel frame",
            },
        ),
    )
    CABLE_USE = (
        "cable_use",
        Row(
            measures=Measure.PART,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                FITS: "the cable that lies in the frame leads the way",
                UNKNOWN: "how thick the inner cable in the old housing is was not told: measure it where it shows",
                NO_FIT: "no bare cable lies in the frame to go over",
                (NO_FIT, NO_HOUSING): "only a housing goes over a cable",
            },
        ),
    )
    CABLE_IN_BORE = (
        "cable_in_bore",
        Row(
            measures=Measure.DIAMETER,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                FITS: "the cable of {size} slides in a bore of {available}",
                TIGHT: "the cable of {size} only just slides in a bore of {available}: try it on the bench",
                UNKNOWN: "the bore that the cable is to lie in was not measured",
                NO_FIT: "the cable of {size} does not slide in a bore of {available}",
            },
        ),
    )
    HOUSING_OFF = (
        "housing_off",
        Row(
            measures=Measure.PART,
            about=About.END,
            asked=WHILE_DRAWING,
            says={
                FITS: "the old housing is drawn off its cable, which stays in the frame",
                NO_FIT: "the old housing carries a factory-set end ({with}): it is not drawn off its cable",
            },
        ),
    )
    CABLE_HEAD = (
        "cable_head",
        Row(
            measures=Measure.PART,
            about=About.END,
            asked=WHILE_DRAWING,
            says={
                FITS: "the old cable's free end is at this end: the new housing goes on here",
                (FITS, EITHER_END): "the new housing goes on at the old cable's free end, whichever that is",
                NO_FIT: "the old cable's head sits at this end: the new housing goes on at the other, its free end",
            },
        ),
    )
    LINER_ROOM = (
        "liner_room",
        Row(
            measures=Measure.DIAMETER,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                FITS: "the new line goes through or over the liner: {size} in {available}",
                TIGHT: "the new line only just slides through or over the liner, {size} in {available}: try it on the"
                " bench",
                NO_FIT: "the new line goes neither through the liner nor over it: {size} in {available}",
            },
        ),
    )
    FLUID_BARRIER = (
        "fluid_barrier",
        Row(
            measures=Measure.PART,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                UNKNOWN: "what fluid the old line held is not known, and this joint leaves both bores open to each"
                " other: find out, or draw the line with a joint that closes the new bore",
                NO_FIT: "the old line held another class of fluid, and this joint leaves both bores open to each"
                " other: a trace of it destroys the new brake's seals",
            },
        ),
    )
    LEADING_END = (
        "leading_end",
        Row(
            measures=Measure.PART,
            about=About.END,
            asked=WHILE_DRAWING,
            says={
                FITS: "the end that leads through the frame can have its fitting set afterwards",
                NO_FIT: "the end that would lead through the frame needs a factory-crimped fitting, which no"
                " workshop can set",
            },
        ),
    )
    CUT_END = (
        "cut_end",
        Row(
            measures=Measure.PART,
            about=About.END,
            asked=WHILE_DRAWING,
            says={
                FITS: "the old line may be cut at this end",
                NO_FIT: "the old brake is to be kept and its fitting at this end is factory-crimped: it may not"
                " be cut there",
            },
        ),
    )
    LEADING_JOINT = (
        "leading_joint",
        Row(
            measures=Measure.PART,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                FITS: "the joint goes over {with}, as it was made up and measured",
                UNKNOWN: "the joint goes over {with}, and how thick it then is and what it holds was not measured: make"
                " it up on one like it, take its thickest place with calipers and its pull with a spring balance",
                NO_FIT: "{with} sits on the end and closes its bore: nothing is screwed or slid into it",
                (NO_FIT, SLIPS_OFF): "the sleeve grips nothing on {with}",
                (NO_FIT, NOT_STRETCHED): "the sleeve cannot be stretched over {with}",
                (NO_FIT, NOT_THROUGH_LINER): "{with} does not go through the liner",
            },
        ),
    )
    SPOKE_REACH = (
        "spoke_reach",
        Row(
            measures=Measure.REACH,
            about=About.JOINT,
            asked=WHILE_DRAWING,
            says={
                TIGHT: "{with} would pass with a reach of {size} in each bore in place of {available}; {place} decides",
            },
        ),
    )
