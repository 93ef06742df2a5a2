"""When it sticks or parts: the sheet for a joint that is stuck, or lost inside the frame."""

from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise

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


Sheet = tuple[str, tuple[tuple[str, tuple[str, ...]], ...]]
"""The title of a case with its kinds and their lines."""


def rescue_sheet(plan: RoutingPlan) -> Iterator[Sheet]:
    """The title of each case with its kinds and their lines: what is tried is numbered, the rest is not.

    Yields nothing of what the plan does not tell.
    """
    yield from rescue_of_lines({"": plan})


def rescue_of_lines(plans: Mapping[str, RoutingPlan]) -> Iterator[Sheet]:
    """The same for several lines together: what more than one tells stands once, what is not for all says for which.

    plans : by what each line is called on the sheet
    """
    for case, title in CASE_TITLES.items():
        told = tuple((words, texts) for kind, words in KIND_TITLES.items() if (texts := _lines(plans, case, kind)))
        if told:
            yield title, told


def _lines(plans: Mapping[str, RoutingPlan], case: RescueCase, kind: RescueKind) -> tuple[str, ...]:
    told = {
        name: [line.text for line in plan.rescue if (line.case, line.kind) == (case, kind)]
        for name, plan in plans.items()
        if plan.rescue
    }
    texts = [_for_whom(text, told) for text in _in_order(list(told.values()))]
    if kind is RescueKind.TRY:
        return tuple(f"{number}. {text}" for number, text in enumerate(texts, 1))
    return tuple(f"– {text}" for text in texts)


def _in_order(lists: Sequence[Sequence[str]]) -> list[str]:
    """Every text once, so that those of each list keep their order; where that leaves a choice, list by list."""
    left = dict.fromkeys(text for texts in lists for text in texts)
    pairs = {pair for texts in lists for pair in pairwise(texts)}
    merged: list[str] = []
    while left:
        waiting = {after for before, after in pairs if before in left}
        text = next((each for each in left if each not in waiting), next(iter(left)))
        merged.append(text)
        del left[text]
    return merged


def _for_whom(text: str, told: Mapping[str, Sequence[str]]) -> str:
    names = [name for name, texts in told.items() if text in texts]
    return text if len(names) == len(told) else f"{', '.join(names)}: {text}"


def step_with_rescue(plan: RoutingPlan) -> Step | None:
    """The step the sheet is shown with: the first at which something may stick; None where there is no sheet."""
    return next((step for step in plan.steps if step.shows_rescue), None) if plan.rescue else None
