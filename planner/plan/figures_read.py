"""A job with figures as they were read at the bench, before anybody has written them into the catalog."""

from collections.abc import Iterable
from dataclasses import replace
from typing import TypeVar

from planner.parts import (
    FigureRead,
    Fitting,
    Frame,
    Job,
    Line,
    LineEnd,
    LineFigure,
    NewLine,
    OldLine,
    Opening,
    Port,
    PortLooks,
    ReadWhat,
)

InJob = TypeVar("InJob", OldLine, NewLine)


def job_as_read(job: Job, readings: Iterable[FigureRead]) -> Job:
    """The job with every one of these figures in its place, as if the catalog said so.

    A figure of the old line, or of one that stays, is that of this line alone; a bore is that of every line of the job
    that goes by the same id.

    Raises ValueError for what no plan asks for: the length of a run, or a guide where there is none.
    """
    for one in readings:
        if isinstance(one.figure.what, ReadWhat):
            job = replace(job, frame=_frame_as_read(job.frame, one, one.figure.what))
        else:
            job = _lines_as_read(job, one, one.figure.what)
    return job


def _frame_as_read(frame: Frame, one: FigureRead, what: ReadWhat) -> Frame:
    id = one.figure.id
    if what is ReadWhat.CAVITY:
        zone = replace(frame.zones[id], bore_diameter_mm=_number(one), bore_tolerance_mm=one.half)
        return replace(frame, zones={**frame.zones, id: zone})
    if what in (ReadWhat.LENGTH, ReadWhat.BORE, ReadWhat.BEND):
        run = frame.runs[id]
        guide = run.guide
        if guide is None or what is ReadWhat.LENGTH:
            raise ValueError(f"no plan asks for the {what} of {id}")
        if what is ReadWhat.BORE:
            off_mm = one.half or guide.tolerance_mm
            guide = replace(guide, bore_diameter_mm=_number(one), tolerance_mm=off_mm)
        else:
            guide = replace(guide, bend_radius_mm=_number(one))
        return replace(frame, runs={**frame.runs, id: replace(run, guide=guide)})
    return replace(frame, ports={**frame.ports, id: _port_as_read(frame.ports[id], one, what)})


def _port_as_read(port: Port, one: FigureRead, what: ReadWhat) -> Port:
    match what:
        case ReadWhat.LEAN:
            return replace(port, tilt_deg=_number(one), tilt_tolerance_deg=one.half)
        case ReadWhat.WALL:
            return replace(port, wall_thickness_mm=_number(one), wall_tolerance_mm=one.half)
        case ReadWhat.LOOKS:
            return replace(port, looks=PortLooks(str(one.value)))
        case ReadWhat.INSERT if port.insert is not None:
            return replace(port, insert=replace(port.insert, opening=_opening(one)))
        case _:
            return replace(port, opening=_opening(one))


def _lines_as_read(job: Job, one: FigureRead, what: LineFigure) -> Job:
    id, value = one.figure.id, _number(one)
    old = job.old
    match what:
        case LineFigure.OLD_OUTER if old is not None:
            return replace(job, old=replace(old, line=_as_thick(old.line, one)))
        case LineFigure.OLD_CABLE if old is not None:
            return replace(job, old=replace(old, line=replace(old.line, cable_diameter_mm=value)))
        case LineFigure.STAYING_OUTER:
            thick = (
                replace(each, line=_as_thick(each.line, one)) if each.line.id == id else each for each in job.staying
            )
            return replace(job, staying=tuple(thick))
        case LineFigure.BORE:
            return replace(
                job, old=None if old is None else _with_bore(old, id, value), new=_with_bore(job.new, id, value)
            )
        case LineFigure.JOINT_OUTER | LineFigure.JOINT_HOLDS:
            old = None if old is None else _with_joint(old, id, what, value)
            return replace(job, old=old, new=_with_joint(job.new, id, what, value))
        case _:
            return job


def _as_thick(line: Line, one: FigureRead) -> Line:
    off_mm = one.half or line.outer_tolerance_mm
    return replace(line, outer_diameter_mm=_number(one), outer_tolerance_mm=off_mm)


def _with_bore(told: InJob, line_id: str, bore_mm: float) -> InJob:
    return replace(told, line=replace(told.line, bore_diameter_mm=bore_mm)) if told.line.id == line_id else told


def _with_joint(told: InJob, fitting_id: str, what: LineFigure, value: float) -> InJob:
    def read(fitting: Fitting) -> Fitting:
        if what is LineFigure.JOINT_OUTER:
            return replace(fitting, joint_diameter_mm=value)
        return replace(fitting, joint_holds_n=value)

    def end_as_read(end: LineEnd) -> LineEnd:
        is_it = end.fitting is not None and end.fitting.id == fitting_id
        return replace(end, fitting=read(end.fitting)) if is_it and end.fitting is not None else end

    return replace(told, from_end=end_as_read(told.from_end), to_end=end_as_read(told.to_end))


def _number(one: FigureRead) -> float:
    assert isinstance(one.value, int | float), "a figure with a unit is a number"
    return float(one.value)


def _opening(one: FigureRead) -> Opening:
    assert not isinstance(one.value, int | float | str), "a hole is read as its opening"
    return one.value
