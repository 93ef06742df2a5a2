"""The one work order as it is told: steps alike stand in one row, each caution once, where it is named first."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby

from planner.plan.job_time import whole_minutes
from planner.plan.routing_plan import Step
from planner.whole_bike.visit_plan import VisitPlan, VisitStep


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldStep:
    """One row of the work order.

    numbers : of its steps: 7, or 50–51 where the same is done for one line after the other
    whose : the lines it is done for; all where it is every one
    step : what is done
    cautions : those that no row before it has told
    minutes : likely (least–most), of all its steps together
    """

    numbers: str
    whose: str
    step: Step
    cautions: tuple[str, ...]
    minutes: str


def told_steps(plan: VisitPlan) -> tuple[ToldStep, ...]:
    """The work order of all lines together; a step that the next line has in the same words stands with it."""
    return tuple(_rows(plan))


def _rows(plan: VisitPlan) -> Iterator[ToldStep]:
    told = set(plan.cautions)
    everybody = {line_id for step in plan.order for line_id in step.line_ids}
    for _, found in groupby(plan.steps, key=lambda row: (row.step.part, row.step.id, row.step.text)):
        rows = tuple(found)
        line_ids = tuple(dict.fromkeys(line_id for row in rows for line_id in row.line_ids))
        cautions = dict.fromkeys(caution for row in rows for caution in row.step.cautions)
        new = tuple(caution for caution in cautions if caution not in told)
        told |= set(new)
        first, last = rows[0], rows[-1]
        yield ToldStep(
            numbers=f"{first.n}" if first is last else f"{first.n}–{last.n}",
            whose="all" if set(line_ids) == everybody else ", ".join(line_ids),
            step=first.step,
            cautions=new,
            minutes=_minutes(rows),
        )


def _minutes(rows: tuple[VisitStep, ...]) -> str:
    least, likely, most = (
        whole_minutes(sum(times))
        for times in zip(*((row.step.least_min, row.step.likely_min, row.step.most_min) for row in rows), strict=True)
    )
    return f"{likely} ({least}–{most})"
