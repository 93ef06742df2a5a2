"""Why there is no way, in words."""

from planner.plan.names import Names
from planner.plan.routing_plan import NoRoute
from planner.verdicts import NoWay

NO_WAY_WORDS = {
    NoWay.STOPPED: "every way is stopped at {places}",
    NoWay.NOT_LINKED: "the frame has no way between these two ends; its runs do not meet",
    NoWay.PORT_TWICE: "the only way between these two ends would go through {twice} there and back",
    NoWay.OLD_ROUTE: "the ports the old line is said to run through make no way between these two ends",
    NoWay.NO_METHOD: "no joining method in the catalog can be used on these two lines with their ends",
}


def no_way_words(no_route: NoRoute, names: Names) -> str:
    """Why there is no way.

    Returns without a full stop; of several places one that is needed beside the others.

    names : what people call places; ids stand where a name is missing
    """
    places = [*map(names.place, no_route.ports), *map(names.run, no_route.runs)]
    twice = " and ".join(map(names.place, no_route.ports_twice))
    stopped = places[0] if len(places) == 1 else f"{' and '.join(places)} together"
    words = NO_WAY_WORDS[no_route.reason].format(places=stopped, twice=twice)
    if not no_route.is_fewest:
        words += " (whether fewer places would do is not proven)"
    if no_route.reason is NoWay.STOPPED and twice:
        words += f"; the way left open would go through {twice} there and back"
    return words
