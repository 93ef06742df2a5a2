"""The steps of a job as they are worked at the bench, of one line or of several."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from ui.shared.bench_work import estimate_of
from ui.shared.planned_job import PlannedJob
from ui.shared.planned_visit import Planned

if TYPE_CHECKING:
    from planner import RoutingPlan, Step
    from planner.parts import Frame


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchStep:
    """One step at the bench.

    n : number, from 1
    whose : the lines it is done for, where there are several in the job; "" where there is one
    step : what is done
    plan : of the line it is done for, the first where it is done for several; None for one that is only taken out
    """

    n: int
    whose: str
    step: "Step"
    plan: "RoutingPlan | None"


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchPlan:
    """What is worked by at the bench.

    frame : that is worked on
    steps : in the order of the hands
    estimate_min : of the whole work, repeats counted; None where there is none [min]
    """

    frame: "Frame"
    steps: tuple[BenchStep, ...]
    estimate_min: float | None


def bench_plan_of(planned: Planned) -> BenchPlan:
    """What is worked by, of a job of one line or of several."""
    if isinstance(planned, PlannedJob):
        plan = planned.plan
        steps = tuple(BenchStep(n=step.n, whose="", step=step, plan=plan) for step in plan.steps)
        return BenchPlan(frame=planned.job.frame, steps=steps, estimate_min=estimate_of(plan))
    visit = planned.plan
    plans = {line.line_id: line.plan for line in visit.lines if line.plan is not None}
    everybody = {line_id for one in visit.order for line_id in one.line_ids}
    rows = tuple(
        BenchStep(
            n=row.n,
            whose="all lines" if everybody <= set(row.line_ids) else ", ".join(row.line_ids),
            step=row.step,
            plan=next((plans[line_id] for line_id in row.line_ids if line_id in plans), None),
        )
        for row in visit.steps
    )
    estimate = None if visit.totals is None else float(visit.totals.time.mean_min)
    return BenchPlan(frame=planned.visit.frame, steps=rows, estimate_min=estimate)
