"""Every method tried from both ends: what each asks of every step, and the best way it finds."""

from collections.abc import Iterator, Mapping
from dataclasses import field, replace
from typing import TypeAlias

from planner.geometry.packing.work import Allowance
from planner.parts import Job, JobEnd, LaidOutside, Method, ShopLimits
from planner.quick_dataclass import dataclass
from planner.routing.made import LedJob, Made, make_all, make_one
from planner.routing.passage import AskedBefore, allowance_of, check_step
from planner.routing.route_search import Route, find_best_route
from planner.routing.run_graph import LEAVE, RunGraph, RunState, states_in_order
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome, Thing, worst_of

BendChecks: TypeAlias = Mapping[str, tuple[Check, ...]]
"""What the shape of each run has shown about the line's bends, by run id."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Attempt:
    """One method from one end.

    job : the job as this attempt does it: with the leading end bare where its fitting is taken off
    undoes_leading : whether a fitting that sits on the leading end is taken off, to be set again afterwards
    leaves_old_way : whether the old line is known to run through ports that the new one keeps away from
    method : how the lines are joined
    feed_from : the end the new line enters at
    joint : as the thing that moves, at least, where a bore is not measured; None where the joint cannot be made
    general_checks : whether the joint can be made, and the ends led and cut so
    step_checks : what was asked of every step that lies on some way between the anchors; empty without a joint
    route : the best way; None where there is none
    """

    job: Job
    undoes_leading: bool
    leaves_old_way: bool
    method: Method
    feed_from: JobEnd
    joint: Thing | None
    general_checks: tuple[Check, ...]
    step_checks: dict[RunState, tuple[Check, ...]]
    route: Route | None

    @property
    def route_checks(self) -> tuple[Check, ...]:
        """Checks along the route, in route order."""
        states = () if self.route is None else self.route.states
        return tuple(check for state in states for check in self.step_checks[state])

    @property
    def outcome(self) -> Outcome:
        """Of the best way; NO_FIT or UNKNOWN where the method itself does not suit."""
        general = worst_of(self.general_checks, of_nothing=Outcome.FITS)
        if self.route is None:
            return max(general, Outcome.NO_FIT if self.joint is not None else general)
        return max(general, self.route.outcome)


def ports_to_use(job: Job) -> tuple[str, ...]:
    """Ids of the ports that the old line is known to run through, which the new one follows; empty for any."""
    return () if job.old is None else job.old.through


def find_attempts(
    *,
    job: Job,
    methods: tuple[Method, ...],
    graph: RunGraph,
    limits: ShopLimits,
    bend_checks: BendChecks | None = None,
    allowance: Allowance | None = None,
    proves_no: bool = True,
    before: AskedBefore | None = None,
) -> tuple[Attempt, ...]:
    """Try every method, fed from the job's `from` and from its `to`.

    Returns in catalog order, `from` before `to`.

    methods : in catalog order
    limits : the shop's margins
    bend_checks : what the shape of each run has shown about the line's bends, by run id
    allowance : the work that questions about holes may cost together; None for what the shop allows
    proves_no : whether a proof is sought that things cannot pass; without, what is not seen to pass is UNKNOWN
    before : answers to the same of the same job, given with as much proof; None where nothing has been asked
    """
    asked = _Asked(
        limits=limits,
        bend_checks=bend_checks or {},
        follows_old=_check_old_route(job, graph),
        allowance=allowance or allowance_of(limits),
        proves_no=proves_no,
        before=before or AskedBefore(),
    )
    return tuple(_attempts(job, methods, graph, asked))


def works_somehow(
    *,
    job: Job,
    methods: tuple[Method, ...],
    graph: RunGraph,
    limits: ShopLimits,
    bend_checks: BendChecks,
    allowance: Allowance | None = None,
) -> bool:
    """Whether any method makes a plan, from either end; no more is found out than that takes.

    methods : in catalog order
    limits : the shop's margins
    bend_checks : what the shape of each run has shown about the line's bends, by run id
    allowance : the work that questions about holes may cost together; None for what the shop allows
    """
    asked = _Asked(
        limits=limits,
        bend_checks=bend_checks,
        follows_old=_check_old_route(job, graph),
        allowance=allowance or allowance_of(limits),
        is_only_whether=True,
        proves_no=False,
    )
    return any(attempt.outcome.lets_work_begin for attempt in _attempts(job, methods, graph, asked))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """What is the same for every attempt.

    follows_old : whether the old line's ports make a way
    allowance : the work that questions about holes may cost together
    is_only_whether : whether it is enough to know which attempts work
    proves_no : whether a proof is sought that others do not
    before : what other attempts have asked
    """

    limits: ShopLimits
    bend_checks: BendChecks
    follows_old: tuple[Check, ...]
    allowance: Allowance
    is_only_whether: bool = False
    proves_no: bool = True
    before: AskedBefore = field(default_factory=AskedBefore)


def _attempts(job: Job, methods: tuple[Method, ...], graph: RunGraph, asked: _Asked) -> Iterator[Attempt]:
    ways = graph.part_of([*states_in_order(graph=graph, from_anchor_id=job.from_anchor_id), LEAVE])
    yield from _lay_outside(job, ways, asked)
    inside = ways.part_of([state for state in ways if not _goes_straight(job, state)])
    for made in make_all(job=job, methods=methods, limits=asked.limits):
        yield _try_method(made, inside, asked)


def _lay_outside(job: Job, graph: RunGraph, asked: _Asked) -> tuple[Attempt, ...]:
    """Where a run leads straight from anchor to anchor: nothing to feed, nothing to join."""
    if not any(_goes_straight(job, state) for state in graph):
        return ()
    ways = graph.part_of([state for state in graph if state == LEAVE or _goes_straight(job, state)])
    old = None if job.old is None else replace(job.old, through=())
    led = LedJob(job=replace(job, old=old), undoes_leading=False, leaves_old_way=bool(ports_to_use(job)))
    made = make_one(led, LaidOutside(), JobEnd.FROM, asked.limits)
    return (_try_method(made, ways, replace(asked, follows_old=())),)


def _goes_straight(job: Job, state: RunState) -> bool:
    return state != LEAVE and set(job.frame.runs[state.run_id].between) == {job.from_anchor_id, job.to_anchor_id}


def _try_method(made: Made, graph: RunGraph, asked: _Asked) -> Attempt:
    job, general = made.led.job, (*made.general_checks, *asked.follows_old)
    steps: dict[RunState, tuple[Check, ...]] = {}
    route, mover = None, made.mover
    is_useless = asked.is_only_whether and not worst_of(general, of_nothing=Outcome.FITS).lets_work_begin
    if mover is not None and not is_useless:
        steps = {
            state: (
                *check_step(
                    job=job,
                    mover=mover,
                    state=state,
                    limits=asked.limits,
                    allowance=asked.allowance,
                    proves_no=asked.proves_no,
                    before=asked.before,
                ),
                *asked.bend_checks.get(state.run_id, ()),
            )
            for state in graph
            if state != LEAVE
        }
        if worst_of(asked.follows_old, of_nothing=Outcome.FITS) <= Outcome.UNKNOWN:
            route = find_best_route(
                graph=graph,
                from_anchor_id=job.from_anchor_id,
                outcomes={state: worst_of(checks, of_nothing=Outcome.FITS) for state, checks in steps.items()},
                worst_allowed=Outcome.UNKNOWN,
                must_use=ports_to_use(job),
            )
    return Attempt(
        job=job,
        undoes_leading=made.led.undoes_leading,
        leaves_old_way=made.led.leaves_old_way,
        method=made.method,
        feed_from=made.feed_from,
        joint=None if mover is None or is_useless else mover.joint,
        general_checks=general,
        step_checks=steps,
        route=route,
    )


def _check_old_route(job: Job, graph: RunGraph) -> tuple[Check, ...]:
    """Where the job says which ports the old line runs through, these must make a way."""
    if job.old is None or not job.old.through:
        return ()
    route = find_best_route(
        graph=graph,
        from_anchor_id=job.from_anchor_id,
        outcomes=dict.fromkeys(graph, Outcome.FITS),
        worst_allowed=Outcome.FITS,
        must_use=job.old.through,
    )
    outcome = Outcome.NO_FIT if route is None else Outcome.FITS
    return (Check(rule=PlaceRule.OLD_ROUTE, outcome=outcome, note=", ".join(job.old.through)),)
