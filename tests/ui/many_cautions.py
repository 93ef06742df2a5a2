"""A plan that warns of more than the alphabet has letters for."""

from dataclasses import replace

from planner.plan.routing_plan import RoutingPlan, Step
from tests.planner.documents.drawing_samples import make_plan

CAUTIONS = tuple(f"Danger number {number}." for number in range(1, 31))


def plan_with_many_cautions() -> RoutingPlan:
    """Thirty dangers: three of the whole job, the others of one step after the other, the last two of two steps."""
    each = [(caution,) for caution in CAUTIONS[3:28]] + [CAUTIONS[28:]] * 2
    steps = tuple(
        Step(
            n=number,
            id=f"step-{number}",
            text=f"Do thing {number}.",
            why="It must be done.",
            cautions=cautions,
            least_min=1.0,
            likely_min=2.0,
            most_min=3.0,
        )
        for number, cautions in enumerate(each, start=1)
    )
    return replace(make_plan(), checks=(), cautions=CAUTIONS[:3], steps=steps)
