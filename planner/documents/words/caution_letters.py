"""The letters of cautions: told once in full, at the first step they belong to, then named by their letter."""

from planner.plan.routing_plan import RoutingPlan, Step


def caution_letters(plan: RoutingPlan) -> dict[str, str]:
    """The letter of every caution of a plan, by its sentence; those of the whole job first."""
    sentences = dict.fromkeys((*plan.cautions, *(caution for step in plan.steps for caution in step.cautions)))
    return {sentence: _letter(number) for number, sentence in enumerate(sentences)}


def told_first(plan: RoutingPlan, step: Step) -> tuple[str, ...]:
    """The cautions that are told in full at a step: those that no step before it has told, nor the whole job."""
    told = {*plan.cautions, *(caution for before in plan.steps if before.n < step.n for caution in before.cautions)}
    return tuple(caution for caution in dict.fromkeys(step.cautions) if caution not in told)


def _letter(number: int) -> str:
    """A to Z, then AA, AB and so on; counted from 0."""
    before, last = divmod(number, 26)
    return (_letter(before - 1) if before else "") + chr(ord("A") + last)
