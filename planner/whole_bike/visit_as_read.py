"""A visit with figures as they were read at the bench, before anybody has written them into the catalog."""

from collections.abc import Iterable
from dataclasses import replace

from planner.parts import FigureRead, LineFigure, Visit, VisitLine
from planner.plan.figures_read import frame_as_read, new_as_read, old_as_read, staying_as_read


def visit_as_read(visit: Visit, readings: Iterable[FigureRead]) -> Visit:
    """The visit with every one of these figures in its place, as if the catalog said so.

    A figure of an old line is that of the line named with it alone; one of a line that lies beside another is that of
    every line that lies in the frame and goes by the same id, whether it stays or comes out.

    Raises ValueError for what no plan asks for.
    """
    for one in readings:
        visit = replace(
            visit,
            frame=frame_as_read(visit.frame, one),
            lines=tuple(_line_as_read(line, one) for line in visit.lines),
            staying=tuple(staying_as_read(each, one) for each in visit.staying),
        )
    return visit


def _line_as_read(line: VisitLine, one: FigureRead) -> VisitLine:
    old = line.old
    if old is not None:
        if one.figure.what is LineFigure.STAYING_OUTER:
            beside = replace(one, figure=replace(one.figure, what=LineFigure.OLD_OUTER))
            old = old_as_read(old, beside) if old.line.id == one.figure.id else old
        elif one.figure.of_line in ("", line.id):
            old = old_as_read(old, one)
    return replace(line, old=old, new=None if line.new is None else new_as_read(line.new, one))
