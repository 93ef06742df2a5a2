"""A brake without what only people call it or pay for it: brakes that look alike have the same answers."""

from dataclasses import replace

from planner.parts import Brake, Fitting, Line, LineEnd


def look_of(brake: Brake) -> Brake:
    """The brake by its values alone: no ids, names, prices or small parts."""
    return replace(
        brake,
        id="",
        name="",
        price=None,
        line=_line(brake.line),
        lever_end=_end(brake.lever_end),
        caliper_end=_end(brake.caliper_end),
    )


def _line(line: Line) -> Line:
    return replace(line, id="", name="", price_per_m=None)


def _end(end: LineEnd) -> LineEnd:
    return end if end.fitting is None else replace(end, fitting=_fitting(end.fitting))


def _fitting(fitting: Fitting) -> Fitting:
    return replace(fitting, id="", name="", price=None, uses=())
