"""Lines and fittings as the round things that places are asked about."""

from planner.parts import Fitting, Line
from planner.verdicts import Thing, ThingKind


def thing_of_line(line: Line) -> Thing:
    """A line by its outside, with its tolerance, or by the squeezed sleeve over it; it bends all along."""
    diameter_mm = max(line.outer_diameter_mm, line.foam_diameter_mm or 0.0)
    return Thing(id=line.id, kind=ThingKind.LINE, diameter_mm=diameter_mm, tolerance_mm=line.outer_tolerance_mm)


def thing_of_fitting(fitting: Fitting) -> Thing:
    """A fitting by its largest outside and its whole length; its sizes are taken as exact."""
    return Thing(
        id=fitting.id,
        kind=ThingKind.FITTING,
        diameter_mm=fitting.outer_diameter_mm,
        tolerance_mm=0.0,
        rigid_length_mm=fitting.length_mm,
    )
