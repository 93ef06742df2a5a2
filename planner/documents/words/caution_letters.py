"""The letters of cautions: told once in full, then named by their letter at every step they belong to."""

from planner.plan.routing_plan import RoutingPlan


def caution_letters(plan: RoutingPlan) -> dict[str, str]:
    """The letter of every caution of a plan, by its sentence; those of the whole job first."""
    sentences = dict.fromkeys((*plan.cautions, *(caution for step in plan.steps for caution in step.cautions)))
    return {sentence: _letter(number) for number, sentence in enumerate(sentences)}


def _letter(number: int) -> str:
    """A to Z, then AA, AB and so on; counted from 0."""
    before, last = divmod(number, 26)
    return (_letter(before - 1) if before else "") + chr(ord("A") + last)
