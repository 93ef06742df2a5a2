"""When it sticks or parts: the sheet for a joint that is stuck, or lost inside the frame."""

from collections.abc import Iterator

from planner.parts import RescueCase, RescueKind
from planner.plan.routing_plan import RoutingPlan, Step

CASE_TITLES = {
    RescueCase.STUCK: "When it sticks",
    RescueCase.PARTED: "When the joint parts, or a piece is lost inside",
}
KIND_TITLES = {
    RescueKind.NEVER: "Never",
    RescueKind.TRY: "Try, in this order",
    RescueKind.STOP: "Stop and ask the maker",
}


def rescue_sheet(plan: RoutingPlan) -> Iterator[tuple[str, tuple[tuple[str, tuple[str, ...]], ...]]]:
    """The title of each case with its kinds and their lines: what is tried is numbered, the rest is not.

    Yields nothing of what the plan does not tell.
    """
    for case, title in CASE_TITLES.items():
        told = tuple((words, texts) for kind, words in KIND_TITLES.items() if (texts := _lines(plan, case, kind)))
        if told:
            yield title, told


def _lines(plan: RoutingPlan, case: RescueCase, kind: RescueKind) -> tuple[str, ...]:
    texts = [line.text for line in plan.rescue if (line.case, line.kind) == (case, kind)]
    if kind is RescueKind.TRY:
        return tuple(f"{number}. {text}" for number, text in enumerate(texts, 1))
    return tuple(f"– {text}" for text in texts)


def step_with_rescue(plan: RoutingPlan) -> Step | None:
    """The step the sheet is shown with: the first at which something may stick; None where there is no sheet."""
    return next((step for step in plan.steps if step.shows_rescue), None) if plan.rescue else None
