"""What would change a "no", in sentences: never by making a hole larger at the bench."""

from planner.documents.words.sizes_in_words import millimetres
from planner.plan.names import NO_NAMES, Names
from planner.plan.routing_plan import RoutingPlan, WayOut, WayOutKind

_SENTENCES = {
    WayOutKind.INSERTS_OUT: "With the inserts taken out for drawing there is a way: let the job allow it.",
    WayOutKind.OLD_BRAKE_GIVEN_UP: "If the old brake need not be kept there is a way: its line may be cut anywhere.",
    WayOutKind.BARE_ENDS: "With a line supplied with bare ends, for fittings that a workshop sets, there is a way.",
    WayOutKind.SPOKE_LINK: "A spoke link of {size} would pass, which this shop has not: it holds nothing, push only.",
    WayOutKind.THINNER_JOINT: "The line itself passes: a soft joint of up to {size} would too.",
    WayOutKind.THINNER_LINE: "A line of up to {size} would pass; what is no thicker at its joint would go in.",
    WayOutKind.LARGER_HOLE: "{place} would have to be {opening} at least, {size} larger.",
}

NEVER_DRILL = (
    "A hole in a frame is never made larger at the bench: ask its maker whether this frame can take such a line."
)


def way_out_sentence(way: WayOut, *, names: Names = NO_NAMES) -> str:
    """One change that would make a way, as a sentence.

    names : what people call places
    """
    place = names.place(way.port_id or "")
    opening = "" if way.opening is None else way.opening.words
    return _SENTENCES[way.kind].format(size=millimetres(way.size_mm), place=place, opening=opening)


def way_out_sentences(plan: RoutingPlan) -> tuple[str, ...]:
    """All that would change a no; where a hole is the matter, with the word that nobody drills. Empty for a plan."""
    no_route = plan.no_route
    if no_route is None:
        return ()
    told = tuple(way_out_sentence(way, names=plan.names) for way in no_route.ways_out)
    return (*told, NEVER_DRILL) if no_route.ports else told
