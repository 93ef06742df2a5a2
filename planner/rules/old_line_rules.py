"""Rules about the old line as the measure of the new one: what speaks against it, and what is asked beside it."""

from planner.rules.row import UNKNOWN, WHILE_RIDING, About, Measure, Row, RuleOfTopic


def _asks(sentence: str, *, measures: Measure = Measure.LENGTH) -> Row:
    return Row(measures=measures, about=About.JOB, asked=WHILE_RIDING, says={UNKNOWN: sentence})


class OldLineRule(RuleOfTopic):
    """What is asked of a measured old line."""

    DEPTH = (
        "old_line_depth",
        _asks(
            "how deep the old line goes into its factory end is not known, so its {size} from cut end to cut end says"
            " nothing of the new one: measure it between its fittings (measured: between_fittings)"
        ),
    )
    TOO_SHORT = (
        "old_line_too_short",
        _asks("of the old line's {size} nothing is left between its fittings: measure it again, and say how"),
    )
    OTHER_WAY = (
        "old_line_other_way",
        _asks("the new line takes another way than the old one, whose {size} say nothing of it"),
    )
    NOT_REACHED = (
        "old_line_not_reached",
        _asks("the old line of {size} did not reach in every posture, so nothing is cut by it"),
    )
    MOVE = (
        "old_line_move",
        _asks(
            "the length comes from the old line, for outlets where the old ones were: measure how far the new lever's"
            " and caliper's lie from there, as that may be {available} either way, and hold the line to its way before"
            " it is cut"
        ),
    )
    BEND = (
        "old_line_bend",
        _asks(
            "the new line may be bent to {size} only, where the old one took {available}: does it lie as the old one"
            " did? Hold it to its way before it is cut",
            measures=Measure.RADIUS,
        ),
    )
    REACHED = (
        "old_line_reached",
        _asks("did the old line of {size} reach with the bar at both stops and the rear right down?"),
    )
