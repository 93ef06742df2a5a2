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
    StayingLine,
)

InJob = TypeVar("InJob", OldLine, NewLine)


def job_as_read(job: Job, readings: Iterable[FigureRead]) -> Job:
    """The job with every one of these figures in its place, as if the catalog said so.

    A figure of the old line, or of one that stays, is that of this line alone; a bore is that of every line of the job
    that goes by the same id.

    Raises ValueError for what no plan asks for: the length of a run, or a guide where there is none.
    """
    for one in readings:
        job = replace(
            job,
            frame=frame_as_read(job.frame, one),
            old=None if job.old is None else old_as_read(job.old, one),
            new=new_as_read(job.new, one),
            staying=tuple(staying_as_read(each, one) for each in job.staying),
        )
    return job


def frame_as_read(frame: Frame, one: FigureRead) -> Frame:
    """The frame with this figure in its place; as it was where it is not the frame's.

    Raises ValueError for what no plan asks for: the length of a run, or a guide where there is none.
    """
    what, id = one.figure.what, one.figure.id
    if not isinstance(what, ReadWhat):
        return frame
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


def old_as_read(old: OldLine, one: FigureRead) -> OldLine:
    """The old line with this figure in its place, where it is a figure of it."""
    match one.figure.what:
        case LineFigure.OLD_OUTER:
            return replace(old, line=_as_thick(old.line, one))
        case LineFigure.OLD_CABLE:
            return replace(old, line=replace(old.line, cable_diameter_mm=_number(one)))
    return _told_as_read(old, one)


def new_as_read(new: NewLine, one: FigureRead) -> NewLine:
    """The new line with this figure in its place, where it is a figure of it."""
    return _told_as_read(new, one)


def staying_as_read(staying: StayingLine, one: FigureRead) -> StayingLine:
    """A line that stays with this figure in its place, where it is a figure of it."""
    is_it = one.figure.what is LineFigure.STAYING_OUTER and staying.line.id == one.figure.id
    return replace(staying, line=_as_thick(staying.line, one)) if is_it else staying


def _told_as_read(told: InJob, one: FigureRead) -> InJob:
    match one.figure.what:
        case LineFigure.BORE:
            return _with_bore(told, one.figure.id, _number(one))
        case LineFigure.JOINT_OUTER | LineFigure.JOINT_HOLDS:
            return _with_joint(told, one)
    return told


def _as_thick(line: Line, one: FigureRead) -> Line:
    off_mm = one.half or line.outer_tolerance_mm
    return replace(line, outer_diameter_mm=_number(one), outer_tolerance_mm=off_mm)


def _with_bore(told: InJob, line_id: str, bore_mm: float) -> InJob:
    return replace(told, line=replace(told.line, bore_diameter_mm=bore_mm)) if told.line.id == line_id else told


def _with_joint(told: InJob, one: FigureRead) -> InJob:
    value = _number(one)

    def read(fitting: Fitting) -> Fitting:
        if one.figure.what is LineFigure.JOINT_OUTER:
            return replace(fitting, joint_diameter_mm=value)
        return replace(fitting, joint_holds_n=value)

    def end_as_read(end: LineEnd) -> LineEnd:
        is_it = end.fitting is not None and end.fitting.id == one.figure.id
        return replace(end, fitting=read(end.fitting)) if is_it and end.fitting is not None else end

    return replace(told, from_end=end_as_read(told.from_end), to_end=end_as_read(told.to_end))


def _number(one: FigureRead) -> float:
    assert isinstance(one.value, int | float), "a figure with a unit is a number"
    return float(one.value)


def _opening(one: FigureRead) -> Opening:
    assert not isinstance(one.value, int | float | str), "a hole is read as its opening"
    return one.value
