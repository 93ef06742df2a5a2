"""The work in stretches: what each is called, and which steps it holds."""

from collections.abc import Iterator
from itertools import groupby

from planner.parts import WorkPart
from planner.plan.routing_plan import RoutingPlan, Step

PART_TITLES = {
    WorkPart.BEFORE: "Before anything is touched",
    WorkPart.OPEN: "Open the brake",
    WorkPart.FREE: "Free the old line",
    WorkPart.THROUGH: "Through the frame",
    WorkPart.ON: "Parts and ends on",
    WorkPart.CLOSE: "Close and adjust",
    WorkPart.PROVE: "Prove it",
    None: "Work",
}


def steps_by_part(plan: RoutingPlan) -> Iterator[tuple[str, tuple[Step, ...]]]:
    """The title of every stretch of the work with its steps, in order."""
    for part, steps in groupby(plan.steps, key=lambda step: step.part):
        yield PART_TITLES[part], tuple(steps)
