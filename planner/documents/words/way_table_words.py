"""What the table of all ways says of its rows and places."""

from planner.documents.words.check_words import sentence_for
from planner.documents.words.sizes_in_words import spare_words
from planner.documents.words.wording import end_name
from planner.plan.routing_plan import RoutingPlan
from planner.plan.way_table import TriedWay, WayPlace, WayTable
from planner.verdicts import Check

ALL_WAYS = "All ways"
"""What the comparison of everything that was tried is called, on the page, on paper and in the terminal."""

NOT_THESE = f"{ALL_WAYS}: what stands against each, its first reason"
"""Over the list of those that do not work, where there is no room for the whole table."""

FRAMED = "In each cell the millimetres to spare, with a minus those missing; framed: what decides."
UNMADE = "Cannot be joined like this at all:"


def place_tag(place: WayPlace) -> str:
    """A place in two or three characters: the number of a hole, or what lies behind it."""
    return str(place.number) if place.is_port else f"{place.number or ''}–"


def place_words(place: WayPlace, plan: RoutingPlan) -> str:
    """What people call a place."""
    return plan.names.place(place.id) if place.is_port else plan.names.run(place.id)


def cell_words(check: Check) -> str:
    """What is to spare there; "" where it has no figure."""
    return "" if check.clearance_mm is None else spare_words(check.clearance_mm, check.rule.row.measures)


def method_words(row: TriedWay, plan: RoutingPlan) -> str:
    """Its methods by their names."""
    return ", ".join(map(plan.names.thing, row.method_ids))


def row_words(row: TriedWay, plan: RoutingPlan) -> str:
    """Its methods, and the end it is fed from."""
    return f"{method_words(row, plan)}, fed from {end_name(plan, row.feed_from)}"


def row_remarks(row: TriedWay, plan: RoutingPlan) -> tuple[str, ...]:
    """What its cells do not say: what stands against its joint, and that it goes another way."""
    against = () if row.itself is None else (sentence_for(row.itself, names=plan.names),)
    if not row.other_way:
        return against
    way = plan.names.way(row.other_way)
    goes = f"goes another way: {way}" if row.outcome.lets_work_begin else f"comes nearest by another way: {way}"
    return (*against, goes)


def unmade_in_words(table: WayTable, plan: RoutingPlan) -> dict[str, str]:
    """Why a joint cannot be made, each reason once, with the ways it is true of."""
    tried: dict[str, list[str]] = {}
    for row in table.unmade:
        if row.itself is None:
            continue
        name = method_words(row, plan) if row.feed_from is None else row_words(row, plan)
        tried.setdefault(sentence_for(row.itself, names=plan.names), []).append(name)
    return {sentence: ", ".join(names) for sentence, names in tried.items()}


def table_in_words(table: WayTable, plan: RoutingPlan) -> str:
    """The table for whoever hears it: each row with what decides it."""
    told = []
    for row in table.ways:
        why = "" if row.decider is None else f": {sentence_for(row.decider, names=plan.names)}"
        told.append(f"{row_words(row, plan)}{why}.")
    return " ".join(told) or "No way could be tried."
