"""What a check says: the sentences of the rules filled in."""

from planner.documents.words.sizes_in_words import SIZE_WORDS
from planner.plan.names import NO_NAMES, Names
from planner.rules import SIDE_BY_SIDE, WORK_RAN_OUT, PlaceRule
from planner.verdicts import Check, Outcome, ThingKind

_WHOSE = {ThingKind.FITTING: "the fitting on the leading end, "}
_PIECES = {ThingKind.FITTING: "the fitting on the leading end, stiff over {size},"}
_ANY_PIECE = "a stiff piece {size} long"


def sentence_for(check: Check, *, names: Names = NO_NAMES) -> str:
    """What a check says, in one sentence without its full stop.

    Returns with units beside every number.

    check : what was asked and answered
    names : what people call places and things; ids stand where a name is missing
    """
    told = SIZE_WORDS[check.rule.row.measures]
    kind, size = None if check.thing is None else check.thing.kind, told(check.size_mm)
    with_others = ", ".join(names.thing(id) for id in check.with_ids)
    return check.rule.row.sentence(check.outcome, _answer_note(check)).format(
        whose="" if kind is None else _WHOSE.get(kind, ""),
        piece=_ANY_PIECE.format(size=size) if kind is None else _PIECES.get(kind, _ANY_PIECE).format(size=size),
        place=_place_words(check, names),
        size=size,
        available=told(check.available_mm),
        clearance=told(check.clearance_mm),
        missing=told(None if check.clearance_mm is None else -check.clearance_mm),
        worst=told(check.worst_clearance_mm),
        beside=f" beside {with_others}" if with_others else "",
        note=_note_words(check, names),
        **{"with": with_others},
    )


def _answer_note(check: Check) -> str:
    """What tells two answers with one outcome apart."""
    is_measured = check.outcome is Outcome.UNKNOWN and check.band_mm is not None
    return SIDE_BY_SIDE if is_measured and check.note != WORK_RAN_OUT else check.note


def _place_words(check: Check, names: Names) -> str:
    if check.port_id is not None:
        return names.place(check.port_id)
    return "this place" if check.run_id is None else names.run(check.run_id)


def _note_words(check: Check, names: Names) -> str:
    """A note that lists ports is told by their labels, one that lists kinds of line by words."""
    if check.rule is PlaceRule.LINE_KIND:
        return check.note.replace("_", " ")
    if check.rule is not PlaceRule.OLD_ROUTE:
        return check.note
    return names.way(tuple(check.note.split(", ")))
