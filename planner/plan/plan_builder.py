"""A job becomes a plan: every method tried, the best way described, everything else kept with its reason."""

from dataclasses import replace
from functools import partial

from planner.fit.compatibility import CompatibilityResult, check_compatibility
from planner.fit.measure_first import MeasureFirst, Place, rank_measurements
from planner.geometry.packing.work import Allowance
from planner.parts import Job, Workshop
from planner.plan.advisories import (
    hand_force_question,
    known_checks,
    open_questions,
    wedge_cautions,
    work_question,
)
from planner.plan.deciding import in_reading_order
from planner.plan.leg_lengths import hang_legs
from planner.plan.leg_questions import leg_questions
from planner.plan.line_ends import has_factory_end
from planner.plan.link_proposal import propose_reaches
from planner.plan.measurements import (
    find_fit_chance,
    find_places,
    places_of_nearest_attempt,
)
from planner.plan.names import find_names
from planner.plan.no_route import find_no_route, find_rejections
from planner.plan.options import Candidate, Pin, find_candidates
from planner.plan.routing_plan import PlanOption, Rejection, RoutingPlan
from planner.plan.slips.frame_slips import find_slips
from planner.plan.tried import try_all, try_holes
from planner.plan.work_order import count_parts, find_at_hand, find_cautions, find_rescue, find_short_cautions
from planner.routing.attempts import Attempt
from planner.routing.passage import AskedBefore, allowance_of
from planner.routing.run_graph import RunGraph
from planner.verdicts import Check, Outcome, worst_of


def plan_job(*, job: Job, workshop: Workshop, pin: Pin | None = None, seeks_ways_out: bool = True) -> RoutingPlan:
    """Plan one swap.

    Returns outcome FITS or TIGHT with a plan to work from; UNKNOWN with what to measure; NO_FIT with the proof.

    job : frame, old line, new line and what the job allows
    workshop : methods, limits, steps and small parts
    pin : the way of doing it that is wanted; None for the best
    seeks_ways_out : whether a no is told with what would change it

    Raises UnknownPortError when the job or a run names a port or anchor the frame lacks.
    """
    allowance = allowance_of(workshop.limits)
    plan, graph, bend_checks = _plan_and_graph(job, workshop, pin, allowance)
    if plan.outcome is Outcome.NO_FIT and seeks_ways_out:
        plan = _with_ways_out(job, workshop, plan, graph, bend_checks, allowance)
    return replace(plan, advisories=(*plan.advisories, *work_question(allowance)))


def _with_ways_out(
    job: Job,
    workshop: Workshop,
    plan: RoutingPlan,
    graph: RunGraph,
    bend_checks: dict[str, tuple[Check, ...]],
    allowance: Allowance,
) -> RoutingPlan:
    """A no with what would change it."""
    # loaded when asked: a plan that works needs none of it
    from planner.plan.change import Stuck
    from planner.plan.size_changes import where_old_line_is_too_thick
    from planner.plan.ways_out import find_ways_out

    stuck = Stuck(
        job=job,
        workshop=workshop,
        graph=graph,
        bend_checks=bend_checks,
        no=plan,
        look=partial(look_at, allowance=allowance),
        replan=partial(plan_again, allowance=allowance),
        allowance=allowance,
    )
    ways_out = find_ways_out(stuck)
    if plan.no_route is None:
        return replace(plan, ways_out=ways_out)
    too_thick_at = where_old_line_is_too_thick(stuck)
    old_mm = job.old.line.outer_diameter_mm if job.old is not None and too_thick_at else None
    no_route = replace(plan.no_route, ways_out=ways_out, old_too_thick_at=too_thick_at, old_line_mm=old_mm)
    return replace(plan, no_route=no_route)


def plan_again(job: Job, workshop: Workshop, *, allowance: Allowance | None = None) -> RoutingPlan:
    """The plan by its outcome, way, checks and lengths: without what would change a no, and what to measure first.

    allowance : the work that questions about holes may cost together; None for what the shop allows
    """
    return _plan_and_graph(job, workshop, None, allowance or allowance_of(workshop.limits), asks_back=False)[0]


def look_at(job: Job, workshop: Workshop, *, allowance: Allowance | None = None) -> RoutingPlan:
    """The same at a glance: what is not seen to pass is UNKNOWN, and no proof is sought that it cannot.

    Where the holes alone stop every way, no leg is given a shape, and what was ruled out is not listed.

    allowance : the work that questions about holes may cost together; None for what the shop allows
    """
    work = allowance or allowance_of(workshop.limits)
    before = AskedBefore()
    graph, attempts = try_holes(job=job, workshop=workshop, allowance=work, before=before)
    if all(attempt.outcome is Outcome.NO_FIT for attempt in attempts):
        return _plan_of_nothing(job, workshop, attempts, graph, rejected=())
    return _plan_and_graph(job, workshop, None, work, proves_no=False, asks_back=False, before=before)[0]


def _plan_and_graph(
    job: Job,
    workshop: Workshop,
    pin: Pin | None,
    allowance: Allowance,
    *,
    proves_no: bool = True,
    asks_back: bool = True,
    before: AskedBefore | None = None,
) -> tuple[RoutingPlan, RunGraph, dict[str, tuple[Check, ...]]]:
    """The plan without what would change a no, with what that is asked of.

    asks_back : whether what to measure first, the chance of fitting and what may be a slip in the frame are asked too
    before : answers about the job's holes, given with as much proof; None where nothing has been asked
    """
    tried = try_all(job=job, workshop=workshop, allowance=allowance, proves_no=proves_no, before=before)
    legs, graph, bend_checks, attempts = tried.legs, tried.graph, dict(tried.bend_checks), tried.attempts
    rejected = find_rejections(attempts=attempts, graph=graph, from_anchor_id=job.from_anchor_id)
    asked: tuple[Check, ...] = ()
    if asks_back:
        slips = find_slips(frame=job.frame, limits=workshop.limits.slips, with_loops=False)
        asked = (*slips, *propose_reaches(job=job, attempts=attempts, graph=graph))
    adapter = check_compatibility(job=job, adapters=workshop.adapters, limits=workshop.limits).adapter
    for worst_allowed in (Outcome.TIGHT, Outcome.UNKNOWN):
        on_ways = {run_id for attempt in attempts for run_id in _runs_if(attempt, worst_allowed)}
        hung = legs if tried.is_by_eye else hang_legs(frame=job.frame, line=job.new.line, legs=legs, run_ids=on_ways)
        candidates = find_candidates(
            workshop=workshop,
            attempts=attempts,
            legs=hung,
            worst_allowed=worst_allowed,
            adapter=adapter,
            pin=pin,
        )
        if candidates:
            plan = _plan_of(workshop, candidates, rejected, allowance, asks_back=asks_back)
            return replace(plan, advisories=(*plan.advisories, *asked)), graph, bend_checks
    plan = _plan_of_nothing(job, workshop, attempts, graph, rejected)
    if asks_back:
        plan = replace(plan, measure_first=_measured_first(job, workshop, plan, attempts, allowance))
    return replace(plan, advisories=asked), graph, bend_checks


def _runs_if(attempt: Attempt, worst_allowed: Outcome) -> tuple[str, ...]:
    """The runs of an attempt's way, where it is no worse than allowed."""
    return () if attempt.route is None or attempt.outcome > worst_allowed else attempt.route.run_ids


def blank_plan(job: Job, workshop: Workshop, outcome: Outcome) -> RoutingPlan:
    """A plan that only says what was asked, and how it came out."""
    return RoutingPlan(
        job_id=job.id,
        job_title=job.title,
        frame_id=job.frame.id,
        frame_name=job.frame.name,
        new_line_name=job.new.line.name if job.new.brake is None else job.new.brake.name,
        old_line_name=_old_name(job),
        outcome=outcome,
        from_anchor_id=job.from_anchor_id,
        to_anchor_id=job.to_anchor_id,
        stock_line_id="" if has_factory_end(job.new) else job.new.line.id,
        names=find_names(job=job, workshop=workshop),
    )


def _old_name(job: Job) -> str:
    if job.old is None:
        return ""
    return job.old.line.name if job.old.brake is None else job.old.brake.name


def _plan_of_nothing(
    job: Job,
    workshop: Workshop,
    attempts: tuple[Attempt, ...],
    graph: RunGraph,
    rejected: tuple[Rejection, ...],
) -> RoutingPlan:
    no_route = find_no_route(
        attempts=attempts,
        graph=graph,
        from_anchor_id=job.from_anchor_id,
    )
    parts = check_compatibility(job=job, adapters=workshop.adapters, limits=workshop.limits)
    no_route = replace(
        no_route, parts_against=tuple(check for check in parts.checks if check.outcome is Outcome.NO_FIT)
    )
    return replace(blank_plan(job, workshop, Outcome.NO_FIT), rejected=rejected, no_route=no_route)


def _measured_first(
    job: Job, workshop: Workshop, no: RoutingPlan, attempts: tuple[Attempt, ...], allowance: Allowance
) -> tuple[MeasureFirst, ...]:
    """What, once measured, might turn a no."""
    port_ids = () if no.no_route is None else no.no_route.ports
    ranked = rank_measurements(
        places=places_of_nearest_attempt(job=job, attempts=attempts, port_ids=port_ids),
        running_clearance_mm=workshop.limits.running_clearance_mm,
        allowance=allowance,
    )
    return tuple(measure for measure in ranked if measure.outcome >= Outcome.UNKNOWN)


def _places_of(job: Job, attempt: Attempt) -> tuple[Place, ...]:
    if attempt.joint is None or attempt.route is None:
        return ()
    return find_places(job=job, joint=attempt.joint, port_ids=attempt.route.port_ids, run_ids=attempt.route.run_ids)


def _plan_of(
    workshop: Workshop,
    candidates: tuple[Candidate, ...],
    rejected: tuple[Rejection, ...],
    allowance: Allowance,
    *,
    asks_back: bool,
) -> RoutingPlan:
    """The plan of the best candidate.

    asks_back : whether what to measure first and the chance of fitting are asked too
    """
    best = candidates[0]
    option, attempt = best.option, best.attempt
    job = attempt.job
    parts = check_compatibility(
        job=job,
        adapters=workshop.adapters,
        route=option.route,
        limits=workshop.limits,
    )
    checks = (
        *in_reading_order(attempt.route_checks, attempt.general_checks),
        *best.length_checks,
        *known_checks(parts),
    )
    places = _places_of(job, attempt)
    outcome = worst_of(checks, of_nothing=Outcome.UNKNOWN)
    return replace(
        blank_plan(job, workshop, outcome),
        route=option.route,
        runs=() if attempt.route is None else attempt.route.run_ids,
        method_id=option.method_id,
        method_name=attempt.method.name,
        feed_from=option.feed_from,
        cut_old_at=option.cut_old_at,
        joint=best.joint,
        checks=checks,
        lengths=best.lengths,
        rejected=rejected,
        options=tuple(_as_told(candidate, parts) for candidate in candidates),
        parts=count_parts(part_ids=(*option.part_ids, *parts.part_ids), workshop=workshop),
        steps=best.steps if outcome.lets_work_begin else (),
        cautions=find_cautions(workshop=workshop, facts=best.facts, words=best.words, steps=best.steps)
        if outcome.lets_work_begin
        else (),
        rescue=find_rescue(workshop=workshop, facts=best.facts, words=best.words) if outcome.lets_work_begin else (),
        at_hand=find_at_hand(workshop=workshop, facts=best.facts, words=best.words) if outcome.lets_work_begin else (),
        short_cautions=find_short_cautions(workshop=workshop, words=best.words),
        measure_first=()
        if outcome is Outcome.NO_FIT or not asks_back
        else rank_measurements(
            places=places,
            running_clearance_mm=workshop.limits.running_clearance_mm,
            allowance=allowance,
        ),
        fit_chance=find_fit_chance(places=places, allowance=allowance) if asks_back else None,
        advisories=(
            *open_questions(parts),
            *wedge_cautions(job=job, route=option.route, run_ids=attempt.route.run_ids if attempt.route else ()),
            *leg_questions(job=job, lengths=best.lengths, limits=workshop.limits),
            *hand_force_question(job=job, legs=best.lengths.legs, limits=workshop.limits),
        ),
        needs=parts.needs,
    )


def _as_told(candidate: Candidate, parts: CompatibilityResult) -> PlanOption:
    """A way of doing it with the outcome of the whole job that way: parts and supplied length counted."""
    counted = (*candidate.length_checks, *known_checks(parts))
    outcome = max(candidate.option.outcome, worst_of(counted, of_nothing=Outcome.FITS))
    return replace(candidate.option, outcome=outcome)
