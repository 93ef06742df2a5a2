"""What decides a pair of a table, in a few words: what was asked, where, and how much is missing or to spare."""

from collections.abc import Iterator

from planner.documents.words.sizes_in_words import SIZE_WORDS
from planner.outcomes import NoWay
from planner.rules import BrakeRule, JointRule, LengthRule, PartRule, PlaceRule, every_rule
from planner.table.by_plan import LENGTH

_ASKED: dict[str, str] = {
    PlaceRule.PORT_CLEARANCE: "room in the hole",
    PlaceRule.LEADING_FITTING: "room in the hole for the end that leads",
    PlaceRule.GUIDE_BORE: "room in the guide",
    PlaceRule.ZONE_BORE: "room in the tube",
    PlaceRule.GUIDE_BEND: "a stiff piece round the guide's bend",
    PlaceRule.WALL_ENTRY: "a stiff piece in through the wall",
    PlaceRule.WALL_EXIT: "a stiff piece out through the wall",
    PlaceRule.BEND_RADIUS: "how tightly the line bends",
    PlaceRule.LED_POINT: "how tightly the line bends where it is led",
    PlaceRule.LINE_KIND: "what kind of line the hole takes",
    PlaceRule.PLAN_WORK: "more work than a plan is allowed",
    LengthRule.SUPPLIED_LENGTH: "the line as it is supplied",
    JointRule.LEADING_END: "no end that may lead through the frame",
    JointRule.CUT_END: "no end where the old line may be cut",
    BrakeRule.MOUNT: "how the caliper is mounted",
    BrakeRule.ROTOR_SIZE: "the rotor on this frame",
    BrakeRule.CALIPER_ROTOR: "the rotor in this caliper",
    BrakeRule.LEVER_CLAMP: "the lever's clamp on this bar",
    BrakeRule.LEVER_SIDE: "the side of the lever",
    PartRule.FLUID: "which fluid belongs in it",
    PartRule.HOSE_END_OUTER: "the end fitting and the hose's outside",
    PartRule.HOSE_END_BORE: "the end fitting and the hose's bore",
    PartRule.THREAD: "the threads",
    NoWay.NOT_LINKED: "no way leads from one end to the other",
    NoWay.PORT_TWICE: "every way goes through a hole twice",
    LENGTH: "the length of a stretch",
    NoWay.OLD_ROUTE: "the old line's holes make no way",
}
"""What a rule asks, for a heading; others by their own name."""


def rule_words(rule: str) -> str:
    """What a rule asks, by its name in the file formats; "" is told as nothing asked.

    >>> rule_words("wall_entry"), rule_words("line_kind")
    ('a stiff piece in through the wall', 'what kind of line the hole takes')
    """
    return _ASKED.get(rule, rule.replace("_", " ")) or "nothing was asked"


def decider_words(*, rule: str, place: str, clearance_mm: float | None) -> str:
    """Where it was asked, what, and how much is missing or to spare.

    place : what people call it; "" for none
    clearance_mm : room minus size; None where there is none [mm]

    >>> decider_words(rule="port_clearance", place="Head tube, rider left", clearance_mm=-0.4)
    'Head tube, rider left: room in the hole, 0.40 mm missing'
    >>> decider_words(rule="mount", place="", clearance_mm=None)
    'How the caliper is mounted'
    """
    asked = rule_words(rule)
    told = [f"{place}: {asked}" if place else asked, *_room_words(rule, clearance_mm)]
    words = ", ".join(told)
    return words[:1].upper() + words[1:]


def _room_words(rule: str, clearance_mm: float | None) -> Iterator[str]:
    measured = next((each.row.measures for each in every_rule() if each.value == rule), None)
    if clearance_mm is not None and measured is not None:
        yield f"{SIZE_WORDS[measured](abs(clearance_mm))} {'missing' if clearance_mm < 0 else 'to spare'}"
