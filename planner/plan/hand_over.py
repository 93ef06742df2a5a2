"""What is written down when a bicycle is handed back: what went in, what was read, who looked again."""

from collections.abc import Sequence
from dataclasses import replace
from enum import StrEnum

from planner.parts import Workshop
from planner.plan.routing_plan import RoutingPlan, Step
from planner.quick_dataclass import dataclass

FLUID_NEED = "fluid:"


class Finding(StrEnum):
    """What a look or a pull at the lever found."""

    RIGHT = "right"
    NOT_RIGHT = "not_right"


@dataclass(frozen=True, slots=True, kw_only=True)
class LengthFitted:
    """A new line as planned and as it was put in.

    line_name : for people
    planned_mm : what it was to be trimmed to; None where the plan has no length, or the line is not cut [mm]
    fitted_mm : as measured once it lay there; None for not recorded [mm]
    """

    line_name: str
    planned_mm: float | None
    fitted_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TorqueRead:
    """What the wrench showed.

    bolts : which bolts, and the step of the work order that tightens them for good
    read_nm : None for not recorded [N m]
    """

    bolts: str
    read_nm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class HandOver:
    """The record of one job when it is handed back; whatever nobody filled in is not recorded.

    fluids_planned : fluids by class, as the job needs them
    fluid : what was filled in, with its maker's name and lot; "" for not recorded
    lengths, torques : one for each new line, and for each step that tightens something
    lever_feel, leaks : what was found; None for not recorded
    looked_again_by : another person who looked over the work; "" for not recorded
    done_by, received_by : who answers for the work, who took the bicycle; "" for not recorded
    day : it was handed over, as year-month-day; "" for not recorded
    note : whatever else should be known
    """

    fluids_planned: tuple[str, ...] = ()
    fluid: str = ""
    lengths: tuple[LengthFitted, ...] = ()
    torques: tuple[TorqueRead, ...] = ()
    lever_feel: Finding | None = None
    leaks: Finding | None = None
    looked_again_by: str = ""
    done_by: str = ""
    received_by: str = ""
    day: str = ""
    note: str = ""

    @property
    def is_wrong(self) -> bool:
        """Whether something was found that must be put right before anybody rides."""
        return Finding.NOT_RIGHT in (self.lever_feel, self.leaks)


def hand_over_asked(*, plans: Sequence[RoutingPlan], steps: Sequence[Step], workshop: Workshop) -> HandOver:
    """An empty record with a row for everything that the plan and its steps let one expect.

    plans : one for each new line
    steps : of the one work order, numbered as there
    workshop : its cautions tell which steps have a torque to read though they do not say what they tighten
    """
    needs = [need for plan in plans for need in plan.needs if need.startswith(FLUID_NEED)]
    asking = {caution.id for caution in workshop.cautions.values() if caution.asks_torque}
    tightening = {step.id for step in workshop.steps if asking & set(step.cautions)}
    return HandOver(
        fluids_planned=tuple(dict.fromkeys(need.removeprefix(FLUID_NEED) for need in needs)),
        lengths=tuple(_length(plan) for plan in plans),
        torques=tuple(
            TorqueRead(bolts=f"Step {step.n}: {step.tightens or step.short or step.text}")
            for step in steps
            if step.tightens or step.id in tightening
        ),
    )


def carried_over(asked: HandOver, kept: HandOver) -> HandOver:
    """What was recorded, on the rows that are asked now; what is on a row that is not asked any more stays below."""
    lengths = {(row.line_name, row.planned_mm): row for row in kept.lengths}
    torques = {row.bolts: row for row in kept.torques}
    wanted_lengths = tuple(lengths.pop((row.line_name, row.planned_mm), row) for row in asked.lengths)
    wanted_torques = tuple(torques.pop(row.bolts, row) for row in asked.torques)
    return replace(
        kept,
        fluids_planned=asked.fluids_planned,
        lengths=(*wanted_lengths, *(row for row in lengths.values() if row.fitted_mm is not None)),
        torques=(*wanted_torques, *(row for row in torques.values() if row.read_nm is not None)),
    )


def _length(plan: RoutingPlan) -> LengthFitted:
    lengths = plan.lengths
    planned_mm = lengths.final_mm if lengths is not None and lengths.is_cut else None
    return LengthFitted(line_name=plan.new_line_name, planned_mm=planned_mm)
