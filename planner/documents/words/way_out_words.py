"""What would change a "no", in sentences: never by making a hole larger at the bench."""

from collections.abc import Iterator

from planner.documents.words.check_words import sentence_for
from planner.documents.words.sizes_in_words import millimetres, piece_millimetres
from planner.documents.words.wording import end_name
from planner.parts import LeaderLine, adapter_lift_mm
from planner.plan.routing_plan import RoutingPlan
from planner.plan.way_out import WayOut, WayOutKind
from planner.rules import LengthRule, PlaceRule
from planner.verdicts import Outcome

_SENTENCES = {
    WayOutKind.INSERTS_OUT: "With the inserts taken out for drawing there is a way: let the job allow it.",
    WayOutKind.OLD_BRAKE_GIVEN_UP: "If the old brake need not be kept there is a way: its line may be cut anywhere.",
    WayOutKind.OLD_WAY: "The holes that the old line is said to run through make no way: look where it really runs;"
    " by other holes there is one.",
    WayOutKind.SPOKE_LINK: "A spoke link of up to {size} would pass, which this shop has not; it holds nothing,"
    " push only.",
    WayOutKind.COUPLER: "A threaded coupler with a stud of {size} would pass, which this shop has not: it bites in both"
    " bores and closes them.",
    WayOutKind.OVER_CABLE: "Slid over the old inner cable the new housing would go in; this shop has no such method.",
    WayOutKind.CORD_FIRST: "In two journeys it goes in: draw in {name} behind the old line as that comes out, and then"
    " the new line by it, as into an empty frame.",
    WayOutKind.BARE_ENDS: "With a line supplied bare at {end}, for what a workshop sets there, it would go in.",
    WayOutKind.OTHER_ROTOR: "A rotor of {long} would serve.",
    WayOutKind.OTHER_ROTOR_SEAT: "A rotor for a {name} hub would serve.",
    WayOutKind.ADAPTER: "{name} would serve, which the catalog has not: ask whether one is made for this mount.",
    WayOutKind.LONGER_LINE: "A line supplied with {long} or more would reach: this one is {missing} too short.",
    WayOutKind.OTHER_FITTING: "{name} would suit line and thread at {end}.",
    WayOutKind.FITTING_MADE: "A fitting made for a line of {size} would serve at {end}; this catalog has none.",
    WayOutKind.OTHER_LINE: "{name} from this catalog would go in.",
    WayOutKind.OTHER_BRAKE: "{name} from this catalog would serve.",
    WayOutKind.OTHER_MOUNT: "A caliper for {name} would serve.",
    WayOutKind.THINNER_JOINT: "The line itself passes: a soft joint of up to {size} would too.",
    WayOutKind.THINNER_LINE: "A line of up to {size} would pass, with ends to suit it and a joint that is no thicker.",
    WayOutKind.SUPPLER_LINE: "A line that may be bent to {long} would take the bends.",
    WayOutKind.WIDER_INSERT: "An insert for {place} with an opening of {opening} or more would let it ride there.",
    WayOutKind.LARGER_HOLE: "{place} would have to be {opening} at least, {size} larger.",
}
LEADER_SENTENCE = "The line itself passes: a leader with a soft joint of up to {size} would draw it in."
_MOUNT_NAMES = {"post": "posts", "flat": "a flat mount", "is_tabs": "tabs"}
_HUB_NAMES = {"six_bolt": "six-bolt", "splined": "splined"}
_ADAPTERS = {
    "post": "An adapter in one piece that takes {long} more rotor and lifts the caliper by {lift}",
    "flat": "A plate for this end that takes {long} more rotor",
    "is_tabs": "A bracket for the tabs of this end and this rotor",
}
TO_MEASURE = " Then something is still to be measured."
STILL_AGAINST = " But then still: {faults}."

OTHER_KIND = "{takes}: whatever its size this line goes another way."
NONE_ALONE = "More than one thing is against it, and no single change is enough; each of these takes one away."

NEVER_DRILL = (
    "A hole in a frame is never made larger at the bench: ask its maker whether this frame can take such a line."
)


def way_out_sentence(way: WayOut, *, plan: RoutingPlan) -> str:
    """One change that would make a way, as a sentence or two.

    plan : the no that it would change
    """
    names = plan.names
    sentence = LEADER_SENTENCE if isinstance(way.method, LeaderLine) else _SENTENCES[way.kind]
    told = sentence.format(
        size=millimetres(way.size_mm),
        long=piece_millimetres(way.size_mm),
        missing=piece_millimetres(way.missing_mm),
        place=names.place(way.port_id or ""),
        opening="" if way.opening is None else way.opening.words,
        end="both ends" if way.end is None else end_name(plan, way.end),
        name=_name_of(way),
    )
    if way.outcome is Outcome.UNKNOWN:
        return told + TO_MEASURE
    shown = [check for check in way.leaves if check.rule is LengthRule.SUPPLIED_LENGTH and plan.no_route is not None]
    faults = "; ".join(sentence_for(check, names=names) for check in shown)
    return told + STILL_AGAINST.format(faults=faults) if faults else told


def _name_of(way: WayOut) -> str:
    if way.kind is WayOutKind.ADAPTER:
        lift_mm = None if way.size_mm is None else adapter_lift_mm(step_mm=way.size_mm)
        return _ADAPTERS[way.name].format(long=piece_millimetres(way.size_mm), lift=piece_millimetres(lift_mm))
    words = {WayOutKind.OTHER_MOUNT: _MOUNT_NAMES, WayOutKind.OTHER_ROTOR_SEAT: _HUB_NAMES}.get(way.kind, {})
    return words.get(way.name, way.name)


def way_out_sentences(plan: RoutingPlan) -> tuple[str, ...]:
    """All that would change a no; where a hole is the matter, with the word that nobody drills. Empty for a plan."""
    if plan.outcome is not Outcome.NO_FIT:
        return ()
    ways = plan.ways_out if plan.no_route is None else plan.no_route.ways_out
    told = tuple(dict.fromkeys(way_out_sentence(way, plan=plan) for way in ways))  # two lines may be named alike
    if ways and all(way.outcome is Outcome.NO_FIT for way in ways):
        told = (NONE_ALONE, *told)
    told = (*told, *_holes_for_another_kind(plan))
    return (*told, NEVER_DRILL) if plan.no_route is not None and plan.no_route.ports else told


def _holes_for_another_kind(plan: RoutingPlan) -> Iterator[str]:
    """Stopping holes that are made for another kind of line, whatever its size, each once."""
    port_ids = () if plan.no_route is None else plan.no_route.ports
    refused = {
        check.port_id: check
        for check in (rejection.check for rejection in plan.rejected)
        if check.rule is PlaceRule.LINE_KIND and check.port_id in port_ids
    }
    yield from (OTHER_KIND.format(takes=sentence_for(check, names=plan.names)) for check in refused.values())
