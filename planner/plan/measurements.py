"""Which measurement to make first, and the chance that everything passes, for the places a plan hangs on."""

from collections.abc import Iterable, Iterator, Sequence
from math import prod

from planner.fit.fit_chance import find_chance_of_fit
from planner.fit.measure_first import Place
from planner.fit.port_fit import find_hole_seen
from planner.fit.things import thing_of_line
from planner.geometry.packing.work import Allowance
from planner.parts import Job, Line, RoundOpening, is_gauged
from planner.plan.names import find_frame_names
from planner.routing.attempts import Attempt
from planner.routing.passage import is_insert_taken_out, lines_staying_in_run
from planner.verdicts import Room, Thing


def find_places(*, job: Job, joint: Thing, port_ids: Iterable[str], run_ids: Iterable[str]) -> tuple[Place, ...]:
    """Every hole and guide that the joint must pass, with what lies beside it, as they are while drawing.

    Returns ports in order, then guides in order.

    port_ids, run_ids : the places of a route
    """
    return (*_ports(job, joint, port_ids), *_guides(job, joint, run_ids))


def _ports(job: Job, joint: Thing, port_ids: Iterable[str]) -> Iterator[Place]:
    for port_id in port_ids:
        port = job.frame.ports[port_id]
        hole = find_hole_seen(port=port, is_insert_out=is_insert_taken_out(job=job, port=port))
        lines = [staying.line for staying in job.staying if port_id in staying.through]
        things = (joint, *(thing_of_line(line) for line in lines))
        yield Place(id=port_id, label=port.label, room=hole, things=things, names=_names(lines))


def _guides(job: Job, joint: Thing, run_ids: Iterable[str]) -> Iterator[Place]:
    names = find_frame_names(job.frame)
    for run_id in run_ids:
        run = job.frame.runs[run_id]
        if run.guide is None:
            continue
        bore = RoundOpening(diameter_mm=run.guide.bore_diameter_mm, tolerance_mm=run.guide.tolerance_mm)
        lines = lines_staying_in_run(job=job, run=run)
        things = (joint, *(thing_of_line(line) for line in lines))
        yield Place(id=run_id, label=names.run(run_id), room=Room(opening=bore), things=things, names=_names(lines))


def _names(lines: Iterable[Line]) -> tuple[tuple[str, str], ...]:
    return tuple((line.id, line.name) for line in lines)


def find_fit_chance(*, places: Sequence[Place], allowance: Allowance | None = None) -> float | None:
    """The chance that the joint passes every place, not below the product of the single chances.

    A line that is thin in one hole is thin in all, so that passing one makes passing the others likelier: the product
    errs on the careful side.

    Returns 0 to 1; None where a place was not measured, or there is none, or the work allowed ran out.

    allowance : the work that questions may cost; None for the usual of one

    Source: J. D. Esary, F. Proschan, D. W. Walkup, "Association of random variables, with applications", Ann. Math.
    Statist. 38 (1967) 1466-1474; from memory. Single chances: see planner.fit.fit_chance.
    """
    openings = [(place, place.room.opening) for place in places]
    if not openings or any(opening is None or is_gauged(opening) for _, opening in openings):
        return None
    chances = [
        find_chance_of_fit(
            opening=opening,
            tilt_deg=place.room.at_worst.tilt_deg,
            wall_thickness_mm=place.room.at_worst.wall_thickness_mm,
            items=place.things,
            allowance=allowance,
        )
        for place, opening in openings
        if opening is not None
    ]
    known = [chance for chance in chances if chance is not None]
    return prod(known) if len(known) == len(chances) else None


def places_of_nearest_attempt(*, job: Job, attempts: Sequence[Attempt], port_ids: Sequence[str]) -> tuple[Place, ...]:
    """The places that stop every way, for the thinnest joint that was tried: would a measurement turn the no?

    Returns empty where no joint could be made.

    attempts : everything tried
    port_ids : the ports that stop every way
    """
    joints = [attempt.joint for attempt in attempts if attempt.joint is not None]
    if not joints:
        return ()
    thinnest = min(joints, key=lambda joint: joint.diameter_mm)
    return find_places(job=job, joint=thinnest, port_ids=port_ids, run_ids=())
