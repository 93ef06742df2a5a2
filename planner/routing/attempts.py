"""Every method tried from both ends: what each asks of every step, and the best way it finds."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import TypeAlias

from planner.fit.fitted_end import (
    check_joint_on_fittings,
    fittings_drawn,
    joint_on_fittings,
    new_fitting_drawn,
    old_plug_drawn,
)
from planner.fit.joint_size import check_method_suits_lines, find_joint_size
from planner.fit.line_ends import (
    check_bores_stay_apart,
    check_leading_end_can_be_set,
    check_old_end_may_be_cut,
)
from planner.fit.things import thing_of_fitting
from planner.fit.way_in_fit import check_cable_can_stay, check_magnet
from planner.parts import Job, JobEnd, LaidOutside, LeaderLine, LineEnd, Method, MethodKind, SetBy, ShopLimits
from planner.routing.passage import Mover, check_step
from planner.routing.route_search import Route, find_best_route
from planner.routing.run_graph import LEAVE, RunGraph, RunState
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
    step_checks : what was asked of every step it may take; empty without a joint
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


@dataclass(frozen=True, slots=True, kw_only=True)
class LedJob:
    """A job with its leading end as it goes through the frame.

    undoes_leading : whether a fitting is taken off it first
    leaves_old_way : whether the old line is known to run through ports that the new one keeps away from
    """

    job: Job
    undoes_leading: bool
    leaves_old_way: bool = False


def ports_to_use(job: Job) -> tuple[str, ...]:
    """Ids of the ports that the old line is known to run through, which the new one follows; empty for any."""
    return () if job.old is None else job.old.through


def is_joined_to_old_line(*, job: Job, method: Method) -> bool:
    """Whether the old line itself is cut and used to draw the new one.

    False for an empty frame, and for a leader that takes the place of a bare cable.

    method : how the new line is drawn
    """
    return job.old is not None and method.kind.joins_old_line


def find_attempts(
    *,
    job: Job,
    methods: tuple[Method, ...],
    graph: RunGraph,
    limits: ShopLimits,
    bend_checks: BendChecks | None = None,
    proves_no: bool = True,
) -> tuple[Attempt, ...]:
    """Try every method, fed from the job's `from` and from its `to`.

    Returns in catalog order, `from` before `to`.

    methods : in catalog order
    limits : the shop's margins
    bend_checks : what the shape of each run has shown about the line's bends, by run id
    proves_no : whether a proof is sought that things cannot pass; without, what is not seen to pass is UNKNOWN
    """
    asked = _Asked(
        limits=limits,
        bend_checks=bend_checks or {},
        follows_old=_check_old_route(job, graph),
        proves_no=proves_no,
    )
    return tuple(_attempts(job, methods, graph, asked))


def works_somehow(
    *, job: Job, methods: tuple[Method, ...], graph: RunGraph, limits: ShopLimits, bend_checks: BendChecks
) -> bool:
    """Whether any method makes a plan, from either end; no more is found out than that takes.

    methods : in catalog order
    limits : the shop's margins
    bend_checks : what the shape of each run has shown about the line's bends, by run id
    """
    asked = _Asked(
        limits=limits,
        bend_checks=bend_checks,
        follows_old=_check_old_route(job, graph),
        is_only_whether=True,
        proves_no=False,
    )
    return any(attempt.outcome.lets_work_begin for attempt in _attempts(job, methods, graph, asked))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """What is the same for every attempt.

    follows_old : whether the old line's ports make a way
    is_only_whether : whether it is enough to know which attempts work
    proves_no : whether a proof is sought that others do not
    """

    limits: ShopLimits
    bend_checks: BendChecks
    follows_old: tuple[Check, ...]
    is_only_whether: bool = False
    proves_no: bool = True


def _attempts(job: Job, methods: tuple[Method, ...], graph: RunGraph, asked: _Asked) -> Iterator[Attempt]:
    yield from _lay_outside(job, graph, asked)
    inside = graph.subgraph([state for state in graph if not _goes_straight(job, state)])
    for method in methods:
        for feed_from in JobEnd:
            for led in _ways_to_lead(job, feed_from):
                yield _try_method(led, method, feed_from, inside, asked)


def _lay_outside(job: Job, graph: RunGraph, asked: _Asked) -> tuple[Attempt, ...]:
    """Where a run leads straight from anchor to anchor: nothing to feed, nothing to join."""
    if not any(_goes_straight(job, state) for state in graph):
        return ()
    ways = graph.subgraph([state for state in graph if state == LEAVE or _goes_straight(job, state)])
    old = None if job.old is None else replace(job.old, through=())
    led = LedJob(job=replace(job, old=old), undoes_leading=False, leaves_old_way=bool(ports_to_use(job)))
    return (_try_method(led, LaidOutside(), JobEnd.FROM, ways, replace(asked, follows_old=())),)


def _goes_straight(job: Job, state: RunState) -> bool:
    return state != LEAVE and set(job.frame.runs[state.run_id].between) == {job.from_anchor_id, job.to_anchor_id}


def _ways_to_lead(job: Job, feed_from: JobEnd) -> Iterator[LedJob]:
    """The leading end as it is; and bare, where a fitting sits on it that the workshop can take off and set again."""
    yield LedJob(job=job, undoes_leading=False)
    leading = job.new.end_at(feed_from.other)
    if leading.is_fitted and leading.fitting is not None and leading.fitting.set_by is SetBy.WORKSHOP:
        bare = LineEnd(fitting=leading.fitting)
        leads_to = feed_from is JobEnd.FROM
        new = replace(job.new, to_end=bare) if leads_to else replace(job.new, from_end=bare)
        yield LedJob(job=replace(job, new=new), undoes_leading=True)


def _try_method(led: LedJob, method: Method, feed_from: JobEnd, graph: RunGraph, asked: _Asked) -> Attempt:
    job, limits = led.job, asked.limits
    old_line = None if job.old is None else job.old.line
    suits = check_method_suits_lines(
        method=method,
        old=old_line,
        new=job.new.line,
        limits=limits,
        is_old_fitted=old_plug_drawn(job=job, method=method, feed_from=feed_from) is not None,
        is_new_fitted=new_fitting_drawn(job=job, feed_from=feed_from) is not None,
    )
    general = (*suits, *_end_checks(job, method, feed_from, limits), *asked.follows_old)
    is_useless = asked.is_only_whether and not worst_of(general, of_nothing=Outcome.FITS).lets_work_begin
    if is_useless or worst_of(suits, of_nothing=Outcome.FITS) is Outcome.NO_FIT:
        return Attempt(
            job=job,
            undoes_leading=led.undoes_leading,
            leaves_old_way=led.leaves_old_way,
            method=method,
            feed_from=feed_from,
            joint=None,
            general_checks=general,
            step_checks={},
            route=None,
        )
    joint = joint_on_fittings(
        joint=find_joint_size(
            method=method,
            old=old_line if is_joined_to_old_line(job=job, method=method) else None,
            new=job.new.line,
            least_squeeze_mm=limits.stud_squeeze_min_mm,
        ),
        method=method,
        fittings=fittings_drawn(job=job, method=method, feed_from=feed_from),
    )
    leading = job.new.end_at(feed_from.other)
    fitting = leading.fitting if leading.is_fitted else None
    mover = Mover(
        joint=joint,
        leading_fitting=None if fitting is None else thing_of_fitting(fitting),
        feed_from=feed_from,
    )
    steps = {
        state: (
            *check_step(job=job, mover=mover, state=state, limits=limits, proves_no=asked.proves_no),
            *asked.bend_checks.get(state.run_id, ()),
        )
        for state in graph
        if state != LEAVE
    }
    route = None
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
        undoes_leading=led.undoes_leading,
        leaves_old_way=led.leaves_old_way,
        method=method,
        feed_from=feed_from,
        joint=joint,
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


def _end_checks(job: Job, method: Method, feed_from: JobEnd, limits: ShopLimits) -> Iterator[Check]:
    if method.kind is MethodKind.LAID_OUTSIDE:
        return
    yield check_leading_end_can_be_set(leading_end=job.new.end_at(feed_from.other))
    fittings = fittings_drawn(job=job, method=method, feed_from=feed_from)
    over = check_joint_on_fittings(method=method, fittings=fittings, limits=limits)
    if over is not None:
        yield over
    if isinstance(method, LeaderLine):
        yield from check_magnet(leader=method, frame=job.frame)
    if job.old is not None and method.kind is MethodKind.OVER_CABLE:
        yield from check_cable_can_stay(job=job, old=job.old, feed_from=feed_from)
    if job.old is not None and is_joined_to_old_line(job=job, method=method):
        cut_end = job.old.end_at(feed_from)
        yield check_old_end_may_be_cut(cut_end=cut_end, keeps_old_brake=job.keeps_old_brake)
        apart = check_bores_stay_apart(method_kind=method.kind, old=job.old, new=job.new)
        if apart is not None:
            yield apart
