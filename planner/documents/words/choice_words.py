"""What each shape of hole, way of joining and fitting is, in a sentence for whoever chooses or hears it."""

from planner.parts import FittingStyle, MethodKind

_SHAPES = {
    "round": "round: one diameter",
    "slot": "slot: length along the tube and width, round ends",
    "oval": "oval: an ellipse with two axes",
    "box": "box: length, width and the radius of its corners",
    "gauge": "gauge: nobody measured it, but this went in",
    "outline": "outline: any other shape, point by point",
}
_JOINTS = {
    MethodKind.THREADED_COUPLER: "threaded coupler: a stud screwed into both bores",
    MethodKind.SLEEVE_TUBE: "sleeve tube: a soft tube over both ends",
    MethodKind.SPOKE_LINK: "spoke link: a piece of spoke in both bores, to push only",
    MethodKind.LEADER_LINE: "leader line: a thin line that draws the new one after it",
    MethodKind.SUCTION_CORD: "suction cord: a thread drawn through by suction first",
    MethodKind.MAGNET_TIP: "magnet tip: a steel tip led by a magnet outside",
    MethodKind.OVER_CABLE: "over cable: new housing pushed over the cable that stays",
    MethodKind.LINER_TUBE: "liner tube: a thin tube over the old cable, the new line through it",
    MethodKind.LAID_OUTSIDE: "laid outside: along the frame, in clips",
    MethodKind.TIED_ON: "tied on: a further line behind the joint of the first",
}
_FITTINGS = {
    FittingStyle.CRIMPED: "crimped: pressed on at the factory or with a tool",
    FittingStyle.COMPRESSION: "compression: a nut that presses an olive onto the line",
    FittingStyle.BANJO: "banjo: an eye that a hollow bolt goes through",
    FittingStyle.BARBED: "barbed: teeth that grip in the bore",
    FittingStyle.PLUG: "plug: a moulded plug with contacts",
}

CHOICE_WORDS: dict[str, str] = {
    **_SHAPES,
    **{kind.value: words for kind, words in _JOINTS.items()},
    **{style.value: words for style, words in _FITTINGS.items()},
}
"""Every choice in a sentence, by its word in the files."""


def choice_word(word: str) -> str:
    """A choice as it is called."""
    return CHOICE_WORDS[word].partition(":")[0]
