"""A job becomes a plan: every method tried, the best way described, everything else kept with its reason."""

from dataclasses import replace

from planner.fit.compatibility import check_compatibility
from planner.fit.measure_first import Place, rank_measurements
from planner.parts import GeometryError, Job, Workshop
from planner.plan.advisories import hand_force_question, known_checks, open_questions
from planner.plan.leg_lengths import find_legs, hang_legs
from planner.plan.leg_questions import leg_questions
from planner.plan.leg_views import ranking_lengths_mm, told_by_eye
from planner.plan.length_allowance import geometry_error_of
from planner.plan.link_proposal import propose_reaches
from planner.plan.measurements import (
    find_fit_chance,
    find_places,
    places_of_nearest_attempt,
)
from planner.plan.names import find_names
from planner.plan.no_route import find_no_route, find_rejections
from planner.plan.options import Candidate, Pin, find_candidates
from planner.plan.routing_plan import Rejection, RoutingPlan
from planner.plan.slips.frame_slips import find_slips
from planner.plan.ways_out import Stuck, find_ways_out
from planner.plan.work_order import count_parts, find_at_hand, find_cautions, find_rescue, find_short_cautions
from planner.routing.attempts import Attempt, find_attempts
from planner.routing.run_graph import RunGraph, graph_of_runs
from planner.rules import AT_BOTH_MOMENTS
from planner.verdicts import Check, Outcome, State, worst_of


def plan_job(*, job: Job, workshop: Workshop, pin: Pin | None = None) -> RoutingPlan:
    """Plan one swap.

    Returns outcome FITS or TIGHT with a plan to work from; UNKNOWN with what to measure; NO_FIT with the proof.

    job : frame, old line, new line and what the job allows
    workshop : methods, limits, steps and small parts
    pin : the way of doing it that is wanted; None for the best

    Raises UnknownPortError when the job or a run names a port or anchor the frame lacks.
    """
    is_by_eye = geometry_error_of(frame=job.frame, limits=workshop.limits) is GeometryError.ROUGH
    legs = find_legs(frame=job.frame, line=job.new.line)
    legs = {run_id: told_by_eye(leg) for run_id, leg in legs.items()} if is_by_eye else legs
    graph = graph_of_runs(
        frame=job.frame,
        from_anchor_id=job.from_anchor_id,
        to_anchor_id=job.to_anchor_id,
        leg_length_mm=ranking_lengths_mm(legs),
    )
    bend_checks = {run_id: leg.bend_checks for run_id, leg in legs.items()}
    attempts = find_attempts(
        job=job,
        methods=workshop.methods,
        graph=graph,
        limits=workshop.limits,
        bend_checks=bend_checks,
    )
    on_routes = {run_id for attempt in attempts if attempt.route is not None for run_id in attempt.route.run_ids}
    legs = legs if is_by_eye else hang_legs(frame=job.frame, line=job.new.line, legs=legs, run_ids=on_routes)
    rejected = find_rejections(attempts=attempts, graph=graph, from_anchor_id=job.from_anchor_id)
    slips = find_slips(frame=job.frame, limits=workshop.limits.slips, with_loops=False)
    asked = (*slips, *propose_reaches(job=job, attempts=attempts, graph=graph))
    adapter = check_compatibility(job=job, adapters=workshop.adapters, limits=workshop.limits).adapter
    for worst_allowed in (Outcome.TIGHT, Outcome.UNKNOWN):
        candidates = find_candidates(
            workshop=workshop,
            attempts=attempts,
            legs=legs,
            worst_allowed=worst_allowed,
            adapter=adapter,
            pin=pin,
        )
        if candidates:
            plan = _plan_of(workshop, candidates, rejected)
            return replace(plan, advisories=(*plan.advisories, *asked))
    return replace(_plan_of_nothing(job, workshop, attempts, graph, rejected, bend_checks), advisories=asked)


def _blank_plan(job: Job, workshop: Workshop, outcome: Outcome) -> RoutingPlan:
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
    bend_checks: dict[str, tuple[Check, ...]],
) -> RoutingPlan:
    no_route = find_no_route(
        attempts=attempts,
        graph=graph,
        from_anchor_id=job.from_anchor_id,
    )
    stuck = Stuck(job=job, workshop=workshop, graph=graph, bend_checks=bend_checks)
    no_route = replace(no_route, ways_out=find_ways_out(stuck=stuck, no_route=no_route))
    places = places_of_nearest_attempt(job=job, attempts=attempts, port_ids=no_route.ports)
    return replace(
        _blank_plan(job, workshop, Outcome.NO_FIT),
        rejected=rejected,
        no_route=no_route,
        measure_first=rank_measurements(
            places=places,
            running_clearance_mm=workshop.limits.running_clearance_mm,
            most_work=workshop.limits.hole_work_rows,
        ),
    )


def _places_of(job: Job, attempt: Attempt) -> tuple[Place, ...]:
    if attempt.joint is None or attempt.route is None:
        return ()
    return find_places(job=job, joint=attempt.joint, port_ids=attempt.route.port_ids, run_ids=attempt.route.run_ids)


def _plan_of(workshop: Workshop, candidates: tuple[Candidate, ...], rejected: tuple[Rejection, ...]) -> RoutingPlan:
    best = candidates[0]
    option, attempt = best.option, best.attempt
    job = attempt.job
    parts = check_compatibility(
        job=job,
        adapters=workshop.adapters,
        route=option.route,
        limits=workshop.limits,
    )
    checks = (*_in_reading_order(attempt), *best.length_checks, *known_checks(parts))
    places = _places_of(job, attempt)
    outcome = worst_of(checks, of_nothing=Outcome.UNKNOWN)
    return replace(
        _blank_plan(job, workshop, outcome),
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
        options=tuple(candidate.option for candidate in candidates),
        parts=count_parts(part_ids=(*option.part_ids, *parts.part_ids), workshop=workshop),
        steps=best.steps if outcome.lets_work_begin else (),
        cautions=find_cautions(workshop=workshop, facts=best.facts, words=best.words, steps=best.steps)
        if outcome.lets_work_begin
        else (),
        rescue=find_rescue(workshop=workshop, facts=best.facts, words=best.words) if outcome.lets_work_begin else (),
        at_hand=find_at_hand(workshop=workshop, facts=best.facts, words=best.words) if outcome.lets_work_begin else (),
        short_cautions=find_short_cautions(workshop=workshop, words=best.words),
        measure_first=rank_measurements(
            places=places,
            running_clearance_mm=workshop.limits.running_clearance_mm,
            most_work=workshop.limits.hole_work_rows,
        ),
        fit_chance=find_fit_chance(places=places, most_work=workshop.limits.hole_work_rows),
        advisories=(
            *open_questions(parts),
            *leg_questions(job=job, lengths=best.lengths, limits=workshop.limits),
            *hand_force_question(job=job, legs=best.lengths.legs, limits=workshop.limits),
        ),
        needs=parts.needs,
    )


def _in_reading_order(attempt: Attempt) -> tuple[Check, ...]:
    """Holes while drawing first, in route order, then holes while riding, then all the rest as asked."""

    def place_in_sheet(check: Check) -> int:
        if check.rule.is_about_hole and check.rule.row.asked == AT_BOTH_MOMENTS:
            return 0 if check.state is State.DRAWING else 1
        return 2

    return tuple(sorted((*attempt.route_checks, *attempt.general_checks), key=place_in_sheet))
