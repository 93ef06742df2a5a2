"""What to measure first in a visit: what its lines ask for, and its figures; what several ask for is told once."""

from dataclasses import replace

from planner.documents.words.measure_words import first_figures_asked, measures_told
from planner.parts import Figure, LineFigure, Visit
from planner.whole_bike.line_ways import job_of_line
from planner.whole_bike.visit_plan import VisitPlan


def visit_measures_told(plan: VisitPlan) -> dict[str, tuple[str, ...]]:
    """What is to be measured first, told once with the lines that ask for it; also where no order was found."""
    found: dict[str, tuple[str, ...]] = {}
    for line in plan.lines:
        for item in measures_told(line.plan) if line.plan is not None else ():
            found[item.reason] = (*found.get(item.reason, ()), line.line_id)
    return found


def first_figures_of_visit(plan: VisitPlan, visit: Visit) -> tuple[Figure, ...]:
    """The first figures that each line asks for, each once; those of an old line with the line it belongs to.

    visit : what was planned
    """
    lines = {line.id: line for line in visit.lines}
    lie_there = {line.old.line.id for line in visit.lines if line.old} | {each.line.id for each in visit.staying}
    found: list[Figure] = []
    for line in plan.lines:
        if line.plan is None:
            continue
        job = line.job or job_of_line(visit=visit, line=lines[line.line_id])
        for figure in first_figures_asked(line.plan, job):
            if figure.what in (LineFigure.OLD_OUTER, LineFigure.OLD_CABLE):
                found.append(replace(figure, of_line=line.line_id))
            elif figure.what is not LineFigure.STAYING_OUTER or figure.id in lie_there:
                found.append(figure)
    return tuple(dict.fromkeys(found))
