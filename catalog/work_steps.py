"""Work steps, cautions and rescues: what the mechanic does, in order, why, what can hurt, what to do when it sticks."""

from typing import Annotated

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from catalog.fields import GiveOrTake, Id, Name, Note, Sentence, StepMinutes, YesNo
from catalog.sources import NamedEntry
from planner.parts import Fact, Measured, RescueCase, RescueKind, WorkPart

Facts = Annotated[
    tuple[Annotated[str, Field(json_schema_extra={"enum": [*Fact]})], ...],
    Field(title="facts", description="Facts of the plan it depends on."),
]
"""Texts, so that a misspelt fact is told together with everything else that is wrong with the step."""


def _in_order(minutes: tuple[float, float, float]) -> tuple[float, float, float]:
    if not minutes[0] <= minutes[1] <= minutes[2]:
        raise PydanticCustomError("not_in_order", "minutes that do not grow")
    return minutes


class StepEntry(NamedEntry):
    """One step of the work order."""

    text: Sentence
    why: Sentence
    short: Annotated[Sentence | None, Field(description="The text in a few words, for the plan in short.")] = None
    tightens: Annotated[
        Sentence | None,
        Field(
            title="tightens",
            description="Bolts it tightens for good; the hand-over record asks for their torque.",
        ),
    ] = None
    part: Annotated[
        WorkPart | None, Field(title="part", description="The stretch of the work; left out, that of the step before.")
    ] = None
    cautions: tuple[Id, ...] = ()
    when: Facts = ()
    when_any: Facts = ()
    unless: Facts = ()
    minutes: Annotated[
        tuple[StepMinutes, StepMinutes, StepMinutes],
        AfterValidator(_in_order),
        Field(title="minutes", description="[least, likely, most], growing."),
    ]
    redone: Annotated[YesNo, Field(description="Whether it is done again when the joint comes apart on the way.")] = (
        False
    )
    rescue: Annotated[YesNo, Field(description="Whether what to do when it sticks or parts is shown with it.")] = False
    once: Annotated[
        YesNo, Field(description="Whether once is enough where several lines are changed in one visit.")
    ] = False


class CautionEntry(NamedEntry):
    """One thing that can hurt, with whom to defer to."""

    text: Sentence
    short: Annotated[Sentence | None, Field(description="The same in a few words, for the plan in short.")] = None
    when: Facts = ()
    when_any: Facts = ()
    unless: Facts = ()
    torque: Annotated[
        YesNo,
        Field(
            title="torque",
            description="Whether it is told where something is tightened; steps that name it have a torque to read.",
        ),
    ] = False


class RescueEntry(NamedEntry):
    """What to do, or never to do, when a line sticks or a joint parts inside the frame."""

    case: Annotated[RescueCase, Field(title="case", description="What went wrong.")]
    kind: Annotated[RescueKind, Field(title="kind", description="Never this, try that, or stop here.")]
    text: Sentence
    when: Facts = ()
    when_any: Facts = ()
    unless: Facts = ()


class AtHandEntry(NamedEntry):
    """A tool or supply that must lie within reach before the job begins."""

    text: Sentence
    when: Facts = ()
    when_any: Facts = ()
    unless: Facts = ()


class MeasureEntry(NamedEntry):
    """With which tool a thing at the bicycle is measured, and how well."""

    of: Annotated[Measured, Field(title="of", description="What is measured.")]
    tool: Annotated[Name, Field(title="tool", description="What it is measured with.")]
    give_or_take: GiveOrTake | None = None
    hint: Annotated[Note, Field(title="hint", description="What spoils the reading.")] = ""
