"""No route: why there is none, and the fewest places that stop every one."""

from collections.abc import Mapping, Sequence
from dataclasses import replace

from planner.quick_dataclass import dataclass
from planner.routing.attempts import Attempt, ports_to_use
from planner.routing.closest_miss import place_of
from planner.routing.fewest_places import Fewest, Place, find_fewest
from planner.routing.run_graph import LEAVE, RunGraph, RunState, states_in_order
from planner.routing.ways import Way, find_shortest_walk, find_shortest_way, ports_used_twice
from planner.verdicts import NoWay, Outcome

STEPS_ALLOWED = 20_000
"""How many choices of places are looked at before it is left undecided whether fewer would do."""

Failing = Mapping[RunState, frozenset[Place]]
"""For each state that fails, the places that make it fail; states that pass are absent."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What was tried, and where it fails.

    failing : the places that make a state fail; states that pass are absent
    asked : the states it may use; None for all of them
    must_use : ids of the ports its way uses, as the old line is known to; empty for any
    """

    failing: Failing
    asked: frozenset[RunState] | None = None
    must_use: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Blockage:
    """The proof that nothing gets through.

    reason : why there is no way
    ports, runs : ids of the places that together stop every route; empty unless `stopped`
    is_fewest : whether no smaller choice of places stops every route; False where that was left undecided
    ports_twice : ports that the way left open, or the only one, goes through more than once; empty where there is none
    """

    reason: NoWay
    ports: tuple[str, ...] = ()
    runs: tuple[str, ...] = ()
    is_fewest: bool = True
    ports_twice: tuple[str, ...] = ()


def find_blockage(*, graph: RunGraph, from_anchor_id: str, tried: Sequence[Tried]) -> Blockage:
    """The fewest failing places that every route of everything tried goes through.

    Of equally few, those with fewer runs; of these, those that fail for more of what was tried; of these, the ones
    nearest `from`. Routes that the places chosen so far do not stop are added one by one, until none is left.

    from_anchor_id : where routes start
    tried : none of it may have a way

    Raises ValueError when a route exists that nothing stops.

    Source: implicit hitting sets: E. Moreno-Centeno, R. M. Karp, "The implicit hitting set approach to solve
    combinatorial optimization problems", Oper. Res. 61 (2013) 453-468; from memory of the paper.
    """
    ways = _Ways(graph=graph, from_anchor_id=from_anchor_id)
    distinct = list({(frozenset(one.failing.items()), one.asked, one.must_use): one for one in tried}.values())
    blank = ways.reason_without_failures(distinct)
    if blank is not None:
        return blank
    costs = _costs(graph, from_anchor_id, [one.failing for one in distinct])
    sets: list[frozenset[Place]] = []
    fewest = Fewest(places=frozenset(), is_proven=True, steps_n=0)
    steps_n = proven_cost = 0
    while missed := [found for one in distinct for found in ways.sets_missed(one, fewest.places)]:
        sets += missed
        fewest = find_fewest(sets=sets, costs=costs, at_least=proven_cost, steps_allowed_n=STEPS_ALLOWED - steps_n)
        steps_n += fewest.steps_n
        if fewest.is_proven:
            proven_cost = sum(costs[place] for place in fewest.places)
    return Blockage(
        reason=NoWay.STOPPED,
        ports=tuple(sorted(place for kind, place in fewest.places if kind == "port")),
        runs=tuple(sorted(place for kind, place in fewest.places if kind == "run")),
        is_fewest=fewest.is_proven,
        ports_twice=ways.ports_twice_left(distinct),
    )


def find_common_blockage(*, attempts: Sequence[Attempt], graph: RunGraph, from_anchor_id: str) -> Blockage:
    """The fewest places that stop every route of every attempt whose joint can be made.

    attempts : everything tried; none may have found a way
    from_anchor_id : where routes start
    """
    tried = [
        Tried(
            failing=_failing_places(attempt),
            asked=frozenset(attempt.step_checks),
            must_use=ports_to_use(attempt.job),
        )
        for attempt in attempts
        if attempt.step_checks and attempt.route is None
    ]
    return find_blockage(graph=graph, from_anchor_id=from_anchor_id, tried=tried)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Ways:
    """The ways of a frame, and where routes start."""

    graph: RunGraph
    from_anchor_id: str

    def reason_without_failures(self, tried: Sequence[Tried]) -> Blockage | None:
        """Why there is no way though nothing fails; None where something that was tried has one."""
        free = Tried(failing={})
        walk = self._walk(free)
        if walk is None:
            return Blockage(reason=NoWay.NOT_LINKED)
        if self._way(free, frozenset()) is None:
            return Blockage(reason=NoWay.PORT_TWICE, ports_twice=ports_used_twice(walk))
        if not tried:
            return Blockage(reason=NoWay.NO_METHOD)
        if all(self._way(replace(one, failing={}), frozenset()) is None for one in tried):
            is_named = any(one.must_use for one in tried)
            return Blockage(reason=NoWay.OLD_ROUTE if is_named else NoWay.NO_METHOD)
        return None

    def sets_missed(self, one: Tried, chosen: frozenset[Place]) -> list[frozenset[Place]]:
        """The failing places of routes that the chosen places do not stop, until those of one stop the rest."""
        sets: list[frozenset[Place]] = []
        while (way := self._way(one, chosen.union(*sets))) is not None:
            on_it = frozenset(place for state in way for place in one.failing.get(state, ()))
            if not on_it:
                raise ValueError("a route exists that no failing place stops")
            sets.append(on_it)
        return sets

    def ports_twice_left(self, tried: Sequence[Tried]) -> tuple[str, ...]:
        """Ports that the shortest walk left open uses twice."""
        walks = (self._walk(one) for one in tried if not one.must_use)
        return next((ports_used_twice(walk) for walk in walks if walk is not None), ())

    def _walk(self, one: Tried) -> Way | None:
        lengths_mm = {
            state: float(length_mm)
            for state, _, length_mm in self.graph.steps()
            if state not in one.failing and (one.asked is None or state in one.asked)
        }
        return find_shortest_walk(graph=self.graph, from_anchor_id=self.from_anchor_id, costs=lengths_mm)

    def _way(self, one: Tried, chosen: frozenset[Place]) -> Way | None:
        """The way with the fewest failures that none of the places stops."""
        many = len(self.graph) + 1
        states = [state for state in self.graph if state != LEAVE] if one.asked is None else one.asked
        costs = {
            state: 1.0 + many * len(one.failing.get(state, ()))
            for state in states
            if not one.failing.get(state, frozenset()) & chosen
        }
        return find_shortest_way(
            graph=self.graph, from_anchor_id=self.from_anchor_id, costs=costs, must_use=one.must_use
        )


def _costs(graph: RunGraph, from_anchor_id: str, tried: Sequence[Failing]) -> dict[Place, int]:
    """One place costs more than all that tells two choices of as many places apart, and so on down to the order."""
    ordered: dict[Place, None] = {}
    spared: dict[Place, int] = {}
    for state in states_in_order(graph=graph, from_anchor_id=from_anchor_id):
        for failing in tried:
            ordered.update(dict.fromkeys(sorted(failing.get(state, ()))))
    for place in ordered:
        spared[place] = sum(not any(place in places for places in failing.values()) for failing in tried)
    many = 1 + len(ordered) * max(len(ordered), len(tried))
    return {
        place: ((many + (place[0] == "run")) * many + spared[place]) * many + rank for rank, place in enumerate(ordered)
    }


def _failing_places(attempt: Attempt) -> dict[RunState, frozenset[Place]]:
    failing = {
        state: frozenset(place_of(check) for check in checks if check.outcome is Outcome.NO_FIT)
        for state, checks in attempt.step_checks.items()
    }
    return {state: places for state, places in failing.items() if places}
