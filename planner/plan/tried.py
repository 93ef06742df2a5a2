"""All that is tried for a job before a plan is made of it: its legs, its ways, every method from either end."""

from planner.geometry.packing.work import Allowance
from planner.parts import GeometryError, Job, Workshop
from planner.plan.leg_lengths import find_legs
from planner.plan.leg_views import ranking_lengths_mm, told_by_eye
from planner.plan.length_allowance import geometry_error_of
from planner.plan.lengths import LegLength
from planner.quick_dataclass import dataclass
from planner.routing.attempts import Attempt, BendChecks, find_attempts
from planner.routing.passage import AskedBefore
from planner.routing.run_graph import RunGraph, RunState, graph_of_runs, states_in_order


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """What was tried, and on which ways.

    legs : by run id
    is_by_eye : whether the frame's places were told by eye, so that no length counts
    bend_checks : what the shape of each run has shown about the line's bends
    """

    legs: dict[str, LegLength]
    is_by_eye: bool
    graph: RunGraph
    bend_checks: BendChecks
    attempts: tuple[Attempt, ...]


def try_holes(
    *, job: Job, workshop: Workshop, allowance: Allowance, before: AskedBefore
) -> tuple[RunGraph, tuple[Attempt, ...]]:
    """Every method by holes and cavities alone, as if the line could be bent along every run: what these stop is a no.

    Returns the ways, every leg as long as any other, with the attempts; what is not seen to pass is UNKNOWN.

    workshop : its methods and limits
    allowance : the work that questions about holes may cost together
    before : where the answers are kept for whoever asks on

    Raises UnknownPortError when the job or a run names a port or anchor the frame lacks.
    """
    graph = _graph_of(job, {})
    attempts = find_attempts(
        job=job,
        methods=workshop.methods,
        graph=graph,
        limits=workshop.limits,
        allowance=allowance,
        proves_no=False,
        before=before,
    )
    return graph, attempts


def try_all(
    *,
    job: Job,
    workshop: Workshop,
    allowance: Allowance,
    proves_no: bool = True,
    before: AskedBefore | None = None,
) -> Tried:
    """Every method from either end, on all ways of the frame.

    workshop : its methods and limits
    allowance : the work that questions about holes may cost together
    proves_no : whether a proof is sought that things cannot pass; without, what is not seen to pass is UNKNOWN, a
        point that no bend gets past is told without the bend that would, and runs on no way have no leg
    before : answers to the same of the same job, given with as much proof; None where nothing has been asked

    Raises UnknownPortError when the job or a run names a port or anchor the frame lacks.
    """
    is_by_eye = geometry_error_of(frame=job.frame, limits=workshop.limits) is GeometryError.ROUGH
    on_ways = None if proves_no else {state.run_id for state in _states_on_ways(job)}
    legs = find_legs(frame=job.frame, line=job.new.line, run_ids=on_ways, tells_by_how_much=proves_no)
    legs = {run_id: told_by_eye(leg) for run_id, leg in legs.items()} if is_by_eye else legs
    graph = _graph_of(job, ranking_lengths_mm(legs))
    bend_checks = {run_id: leg.bend_checks for run_id, leg in legs.items()}
    attempts = find_attempts(
        job=job,
        methods=workshop.methods,
        graph=graph,
        limits=workshop.limits,
        bend_checks=bend_checks,
        allowance=allowance,
        proves_no=proves_no,
        before=before,
    )
    return Tried(legs=legs, is_by_eye=is_by_eye, graph=graph, bend_checks=bend_checks, attempts=attempts)


def _graph_of(job: Job, leg_length_mm: dict[str, float]) -> RunGraph:
    """Every way of a frame; a run that was given no length is as long as any other."""
    return graph_of_runs(
        frame=job.frame,
        from_anchor_id=job.from_anchor_id,
        to_anchor_id=job.to_anchor_id,
        leg_length_mm=dict.fromkeys(job.frame.runs, 1.0) | leg_length_mm,
    )


def _states_on_ways(job: Job) -> tuple[RunState, ...]:
    return states_in_order(graph=_graph_of(job, {}), from_anchor_id=job.from_anchor_id)
