"""Changes of size that could open a way: the thickest joint and line that pass, the smallest holes that would do."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from math import ceil, floor

from planner.fit.fitted_end import fittings_drawn
from planner.fit.port_fit import check_things_through_port
from planner.fit.things import thing_of_line
from planner.geometry.openings.opening_shape import opening_sizes, vary_opening
from planner.parts import Job, JobEnd, LineEnd, Method, NewLine, Opening, Port
from planner.plan.change import Change, Stuck, passes_so, with_new
from planner.plan.probe_methods import soft_joint, thin_joints
from planner.plan.way_out import WayOut, WayOutKind
from planner.quick_dataclass import dataclass
from planner.routing.passage import Mover, check_step
from planner.routing.route_search import find_best_route
from planner.routing.run_graph import LEAVE
from planner.verdicts import Outcome, State, Thing, ThingKind, worst_of

STEP_MM = 0.05
"""As finely as a caliper tells a soft line."""

LARGEST_GROWTH_MM = 10.0
"""A hole that would have to grow by more is told as no way out at all."""


def size_changes(stuck: Stuck) -> Iterator[Change]:
    """The thickest line; where the line itself passes, the thickest soft joint."""
    job, line_mm = stuck.job, stuck.job.new.line.outer_diameter_mm

    def line_passes(diameter_mm: float) -> bool:
        return _passes(stuck, _with_line_of(job, diameter_mm), joint_mm=diameter_mm)

    def joint_passes(diameter_mm: float) -> bool:
        return _passes(stuck, job, joint_mm=diameter_mm)

    if joint_passes(line_mm):
        widest_mm = largest_mm(joint_passes, above_mm=line_mm, below_mm=line_mm + LARGEST_GROWTH_MM)
        soft = soft_joint(job=job, diameter_mm=widest_mm)
        if soft is not None and (_goes_over_fitting(job, soft) or passes_so(stuck, job, methods=(soft,))):
            way = WayOut(kind=WayOutKind.THINNER_JOINT, size_mm=widest_mm, method=soft)
            yield _with_methods(stuck, way, job, (soft,))
        return
    thinnest_mm = ceil(2 * job.new.line.outer_tolerance_mm / STEP_MM) * STEP_MM + STEP_MM
    thickest_mm = largest_mm(line_passes, above_mm=thinnest_mm, below_mm=line_mm)
    if thickest_mm > thinnest_mm:
        thinner = _with_line_of(job, thickest_mm)
        way = WayOut(kind=WayOutKind.THINNER_LINE, size_mm=thickest_mm)
        thin = thin_joints(job=thinner)
        if passes_so(stuck, thinner, methods=(*stuck.workshop.methods, *thin)):
            yield _with_methods(stuck, way, thinner, thin)


def _goes_over_fitting(job: Job, method: Method) -> bool:
    """Whether it may help though it is still to be measured."""
    return any(fittings_drawn(job=job, method=method, feed_from=feed_from) for feed_from in JobEnd)


def _with_methods(stuck: Stuck, way: WayOut, job: Job, methods: tuple[Method, ...]) -> Change:
    shop = replace(stuck.workshop, methods=(*stuck.workshop.methods, *methods))
    return Change(ways=(way,), job=job, workshop=shop)


def _with_line_of(job: Job, diameter_mm: float) -> Job:
    """A thinner line of the same sort, with ends to suit it."""
    bore_mm = job.new.line.bore_diameter_mm
    line = replace(
        job.new.line,
        outer_diameter_mm=diameter_mm,
        foam_diameter_mm=None,
        bore_diameter_mm=None if bore_mm is None else min(bore_mm, diameter_mm / 2),
    )
    new = replace(job.new, line=line, from_end=_to_suit(job.new.from_end), to_end=_to_suit(job.new.to_end))
    return with_new(job, new)


def _to_suit(end: LineEnd) -> LineEnd:
    if end.fitting is None:
        return end
    return replace(end, fitting=replace(end.fitting, line_outer_diameter_mm=None, line_bore_diameter_mm=None))


def hole_changes(stuck: Stuck) -> Iterator[Change]:
    """How large stopping holes would have to be, each as small as it may; told with the word that nobody drills.

    Holes of which one is enough are told one by one, others together.
    """
    ports = stuck.job.frame.ports.values()
    openings = {port.id: port.opening for port in ports if port.opening is not None}
    yield from _Holes(
        stuck=stuck, openings=openings, most_mm=dict.fromkeys(openings, LARGEST_GROWTH_MM)
    ).least_changes()


def insert_changes(stuck: Stuck) -> Iterator[Change]:
    """Wider inserts for holes that are wide enough themselves, each as narrow as it may be."""
    found = {
        port.id: (port.insert.opening, growth_mm)
        for port in stuck.job.frame.ports.values()
        if port.insert is not None and port.opening is not None
        if (growth_mm := _room_round_mm(port.insert.opening, port.opening)) > 0
    }
    yield from _Holes(
        stuck=stuck,
        openings={port_id: opening for port_id, (opening, _) in found.items()},
        most_mm={port_id: growth_mm for port_id, (_, growth_mm) in found.items()},
        are_inserts=True,
    ).least_changes()


def _room_round_mm(inner: Opening, outer: Opening) -> float:
    """By how much an insert's opening may grow and still lie in its hole; 0 for outlines."""
    sizes = [[size for name, size in opening_sizes(each).items() if name != "corner_radius"] for each in (inner, outer)]
    if [0.0] in sizes:
        return 0.0
    room_mm = min(min(sizes[1]) - min(sizes[0]), max(sizes[1]) - max(sizes[0]))
    return floor(max(0.0, room_mm) / STEP_MM) * STEP_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class _Holes:
    """Holes of a frame, or the inserts in them, to be made larger in thought.

    openings : of those that were measured, by port
    most_mm : the growth that is tried of each
    are_inserts : whether they are inserts
    """

    stuck: Stuck
    openings: Mapping[str, Opening]
    most_mm: Mapping[str, float]
    are_inserts: bool = False

    def least_changes(self) -> Iterator[Change]:
        """As small as they may be: one by one where one is enough, else all that are needed together."""
        together = self.stopping_mm()
        one_by_one = ({port_id: most_mm} for port_id, most_mm in together.items())
        alone = [growths_mm for growths_mm in one_by_one if self.pass_so(growths_mm)]
        for growths_mm in alone or ([together] if together and self.pass_so(together) else []):
            yield self.change_of(self.least_mm(growths_mm))

    def stopping_mm(self) -> dict[str, float]:
        """Holes that stop every way, and those that stop it when these are open, each with the growth that is tried.

        A hole for another kind of line stops it whatever its size. Empty where something else stops it, or a hole that
        nobody measured.
        """
        growths_mm: dict[str, float] = {}
        no_route = self.stuck.no.no_route
        while no_route is not None:
            more = [one for one in no_route.ports if one not in growths_mm and self._is_for_this_kind(one)]
            if not more or no_route.runs or any(port_id not in self.openings for port_id in more):
                return {}
            growths_mm |= {port_id: self.most_mm[port_id] for port_id in more}
            if self.pass_so(growths_mm):
                break
            no_route = self.stuck.replan(self.job_with(growths_mm), self.stuck.workshop).no_route
        return growths_mm

    def _is_for_this_kind(self, port_id: str) -> bool:
        return self.stuck.job.frame.ports[port_id].takes(self.stuck.job.new.line.kind)

    def job_with(self, growths_mm: Mapping[str, float]) -> Job:
        """With the holes larger by so much, or with larger inserts."""
        job = self.stuck.job
        ports = {
            port_id: self._larger(job.frame.ports[port_id], grown_opening(self.openings[port_id], growth_mm))
            for port_id, growth_mm in growths_mm.items()
        }
        return replace(job, frame=replace(job.frame, ports={**job.frame.ports, **ports}))

    def _larger(self, port: Port, opening: Opening) -> Port:
        if self.are_inserts and port.insert is not None:
            return replace(port, insert=replace(port.insert, opening=opening))
        return replace(port, opening=opening)

    def pass_so(self, growths_mm: Mapping[str, float]) -> bool:
        """Whether there is a way then."""
        return passes_so(self.stuck, self.job_with(growths_mm))

    def least_mm(self, growths_mm: Mapping[str, float]) -> dict[str, float]:
        """Each hole in turn as small as it may be, the others as they are then; those that need not grow left out."""
        least_mm = dict(growths_mm)
        for port_id, most_mm in growths_mm.items():

            def stops_at(growth_mm: float, port_id: str = port_id) -> bool:
                return not self.pass_so({**least_mm, port_id: growth_mm})

            is_needed = stops_at(0.0)
            shortest_mm = largest_mm(stops_at, above_mm=0.0, below_mm=most_mm) + STEP_MM
            least_mm[port_id] = round(shortest_mm, 2) if is_needed else 0.0
        return {port_id: growth_mm for port_id, growth_mm in least_mm.items() if growth_mm > 0}

    def change_of(self, growths_mm: Mapping[str, float]) -> Change:
        """All of them together."""
        ways = tuple(
            WayOut(
                kind=WayOutKind.WIDER_INSERT if self.are_inserts else WayOutKind.LARGER_HOLE,
                port_id=port_id,
                size_mm=growth_mm,
                opening=grown_opening(self.openings[port_id], growth_mm),
            )
            for port_id, growth_mm in growths_mm.items()
        )
        return Change(ways=ways, job=self.job_with(growths_mm), workshop=self.stuck.workshop)


def grown_opening(opening: Opening, growth_mm: float) -> Opening:
    """The same hole with every edge moved out, so that lengths and widths grow by this much."""
    names = [name for name in opening_sizes(opening) if name != "corner_radius"]
    share = {name: growth_mm / 2 if name == "edge" else growth_mm for name in names}
    return vary_opening(opening=opening, changes_mm=share)


def largest_mm(holds: Callable[[float], bool], *, above_mm: float, below_mm: float) -> float:
    """The largest size, in steps, for which it holds; it holds from `above_mm` up to somewhere below `below_mm`."""
    low, high = 0, int((below_mm - above_mm) / STEP_MM + 0.5)
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if holds(round(above_mm + middle * STEP_MM, 6)) else (low, middle)
    return round(above_mm + low * STEP_MM, 2)


def where_old_line_is_too_thick(stuck: Stuck) -> tuple[str, ...]:
    """Stopping holes that the old line, which lies in there, does not pass either: something was measured wrong.

    Returns ids of ports; empty where the old line has some way.
    """
    job, old, no_route = stuck.job, stuck.job.old, stuck.no.no_route
    if old is None or no_route is None:
        return ()
    as_before = with_new(job, NewLine(line=old.line, from_end=LineEnd(), to_end=LineEnd()))
    if _passes(replace(stuck, bend_checks={}), as_before, joint_mm=old.line.outer_diameter_mm):
        return ()
    ports = [job.frame.ports[port_id] for port_id in no_route.ports]
    thing, limits = thing_of_line(old.line), stuck.workshop.limits
    return tuple(
        port.id
        for port in ports
        if check_things_through_port(
            port=port,
            state=State.RIDING,
            things=[thing],
            is_insert_out=False,
            running_clearance_mm=limits.running_clearance_mm,
            allowance=stuck.allowance,
        ).outcome
        is Outcome.NO_FIT
    )


def _passes(stuck: Stuck, job: Job, *, joint_mm: float) -> bool:
    """Whether a soft joint of this diameter is drawn in and the line then rides, on some way."""
    line = job.new.line
    joint = Thing(id="joint", kind=ThingKind.JOINT, diameter_mm=joint_mm, tolerance_mm=line.outer_tolerance_mm)
    mover = Mover(joint=joint, leading_fitting=None, feed_from=JobEnd.FROM)
    outcomes = {
        state: worst_of(
            (
                *check_step(
                    job=job,
                    mover=mover,
                    state=state,
                    limits=stuck.workshop.limits,
                    allowance=stuck.allowance,
                    proves_no=False,
                ),
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
