"""Changes that could open a way through the frame: at the job, at the joint, at the line, at the holes."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import islice
from math import floor

from planner.parts import (
    JobEnd,
    Line,
    LineEnd,
    LineFamily,
    LineKind,
    MethodKind,
    NewLine,
    SetBy,
)
from planner.plan.change import Change, Stuck, passes_so, with_new
from planner.plan.probe_methods import missing_methods
from planner.plan.size_changes import hole_changes, insert_changes, size_changes
from planner.plan.way_out import WayOut, WayOutKind
from planner.rules import Measure
from planner.verdicts import NoWay, Outcome

LINES_TRIED = 3
"""Other lines of the catalog that are planned with."""


def place_changes(stuck: Stuck) -> Iterator[Change]:
    """What may open a way, nearest at hand first; each is still to be tried by planning again.

    Asked are: inserts out, the old brake given up, joints that the shop has not, bare ends, other lines of the catalog,
    the thickest joint and line that pass, a line that may be bent tighter, and the smallest holes that would do. Sizes
    are in steps of 0.05 mm, on the safe side.
    """
    yield from _settings(stuck)
    yield from _bare_ends(stuck)
    yield from _other_lines(stuck)
    yield from size_changes(stuck)
    yield from _tighter_bend(stuck)
    yield from insert_changes(stuck)
    yield from hole_changes(stuck)


def _settings(stuck: Stuck) -> Iterator[Change]:
    job, shop = stuck.job, stuck.workshop
    if not job.may_remove_inserts and passes_so(stuck, out := replace(job, may_remove_inserts=True)):
        yield Change(ways=(WayOut(kind=WayOutKind.INSERTS_OUT),), job=out, workshop=shop)
    if job.keeps_old_brake and passes_so(stuck, given := replace(job, keeps_old_brake=False)):
        yield Change(ways=(WayOut(kind=WayOutKind.OLD_BRAKE_GIVEN_UP),), job=given, workshop=shop)
    no_route = stuck.no.no_route
    if no_route is not None and no_route.reason is NoWay.OLD_ROUTE and job.old is not None:
        anywhere = replace(job, old=replace(job.old, through=()))
        yield Change(ways=(WayOut(kind=WayOutKind.OLD_WAY),), job=anywhere, workshop=shop)
    yield from _cord_first(stuck)
    for kind, method, size_mm in missing_methods(job=job, workshop=shop):
        if passes_so(stuck, job, methods=(method,)):
            way = WayOut(kind=kind, size_mm=size_mm, method=method)
            yield Change(ways=(way,), job=job, workshop=replace(shop, methods=(*shop.methods, method)))


def _cord_first(stuck: Stuck) -> Iterator[Change]:
    """A cord that the old line draws in on its own way, and that then draws the new one as into an empty frame."""
    job = stuck.job
    leaders = tuple(method for method in stuck.workshop.methods if method.kind is MethodKind.LEADER_LINE)
    if job.old is None or job.old.line.kind is LineKind.INNER_CABLE or not leaders:
        return
    empty, shop = replace(job, old=None), replace(stuck.workshop, methods=leaders)
    then = stuck.replan(empty, shop)
    if then.no_route is None and set(job.old.through) <= set(then.route):
        way = WayOut(kind=WayOutKind.CORD_FIRST, with_id=then.method_id or "", name=then.method_name)
        yield Change(ways=(way,), job=empty, workshop=shop)


def _bare_ends(stuck: Stuck) -> Iterator[Change]:
    """The same line supplied without what a factory set on it, at one end if that is enough; never a wire's plug."""
    job = stuck.job
    if job.new.line.kind.family is LineFamily.ELECTRIC:
        return
    ends = {JobEnd.FROM: _bare(job.new.from_end), JobEnd.TO: _bare(job.new.to_end)}
    tried = (
        (JobEnd.FROM, replace(job.new, from_end=ends[JobEnd.FROM])),
        (JobEnd.TO, replace(job.new, to_end=ends[JobEnd.TO])),
        (None, replace(job.new, from_end=ends[JobEnd.FROM], to_end=ends[JobEnd.TO])),
    )
    for end, new in tried:
        if new != job.new and passes_so(stuck, with_new(job, new)):
            way = WayOut(kind=WayOutKind.BARE_ENDS, end=end)
            yield Change(ways=(way,), job=with_new(job, new), workshop=stuck.workshop)
            return


def _bare(end: LineEnd) -> LineEnd:
    is_factory_set = end.fitting is not None and end.fitting.set_by is SetBy.FACTORY
    return LineEnd(fitting=replace(end.fitting, set_by=SetBy.WORKSHOP)) if is_factory_set and end.fitting else end


def _other_lines(stuck: Stuck) -> Iterator[Change]:
    """Lines of the catalog for the same use; where a hole takes another kind only, of that kind."""
    job = stuck.job
    if job.new.brake is not None and not _admitted(stuck):
        return  # a brake has its own hose: other brakes are asked instead
    others = (
        NewLine(line=line, from_end=LineEnd(), to_end=LineEnd(), supplied_length_mm=job.new.supplied_length_mm)
        for line in _lines_that_may_serve(stuck)
    )
    for new in islice((new for new in others if passes_so(stuck, with_new(job, new))), LINES_TRIED):
        way = WayOut(kind=WayOutKind.OTHER_LINE, with_id=new.line.id, name=new.line.name)
        yield Change(ways=(way,), job=with_new(job, new), workshop=stuck.workshop)


def _admitted(stuck: Stuck) -> set[str]:
    """Kinds of line that all the stopping holes take and the new line is not of; empty where it is not about kinds."""
    no_route = stuck.no.no_route
    port_ids = () if no_route is None else no_route.ports
    ports = [stuck.job.frame.ports[port_id] for port_id in port_ids]
    kinds = [set(port.admits) for port in ports if port.admits]
    common = set.intersection(*kinds) if kinds else set()
    if stuck.job.new.brake is not None:
        common &= {LineKind.BRAKE_HOUSING, LineKind.INNER_CABLE}
    return set() if stuck.job.new.line.kind in common else {kind.value for kind in common}


def _lines_that_may_serve(stuck: Stuck) -> Iterator[Line]:
    job, admitted = stuck.job, _admitted(stuck)
    for line in sorted(stuck.workshop.lines.values(), key=lambda line: (-line.outer_diameter_mm, line.id)):
        is_thinner = line.outer_diameter_mm < job.new.line.outer_diameter_mm
        if line.kind.value in admitted or (not admitted and line.kind is job.new.line.kind and is_thinner):
            yield line


def _tighter_bend(stuck: Stuck) -> Iterator[Change]:
    """A line that may be bent as tight as the tightest bend that refuses this one."""
    refused = [
        check.available_mm
        for rejection in stuck.no.rejected
        if (check := rejection.check).rule.row.measures is Measure.RADIUS
        and check.outcome is Outcome.NO_FIT
        and check.available_mm is not None
    ]
    radius_mm = floor(min(refused, default=0.0))
    if radius_mm > 0:
        line = replace(stuck.job.new.line, minimum_bend_radius_mm=float(radius_mm))
        way = WayOut(kind=WayOutKind.SUPPLER_LINE, size_mm=float(radius_mm))
        job = with_new(stuck.job, replace(stuck.job.new, line=line))
        yield Change(ways=(way,), job=job, workshop=stuck.workshop)
