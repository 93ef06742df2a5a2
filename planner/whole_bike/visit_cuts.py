"""The new lines of a visit as a cut list asks for them: each with its own plan in the order found."""

from dataclasses import replace

from planner.parts import Visit, VisitLine, Workshop
from planner.plan.job_cuts import PlannedLine
from planner.plan.plan_builder import blank_plan
from planner.whole_bike.line_ways import job_of_line
from planner.whole_bike.visit_builder import plan_visit


def lines_to_cut(*, visit: Visit, workshop: Workshop) -> tuple[PlannedLine, ...]:
    """Every new line of a visit with its plan, made as if the supplied lines were long enough.

    Where no order works there is no plan for any of them, and where the order is not proven none is to be cut.

    Returns in the visit's own order of lines.

    Raises OldWayNotToldError as `plan_visit` does.
    """
    plan = plan_visit(visit=replace(visit, lines=tuple(map(_long_enough, visit.lines))), workshop=workshop)
    found = {line.line_id: line.plan for line in plan.lines} if plan.order else {}
    new = [line for line in visit.lines if line.new is not None]
    jobs = {line.id: job_of_line(visit=visit, line=line) for line in new}
    return tuple(
        PlannedLine(job=job, plan=found.get(line_id) or blank_plan(job, workshop, plan.outcome))
        for line_id, job in jobs.items()
    )


def _long_enough(line: VisitLine) -> VisitLine:
    return line if line.new is None else replace(line, new=replace(line.new, supplied_length_mm=None))
