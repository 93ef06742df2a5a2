"""A pair's row: its two answers and the supplied length put together."""

from dataclasses import dataclass

from planner.rules import LengthRule
from planner.table.answers import Decider, PartsAnswer, WayAnswer
from planner.verdicts import Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """Whether one brake goes on one frame, and what it takes.

    outcome : of all together
    way, parts : the two answers it is made of; of the parts nothing is asked where nothing gets through
    decider : what decides
    spare_mm : supplied length minus cut; negative is what is missing; None when either is not known
    """

    outcome: Outcome
    way: WayAnswer
    parts: PartsAnswer | None
    decider: Decider
    spare_mm: float | None


def join_answers(*, way: WayAnswer, parts: PartsAnswer, supplied_mm: float | None) -> Decision:
    """One row.

    supplied_mm : length of the line as supplied; None when not measured
    """
    if not way.has_way:
        return Decision(outcome=way.outcome, way=way, parts=None, decider=way.decider, spare_mm=None)
    spare_mm = None if way.cut_mm is None or supplied_mm is None else supplied_mm - way.cut_mm
    if spare_mm is not None and spare_mm < 0:
        short = Decider(rule=LengthRule.SUPPLIED_LENGTH.value, clearance_mm=spare_mm)
        return Decision(outcome=Outcome.NO_FIT, way=way, parts=parts, decider=short, spare_mm=spare_mm)
    outcome = max(way.outcome, parts.outcome)
    decider = way.decider if way.outcome >= parts.outcome else parts.decider
    return Decision(outcome=outcome, way=way, parts=parts, decider=decider, spare_mm=spare_mm)
