"""The best route for one attempt: first by its worst outcome, then by its length."""

from planner.quick_dataclass import dataclass
from planner.routing.run_graph import LEAVE, RunGraph, RunState
from planner.routing.ways import find_shortest_way
from planner.verdicts import Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Route:
    """A way from one anchor to the other.

    states : in order from the job's `from`; the first starts at its anchor
    outcome : the worst outcome along it
    length_mm : sum of its legs [mm]
    """

    states: tuple[RunState, ...]
    outcome: Outcome
    length_mm: float

    @property
    def port_ids(self) -> tuple[str, ...]:
        """Ids of the ports in order."""
        return tuple(state.place for state in self.states[1:])

    @property
    def run_ids(self) -> tuple[str, ...]:
        """Ids of the runs in order."""
        return tuple(state.run_id for state in self.states)


def find_best_route(
    *,
    graph: RunGraph,
    from_anchor_id: str,
    outcomes: dict[RunState, Outcome],
    worst_allowed: Outcome,
    must_use: tuple[str, ...] = (),
) -> Route | None:
    """The route with the best worst outcome, and the shortest of those.

    None when no route is that good.

    outcomes : of every state; one without is closed
    worst_allowed : nothing worse is taken into a route
    must_use : ids of the ports the old line is known to run through, in any order; empty for any
    """
    lengths_mm = {tail: length_mm for tail, _, length_mm in graph.steps()}
    for allowed in sorted({outcome for outcome in outcomes.values() if outcome <= worst_allowed}):
        usable_mm = {
            state: length_mm
            for state, length_mm in lengths_mm.items()
            if state in outcomes and outcomes[state] <= allowed
        }
        states = find_shortest_way(graph=graph, from_anchor_id=from_anchor_id, costs=usable_mm, must_use=must_use)
        if states is not None:
            return _route(graph, states, outcomes)
    return None


def _route(graph: RunGraph, states: tuple[RunState, ...], outcomes: dict[RunState, Outcome]) -> Route:
    steps = zip(states, (*states[1:], LEAVE), strict=True)
    return Route(
        states=states,
        outcome=max(outcomes[state] for state in states),
        length_mm=sum(graph.length_mm(*step) for step in steps),
    )
