"""Rules about lengths: whether the line reaches, how it hangs, and what its bends take of the hand."""

from planner.rules.row import (
    FITS,
    NO_FIT,
    TIGHT,
    UNKNOWN,
    WHILE_RIDING,
    About,
    Measure,
    Row,
    RuleOfTopic,
)


class LengthRule(RuleOfTopic):
    """What is asked of the new line as it lies in its way."""

    SUPPLIED_LENGTH = (
        "supplied_length",
        Row(
            measures=Measure.LENGTH,
            about=About.JOB,
            says={
                FITS: "the supplied line reaches: {size} needed, {available} supplied, {clearance} to spare",
                NO_FIT: "the supplied line is {missing} too short: {size} needed, {available} supplied",
            },
        ),
    )
    MEASURED_LENGTH = (
        "measured_length",
        Row(
            measures=Measure.LENGTH,
            about=About.JOB,
            says={
                FITS: "the old line as measured makes {available}, which agrees with the planned {size}",
                UNKNOWN: "the old line as measured makes {available}, the plan says {size} ({note}): measure again,"
                " or see which way it really took",
            },
        ),
    )
    PRESSURE = (
        "pressure",
        Row(
            measures=Measure.LENGTH,
            about=About.JOB,
            asked=WHILE_RIDING,
            says={
                FITS: "under pressure this line may shorten by {size}; the slack in the open legs covers it",
                TIGHT: "under pressure this line may shorten by {size}, more than the {available} of slack: clip"
                " the open legs with a bow that gives way",
                UNKNOWN: "under pressure this line may shorten by {size}; how much slack its legs have was not told:"
                " clip the open legs with a bow that gives way",
            },
        ),
    )
    LENGTH_NOT_TOLD = (
        "length_not_told",
        Row(
            measures=Measure.LENGTH,
            about=About.JOB,
            asked=WHILE_RIDING,
            says={
                UNKNOWN: "how long the new line must be is not known, for nobody measured {note}: lay it in, then"
                " mark it; to buy one, measure the old line or each leg",
            },
        ),
    )
    NOT_TRIED = (
        "not_tried",
        Row(
            measures=Measure.LENGTH,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                UNKNOWN: "{place} was measured at rest, {size}, and its ends move against each other: did the old"
                " line reach in every posture with that? Turn the bar to both stops and let the rear right down"
                " before anything is cut",
            },
        ),
    )
    MOTION = (
        "motion",
        Row(
            measures=Measure.PART,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                TIGHT: "the rear's links lock at {note}, before the swing stated; nothing beyond was looked at"
                " ({place})",
                UNKNOWN: "{note} is not described, so {place} is measured at rest only",
            },
        ),
    )
    RELAXED_SHAPE = (
        "relaxed_shape",
        Row(
            measures=Measure.PART,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                UNKNOWN: "how a real hose lies in {place} was not found ({note}): its length there is an estimate"
                " that is not short",
            },
        ),
    )
    TWO_WAYS_TO_LIE = (
        "two_ways_to_lie",
        Row(
            measures=Measure.LENGTH,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                TIGHT: "{place} may lie in two ways ({note}), with {size} or {available} of line: the longer one"
                " is counted",
            },
        ),
    )
    ONE_LENGTH = (
        "one_length",
        Row(
            measures=Measure.RADIUS,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                UNKNOWN: "do the ends of {place} hold the line, or can it slide through one? If they hold it, the"
                " length that it needs elsewhere bends it to {available} where it allows {size} ({note})",
            },
        ),
    )
    LEG_EDGE = (
        "leg_edge",
        Row(
            measures=Measure.LENGTH,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                UNKNOWN: "{place} only just does without a loop ({note}): measure where its ends point; until then"
                " its length is not known",
            },
        ),
    )
    LEG_LOOP = (
        "leg_loop",
        Row(
            measures=Measure.RADIUS,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                UNKNOWN: "{place} would need a loop, the shortest found {clearance} more than without ({note}), as the"
                " line allows {size}; with {available} it needs none: measure its ends, or lay the line in; until then"
                " its length is not known",
            },
        ),
    )
    LEG_BOW = (
        "leg_bow",
        Row(
            measures=Measure.LENGTH,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                UNKNOWN: "{place} would hang in a wide bow of {size} where {available} reach ({note}): lay the line"
                " in; until then its length is not known",
            },
        ),
    )
    FREE_SPAN = (
        "free_span",
        Row(
            measures=Measure.LENGTH,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                TIGHT: "{place} hangs free over {size}; the shop's limit is {available}: clip it to the frame",
            },
        ),
    )
    SLACK_VARIATION = (
        "slack_variation",
        Row(
            measures=Measure.LENGTH,
            about=About.LEG,
            asked=WHILE_RIDING,
            says={
                TIGHT: "the slack of {place} changes by {size} ({note}); from {available} on see that it cannot"
                " snag or rub",
            },
        ),
    )
    HAND_FORCE = (
        "hand_force",
        Row(
            measures=Measure.FORCE,
            about=About.JOB,
            says={
                FITS: "the bends of the housing take {note} of the hand's force (estimate)",
                TIGHT: "the bends of the housing take {note} of the hand's force (estimate): lead it with fewer"
                " or wider bends",
                UNKNOWN: "the friction of this housing is not in the catalog, so the loss of hand force is not told",
            },
        ),
    )
