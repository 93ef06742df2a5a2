"""Work steps and cautions: what the mechanic does, in order, why, and what can hurt."""

from typing import Annotated

from pydantic import AfterValidator, Field
from pydantic_core import PydanticCustomError

from catalog.fields import Id, Sentence, StepMinutes, YesNo
from catalog.sources import NamedEntry

FACTS = frozenset(
    {
        "hydraulic",
        "mechanical",
        "electric",
        "shift",
        "joined",
        "leader",
        "empty_frame",
        "method:threaded_coupler",
        "method:sleeve_tube",
        "method:spoke_link",
        "method:leader_line",
        "holds_nothing",
        "inserts_out",
        "old_hydraulic",
        "keeps_old_brake",
        "leading_end_bare",
        "sets_leading_fitting",
        "sets_trailing_fitting",
        "trims",
        "has_staying_lines",
        "fluid:glycol",
        "fluid:mineral",
        "fluid:silicone",
        "carbon",
        "brake",
        "advice:push_only",
        "advice:ease_gently",
        "advice:may_pull",
    }
)
"""What a step or a caution may ask about a plan."""

PLACEHOLDERS = frozenset(
    {
        "method",
        "cut_end",
        "feed_end",
        "far_end",
        "ease_up_to_n",
        "cut_length_mm",
        "route",
        "leading_fitting",
        "trailing_fitting",
        "new_line",
        "old_line",
        "joint_diameter_mm",
        "holds_n",
        "inserts",
        "frame",
        "from_anchor",
        "to_anchor",
    }
)
"""What a sentence may quote from a plan, between braces."""

Facts = Annotated[tuple[str, ...], Field(title="facts", description="Facts of the plan it depends on.")]


def _in_order(minutes: tuple[float, float, float]) -> tuple[float, float, float]:
    if not minutes[0] <= minutes[1] <= minutes[2]:
        raise PydanticCustomError("not_in_order", "minutes that do not grow")
    return minutes


class StepEntry(NamedEntry):
    """One step of the work order."""

    text: Sentence
    why: Sentence
    cautions: tuple[Id, ...] = ()
    when: Facts = ()
    unless: Facts = ()
    minutes: Annotated[
        tuple[StepMinutes, StepMinutes, StepMinutes],
        AfterValidator(_in_order),
        Field(title="minutes", description="[least, likely, most], growing."),
    ]
    redone: Annotated[YesNo, Field(description="Whether it is done again when the joint comes apart on the way.")] = (
        False
    )


class CautionEntry(NamedEntry):
    """One thing that can hurt, with whom to defer to."""

    text: Sentence
    when: Facts = ()
    unless: Facts = ()
