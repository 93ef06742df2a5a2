"""What would change a "no": computed for this job, each told only where it really makes a way."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from math import ceil

from planner.geometry.openings.opening_shape import opening_sizes, vary_opening
from planner.parts import Job, JobEnd, LineEnd, Method, Opening, SetBy, SpokeLink, Workshop
from planner.plan.routing_plan import NoRoute, WayOut, WayOutKind
from planner.routing.attempts import works_somehow
from planner.routing.passage import Mover, check_step
from planner.routing.route_search import find_best_route
from planner.routing.run_graph import LEAVE, RunGraph
from planner.verdicts import Check, Outcome, Thing, ThingKind, worst_of

STEP_MM = 0.05
"""As finely as a caliper tells a soft line."""

LARGEST_GROWTH_MM = 10.0
"""A hole that would have to grow by more is told as no way out at all."""

PROBE_REACH_MM = 20.0
"""Of the spoke link that is tried where the shop has none."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stuck:
    """A job without a plan, with all that is needed to ask again.

    bend_checks : what the shape of each run has shown about the line's bends, by run id
    """

    job: Job
    workshop: Workshop
    graph: RunGraph
    bend_checks: Mapping[str, tuple[Check, ...]]


def find_ways_out(*, stuck: Stuck, no_route: NoRoute) -> tuple[WayOut, ...]:
    """What would make a plan of it, nearest at hand first; empty where nothing that was tried does.

    Asked are: inserts out, the old brake given up, a line with bare ends, a spoke link where the shop has none, the
    thickest line and joint that pass, and the smallest holes that would do. Sizes are in steps of 0.05 mm, on the safe
    side.
    """
    return tuple(_settings(stuck)) + tuple(_sizes(stuck)) + tuple(_larger_holes(stuck, no_route))


def _settings(stuck: Stuck) -> Iterator[WayOut]:
    job = stuck.job
    if not job.may_remove_inserts and _works(stuck, replace(job, may_remove_inserts=True)):
        yield WayOut(kind=WayOutKind.INSERTS_OUT)
    if job.keeps_old_brake and _works(stuck, replace(job, keeps_old_brake=False)):
        yield WayOut(kind=WayOutKind.OLD_BRAKE_GIVEN_UP)
    bare = _with_bare_ends(job)
    if bare != job and _works(stuck, bare):
        yield WayOut(kind=WayOutKind.BARE_ENDS)
    link = _link_for(job)
    has_link = any(isinstance(method, SpokeLink) for method in stuck.workshop.methods)
    if link is not None and not has_link and _works(stuck, job, methods=(link,)):
        yield WayOut(kind=WayOutKind.SPOKE_LINK, size_mm=link.rod_diameter_mm)


def _with_bare_ends(job: Job) -> Job:
    """The same line supplied without what a factory set on it."""
    ends = [
        LineEnd(fitting=replace(end.fitting, set_by=SetBy.WORKSHOP)) if end.fitting is not None else end
        for end in (job.new.from_end, job.new.to_end)
    ]
    return replace(job, new=replace(job.new, from_end=ends[0], to_end=ends[1]))


def _link_for(job: Job) -> SpokeLink | None:
    lines = [job.new.line, *([] if job.old is None else [job.old.line])]
    bores = [line.bore_diameter_mm for line in lines]
    known = [bore for bore in bores if bore is not None]
    if job.old is None or len(known) < len(bores):
        return None
    return SpokeLink(
        id="spoke_link",
        name="Spoke link",
        rod_diameter_mm=min(known),
        reach_mm=PROBE_REACH_MM,
        holds_n=0.0,
        setup_min=0.0,
    )


def _sizes(stuck: Stuck) -> Iterator[WayOut]:
    """The thickest line; where the line itself passes, the thickest soft joint."""
    line_mm = stuck.job.new.line.outer_diameter_mm

    def line_passes(diameter_mm: float) -> bool:
        line = replace(stuck.job.new.line, outer_diameter_mm=diameter_mm, foam_diameter_mm=None)
        return _passes(stuck, replace(stuck.job, new=replace(stuck.job.new, line=line)), joint_mm=diameter_mm)

    def joint_passes(diameter_mm: float) -> bool:
        return _passes(stuck, stuck.job, joint_mm=diameter_mm)

    if joint_passes(line_mm):
        widest_mm = _largest(joint_passes, above_mm=line_mm, below_mm=line_mm + LARGEST_GROWTH_MM)
        yield WayOut(kind=WayOutKind.THINNER_JOINT, size_mm=widest_mm)
        return
    thinnest_mm = ceil(2 * stuck.job.new.line.outer_tolerance_mm / STEP_MM) * STEP_MM + STEP_MM
    thickest_mm = _largest(line_passes, above_mm=thinnest_mm, below_mm=line_mm)
    if thickest_mm > thinnest_mm:
        yield WayOut(kind=WayOutKind.THINNER_LINE, size_mm=thickest_mm)


def _larger_holes(stuck: Stuck, no_route: NoRoute) -> Iterator[WayOut]:
    """How large the stopping ports would have to be made; told with the word that nobody may make them so."""
    frame = stuck.job.frame
    ports = [frame.ports[port_id] for port_id in no_route.ports]
    openings = {port.id: port.opening for port in ports if port.opening is not None}
    if not ports or no_route.runs or len(openings) < len(ports):
        return

    def stops_at(growth_mm: float) -> bool:
        grown = {
            port.id: replace(port, opening=grown_opening(openings[port.id], growth_mm), admits=()) for port in ports
        }
        return not _works(stuck, replace(stuck.job, frame=replace(frame, ports={**frame.ports, **grown})))

    if stops_at(LARGEST_GROWTH_MM):
        return
    growth_mm = _largest(stops_at, above_mm=0.0, below_mm=LARGEST_GROWTH_MM) + STEP_MM
    for port in ports:
        needed = grown_opening(openings[port.id], growth_mm)
        yield WayOut(kind=WayOutKind.LARGER_HOLE, port_id=port.id, size_mm=growth_mm, opening=needed)


def grown_opening(opening: Opening, growth_mm: float) -> Opening:
    """The same hole with every edge moved out, so that lengths and widths grow by this much."""
    names = [name for name in opening_sizes(opening) if name != "corner_radius"]
    share = {name: growth_mm / 2 if name == "edge" else growth_mm for name in names}
    return vary_opening(opening=opening, changes_mm=share)


def _largest(holds: Callable[[float], bool], *, above_mm: float, below_mm: float) -> float:
    """The largest size, in steps, for which it holds; it holds from `above_mm` up to somewhere below `below_mm`."""
    low, high = 0, int((below_mm - above_mm) / STEP_MM + 0.5)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(round(above_mm + middle * STEP_MM, 6)) else (low, middle)
    return round(above_mm + low * STEP_MM, 2)


def _works(stuck: Stuck, job: Job, *, methods: tuple[Method, ...] | None = None) -> bool:
    return works_somehow(
        job=job,
        methods=stuck.workshop.methods if methods is None else methods,
        graph=stuck.graph,
        limits=stuck.workshop.limits,
        bend_checks=stuck.bend_checks,
    )


def _passes(stuck: Stuck, job: Job, *, joint_mm: float) -> bool:
    """Whether a soft joint of this diameter is drawn in and the line then rides, on some way."""
    line = job.new.line
    joint = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=joint_mm, tolerance_mm=line.outer_tolerance_mm)
    mover = Mover(joint=joint, leading_fitting=None, feed_from=JobEnd.FROM)
    outcomes = {
        state: worst_of(
            (
                *check_step(job=job, mover=mover, state=state, limits=stuck.workshop.limits, proves_no=False),
                *stuck.bend_checks.get(state.run_id, ()),
            ),
            of_nothing=Outcome.FITS,
        )
        for state in stuck.graph
        if state != LEAVE
    }
    route = find_best_route(
        graph=stuck.graph,
        from_anchor_id=job.from_anchor_id,
        outcomes=outcomes,
        worst_allowed=Outcome.TIGHT,
        must_use=() if job.old is None else job.old.through,
    )
    return route is not None
