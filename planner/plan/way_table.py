"""Every way of drawing the line in against the places of one way: what each has to spare where."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from planner.parts import Job, JobEnd, Workshop
from planner.plan.deciding import decider_of
from planner.plan.routing_plan import RoutingPlan
from planner.plan.tried import try_all
from planner.quick_dataclass import dataclass
from planner.routing.attempts import Attempt
from planner.routing.closest_miss import NearestWay, find_nearest_way, place_of, worst_failing
from planner.routing.passage import allowance_of
from planner.routing.run_graph import LEAVE, RunGraph, RunState
from planner.rules import JointRule
from planner.verdicts import Check, Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class WayPlace:
    """A place of the way.

    id : of the port or run
    is_port : whether it is a port, a run otherwise
    number : of a port on the way, from 1; of a run that of the port before it, 0 before the first
    """

    id: str
    is_port: bool
    number: int


@dataclass(frozen=True, slots=True, kw_only=True)
class TriedWay:
    """A method from one end, or from either where both come out alike; with it those that come out like it.

    method_ids : the first is the one whose checks these are
    feed_from : None for either end
    outcome : of the method on its own best way
    itself : what stands against joint or ends before any place is asked; None where nothing does
    cells : what decides at each place of the table; None where nothing is asked there
    checks : everything that was asked at these places, in order
    decider : what decides the row; None where nothing was asked
    other_way : ids of the ports of its own best way, where that is not the table's
    """

    method_ids: tuple[str, ...]
    feed_from: JobEnd | None
    outcome: Outcome
    itself: Check | None
    cells: tuple[Check | None, ...]
    checks: tuple[Check, ...]
    decider: Check | None
    other_way: tuple[str, ...] = ()

    @property
    def method_id(self) -> str:
        """Its method by id, the first of several."""
        return self.method_ids[0]

    @property
    def decides_at(self) -> int | None:
        """Which of its cells decides; None where it is none of them."""
        return next((n for n, cell in enumerate(self.cells) if cell is not None and cell is self.decider), None)


@dataclass(frozen=True, slots=True, kw_only=True)
class WayTable:
    """The places of one way in order, and every way of drawing the line through them.

    ways : those whose joint can be made, the plan's or the nearest first
    unmade : those whose joint cannot be made, in catalog order
    """

    places: tuple[WayPlace, ...]
    ways: tuple[TriedWay, ...]
    unmade: tuple[TriedWay, ...]


def find_way_table(*, job: Job, workshop: Workshop, plan: RoutingPlan) -> WayTable:
    """What every method has to spare at each place of the plan's way; for a no, of the way that comes nearest.

    job, workshop : what the plan was made of
    """
    tried = try_all(job=job, workshop=workshop, allowance=allowance_of(workshop.limits))
    states = _states(plan, tried.attempts, tried.graph, job.from_anchor_id)
    places = _places(states, job)
    rows = [_row(attempt, states, places) for attempt in tried.attempts]
    rows = _one_for_each_end(rows)
    made = [row for row in rows if row.itself is None or not _is_without_joint(row.itself)]
    made = _alike_as_one(sorted(_either_end(made), key=lambda row: _rank(row, plan)), plan)
    asked = [n for n in range(len(places)) if any(row.cells[n] is not None for row in made)]
    unmade = tuple(_either_end([row for row in rows if row.itself is not None and _is_without_joint(row.itself)]))
    return WayTable(
        places=tuple(places[n] for n in asked),
        ways=tuple(replace(row, cells=tuple(row.cells[n] for n in asked)) for row in made),
        unmade=unmade,
    )


def _is_without_joint(check: Check) -> bool:
    """Whether there is no joint to be asked about; where a fitting sits in its way its size is known all the same."""
    return check.outcome is Outcome.NO_FIT and check.rule is not JointRule.LEADING_JOINT


def _states(
    plan: RoutingPlan, attempts: Sequence[Attempt], graph: RunGraph, from_anchor_id: str
) -> tuple[RunState, ...]:
    """The plan's way; without one that of the attempt that comes nearest."""
    if plan.runs:
        places = (plan.from_anchor_id, *plan.route)
        return tuple(RunState(place, run_id) for place, run_id in zip(places, plan.runs, strict=True))
    found = [
        way
        for attempt in attempts
        if attempt.step_checks
        and (way := find_nearest_way(attempt=attempt, graph=graph, from_anchor_id=from_anchor_id)) is not None
    ]
    nearest = min(found, key=_badness, default=None)
    return () if nearest is None else tuple(state for state in nearest.way if state != LEAVE)


def _badness(nearest: NearestWay) -> tuple[float, ...]:
    """Its miss by outcome, then by what it lacks; a way without one goes before all others."""
    miss = nearest.miss
    if miss is None:
        return ()
    return (int(miss.outcome), float("inf") if miss.clearance_mm is None else -miss.clearance_mm)


def _places(states: Sequence[RunState], job: Job) -> list[WayPlace]:
    found: list[WayPlace] = []
    number = 0
    for state in states:
        if state.place in job.frame.ports:
            number += 1
            found.append(WayPlace(id=state.place, is_port=True, number=number))
        found.append(WayPlace(id=state.run_id, is_port=False, number=number))
    return found


def _row(attempt: Attempt, states: Sequence[RunState], places: Sequence[WayPlace]) -> TriedWay:
    checks = tuple(dict.fromkeys(check for state in states for check in attempt.step_checks.get(state, ())))
    cells = tuple(
        _decides([check for check in checks if place_of(check) == ("port" if place.is_port else "run", place.id)])
        for place in places
    )
    itself = worst_failing(attempt.general_checks)
    asked = [cell for cell in cells if cell is not None]
    own_way = () if attempt.route is None else attempt.route.states
    is_other = bool(own_way) and tuple(own_way) != tuple(states)
    return TriedWay(
        method_ids=(attempt.method.id,),
        feed_from=attempt.feed_from,
        outcome=attempt.outcome,
        itself=itself,
        cells=cells,
        checks=checks,
        decider=_decides(asked) or itself,
        other_way=attempt.route.port_ids if is_other and attempt.route is not None else (),
    )


def _decides(checks: Sequence[Check]) -> Check | None:
    return worst_failing(tuple(checks)) or decider_of(checks)


def _one_for_each_end(rows: Sequence[TriedWay]) -> list[TriedWay]:
    """Of one method and end, done in several ways, the one that comes furthest."""
    best: dict[tuple[str, JobEnd | None], TriedWay] = {}
    for row in rows:
        key = (row.method_id, row.feed_from)
        if key not in best or _badness_of(row) < _badness_of(best[key]):
            best[key] = row
    return list(best.values())


def _badness_of(row: TriedWay) -> tuple[int, int, int, float]:
    """Its outcome first, then whether its joint can be made, then the worst place of the way and what it lacks."""
    decider = row.decider
    missing_mm = float("inf") if decider is None or decider.clearance_mm is None else -decider.clearance_mm
    is_unmade = row.itself is not None and _is_without_joint(row.itself)
    return (int(row.outcome), int(is_unmade), 0 if decider is None else int(decider.outcome), missing_mm)


def _either_end(rows: Sequence[TriedWay]) -> Iterator[TriedWay]:
    """Rows that come out alike from both ends as one."""
    waiting = list(rows)
    while waiting:
        row = waiting.pop(0)
        twin = next((one for one in waiting if one.method_id == row.method_id and _told(one) == _told(row)), None)
        if twin is not None:
            waiting.remove(twin)
        yield row if twin is None else replace(row, feed_from=None)


def _told(row: TriedWay) -> tuple[object, ...]:
    cells = tuple(None if cell is None else (cell.outcome, _figure(cell)) for cell in row.cells)
    itself = None if row.itself is None else (row.itself.rule, _figure(row.itself))
    return (row.outcome, itself, cells, row.decides_at, row.other_way)


def _figure(check: Check) -> float | None:
    return None if check.clearance_mm is None else round(check.clearance_mm, 2)


def _alike_as_one(rows: Sequence[TriedWay], plan: RoutingPlan) -> list[TriedWay]:
    """Methods that come out alike as one row, at the place of the first; the plan's own stands alone."""
    found: dict[tuple[object, ...], TriedWay] = {}
    for row in rows:
        key = (_is_plans(row, plan), row.feed_from, *_told(row))
        before = found.get(key)
        found[key] = row if before is None else replace(before, method_ids=(*before.method_ids, *row.method_ids))
    return list(found.values())


def _is_plans(row: TriedWay, plan: RoutingPlan) -> bool:
    return row.method_id == plan.method_id and row.feed_from in (None, plan.feed_from)


def _rank(row: TriedWay, plan: RoutingPlan) -> tuple[float, ...]:
    """The plan's own first, then what else works in the plan's order, then what comes nearest."""
    options = [option.method_id for option in plan.options]
    place = options.index(row.method_id) if row.method_id in options else len(options)
    badness = _badness_of(row)
    return (not _is_plans(row, plan), badness[0], place if row.outcome.lets_work_begin else 0, *badness[1:])
