"""Which figures, once they are read, would answer what a plan asks to be measured."""

from planner.fit.measure_first import MeasureFirst
from planner.fit.port_fit import find_hole_seen
from planner.parts import Figure, Frame, Job, LineFigure, ReadWhat, is_gauged
from planner.routing.passage import is_insert_taken_out
from planner.rules import JointRule, PlaceRule, Rule
from planner.rules.place_rules import CAVITY_NOT_MEASURED, GAUGED, HOLE_NOT_MEASURED, LOOKS_NOT_TOLD, SPREAD
from planner.verdicts import Check, InsertPlace

_OF_HOLES = (PlaceRule.PORT_CLEARANCE, PlaceRule.LEADING_FITTING)
_OF_WALLS = (PlaceRule.WALL_ENTRY, PlaceRule.WALL_EXIT)
_OF_BENDS = (PlaceRule.GUIDE_BEND, PlaceRule.BEND_RADIUS)


def figures_of_measure(measure: MeasureFirst, job: Job) -> tuple[Figure, ...]:
    """The figure that a measurement worth making reads.

    Returns none for a joint, which is measured once it is made.
    """
    place_id, what = measure.place_id, measure.what
    port = job.frame.ports.get(place_id)
    if port is None and not what.startswith("opening"):
        return _of_staying(what, job)
    if port is None:
        return (Figure(what=ReadWhat.BORE, id=place_id),)
    if what in ("tilt", "wall"):
        return (Figure(what=ReadWhat.LEAN if what == "tilt" else ReadWhat.WALL, id=place_id),)
    if not what.startswith("opening"):
        return _of_staying(what, job)
    seen = find_hole_seen(port=port, is_insert_out=is_insert_taken_out(job=job, port=port))
    return (_hole(place_id, seen.insert),)


def figures_of_check(check: Check, job: Job) -> tuple[Figure, ...]:
    """The figures that would prove a check that is not proven.

    Returns none where no measure would, as for three things that may or may not lie side by side.
    """
    frame = job.frame
    if check.port_id and check.rule in _OF_HOLES:
        return _of_hole(check, frame)
    if check.port_id and check.rule in _OF_WALLS:
        return _of_wall(check, frame)
    if check.run_id and check.rule is PlaceRule.ZONE_BORE:
        is_told = check.room is not None and check.room.opening is not None
        return () if is_told else (_cavity(check, frame),)
    if check.run_id and check.rule in _OF_BENDS:
        return (Figure(what=ReadWhat.BEND, id=check.run_id),)
    return _of_lines(check, job)


def figures_of_contradiction(port_id: str, job: Job) -> tuple[Figure, ...]:
    """The old line lies in a hole that it does not pass by the sizes told: both are read again."""
    port = job.frame.ports[port_id]
    seen = find_hole_seen(port=port, is_insert_out=is_insert_taken_out(job=job, port=port))
    old = () if job.old is None else (Figure(what=LineFigure.OLD_OUTER, id=job.old.line.id),)
    return (_hole(port_id, seen.insert), *old)


def _hole(port_id: str, insert: InsertPlace) -> Figure:
    return Figure(what=ReadWhat.INSERT if insert is InsertPlace.IN else ReadWhat.OPENING, id=port_id)


def _of_hole(check: Check, frame: Frame) -> tuple[Figure, ...]:
    room, port_id = check.room, check.port_id or ""
    if room is None or room.opening is None or is_gauged(room.opening):
        return (_hole(port_id, InsertPlace.NONE if room is None else room.insert),)
    port = frame.ports[port_id]
    lean = (Figure(what=ReadWhat.LEAN, id=port_id),) if port.tilt_tolerance_deg else ()
    wall = (Figure(what=ReadWhat.WALL, id=port_id),) if port.wall_tolerance_mm else ()
    return (*lean, *wall) if check.note == SPREAD else ()


def _of_wall(check: Check, frame: Frame) -> tuple[Figure, ...]:
    port_id = check.port_id or ""
    match check.note:
        case note if note in (HOLE_NOT_MEASURED, GAUGED):
            return (Figure(what=ReadWhat.OPENING, id=port_id),)
        case note if note == CAVITY_NOT_MEASURED:
            return (_cavity(check, frame),)
        case note if note == LOOKS_NOT_TOLD:
            return (Figure(what=ReadWhat.LOOKS, id=port_id),)
        case note if note == SPREAD:
            is_wall_rough = frame.ports[port_id].wall_tolerance_mm > 0
            is_cavity_rough = frame.zones[frame.runs[check.run_id or ""].zone_id].bore_tolerance_mm > 0
            wall = (Figure(what=ReadWhat.WALL, id=port_id),) if is_wall_rough else ()
            return (*wall, _cavity(check, frame)) if is_cavity_rough else wall
        case _:
            return ()


def _cavity(check: Check, frame: Frame) -> Figure:
    return Figure(what=ReadWhat.CAVITY, id=frame.runs[check.run_id or ""].zone_id)


def _of_lines(check: Check, job: Job) -> tuple[Figure, ...]:
    told: dict[Rule, tuple[Figure, ...]] = {
        JointRule.JOINT_BORE: tuple(Figure(what=LineFigure.BORE, id=one) for one in check.with_ids),
        JointRule.CABLE_IN_BORE: (Figure(what=LineFigure.BORE, id=job.new.line.id),),
        JointRule.CABLE_USE: () if job.old is None else (Figure(what=LineFigure.OLD_CABLE, id=job.old.line.id),),
        JointRule.LEADING_JOINT: tuple(
            Figure(what=what, id=one)
            for one in check.with_ids
            for what in (LineFigure.JOINT_OUTER, LineFigure.JOINT_HOLDS)
        ),
    }
    return told.get(check.rule, ())


def _of_staying(what: str, job: Job) -> tuple[Figure, ...]:
    is_one = any(staying.line.id == what for staying in job.staying)
    return (Figure(what=LineFigure.STAYING_OUTER, id=what),) if is_one else ()
