"""A spoke link that is too long for a bend or a wall: how far may it reach instead?

A link is rigid over twice its reach: a 2 mm steel spoke springs back only from bends of some 190 mm. We gave up
longer reaches in wide bends.
"""

from collections.abc import Iterator, Sequence

from planner.fit.link_reach import GuideOnWay, LinkReach, WallOnWay, find_longest_reach
from planner.fit.port_fit import is_in_line_with_tube
from planner.parts import OUTSIDE, Job, Run, SpokeLink
from planner.routing.attempts import Attempt, ports_to_use
from planner.routing.route_search import Route, find_best_route
from planner.routing.run_graph import RunGraph, zone_bore_mm, zone_bore_tolerance_mm
from planner.rules import JointRule, Measure
from planner.verdicts import Check, Outcome, State, Thing, worst_of


def propose_reaches(*, job: Job, attempts: Sequence[Attempt], graph: RunGraph) -> Iterator[Check]:
    """For every spoke link that only its stiff length keeps out, the reach that still passes and the place deciding it.

    attempts : everything tried
    graph : the frame's ways

    Yields Rule "spoke_reach": the size is the reach that passes, the room what the catalog's link has. Outcome TIGHT,
    for a shorter link is less sure in its bores.
    """
    told: set[str] = set()
    for attempt in attempts:
        method = attempt.method
        if not isinstance(method, SpokeLink) or method.id in told or attempt.route is not None:
            continue
        route = _route_but_for_length(job, attempt, graph)
        is_refused = worst_of(attempt.general_checks, of_nothing=Outcome.FITS) is Outcome.NO_FIT
        if route is None or attempt.joint is None or is_refused:
            continue
        told.add(method.id)
        reach = _reach_on(job, route, attempt.joint)
        yield Check(
            rule=JointRule.SPOKE_REACH,
            outcome=Outcome.TIGHT,
            state=State.DRAWING,
            port_id=reach.port_id,
            run_id=reach.run_id,
            with_ids=(method.id,),
            size_mm=reach.reach_mm,
            available_mm=method.reach_mm,
        )


def _route_but_for_length(job: Job, attempt: Attempt, graph: RunGraph) -> Route | None:
    """The way the link would take if no stiff length counted."""
    outcomes = {
        state: worst_of(
            (check for check in checks if check.rule.row.measures is not Measure.STIFF_LENGTH), of_nothing=Outcome.FITS
        )
        for state, checks in attempt.step_checks.items()
    }
    if not outcomes:
        return None
    return find_best_route(
        graph=graph,
        from_anchor_id=job.from_anchor_id,
        outcomes=outcomes,
        worst_allowed=Outcome.TIGHT,
        must_use=ports_to_use(job),
    )


def _least_bore_mm(job: Job, run: Run) -> float | None:
    bore_mm = zone_bore_mm(frame=job.frame, run=run)
    return None if bore_mm is None else bore_mm - zone_bore_tolerance_mm(frame=job.frame, run=run)


def _reach_on(job: Job, route: Route, joint: Thing) -> LinkReach:
    runs = [job.frame.runs[run_id] for run_id in route.run_ids]
    guides = [GuideOnWay(run_id=run.id, guide=run.guide) for run in runs if run.guide is not None]
    walls = [
        WallOnWay(port=port, run_id=run.id, corridor_mm=_least_bore_mm(job, run))
        for run in runs
        if run.guide is None and run.zone_id != OUTSIDE
        for place in run.between
        if (port := job.frame.ports.get(place)) is not None
        and not is_in_line_with_tube(port=port, zone=job.frame.zones[run.zone_id])
    ]
    return find_longest_reach(line=joint, guides=guides, walls=walls)
