"""May anything wet of the old brake touch the new one?

Another class is a question, for nothing wet is used again; mixing is a no.
"""

from planner.parts import Brake, LineKind, NewLine, OldLine
from planner.parts.fluids import FLUID_FACTS
from planner.rules import PartRule
from planner.verdicts import Check, Outcome


def check_fluid_of_job(*, old: OldLine | None, new: NewLine) -> Check | None:
    """Whether anything wet of the old brake may touch the new one.

    Returns rule "fluid": FITS with note "same_class", "new_system" (nothing wet was there) or "as_the_brake" (a bare
    hose for the brake that stays); TIGHT with "keep_apart" (another class: nothing wet of the old brake is used
    again) or "old_fluid_not_known" (treated the same); UNKNOWN with "fluid_not_known" or "brake_not_known". None
    where the new line carries no fluid.

    old : the line that comes out; None for an empty frame

    Source: 49 CFR 571.116 (FMVSS 116) keeps the classes apart; common practice, no source, for the rest.
    """
    if new.line.kind is not LineKind.HYDRAULIC_HOSE:
        return None
    was_wet = old is not None and old.line.kind is LineKind.HYDRAULIC_HOSE
    old_brake = old.brake if old is not None and was_wet else None
    if new.brake is None:
        return _stays(old_brake)
    if new.brake.fluid is None:
        return Check(rule=PartRule.FLUID, outcome=Outcome.UNKNOWN, note="fluid_not_known", with_ids=(new.brake.id,))
    if not was_wet:
        return Check(rule=PartRule.FLUID, outcome=Outcome.FITS, note="new_system", with_ids=(new.brake.id,))
    if old_brake is None or old_brake.fluid is None:
        return Check(rule=PartRule.FLUID, outcome=Outcome.TIGHT, note="old_fluid_not_known", with_ids=(new.brake.id,))
    is_same = FLUID_FACTS[old_brake.fluid].fluid_class is FLUID_FACTS[new.brake.fluid].fluid_class
    return Check(
        rule=PartRule.FLUID,
        outcome=Outcome.FITS if is_same else Outcome.TIGHT,
        note="same_class" if is_same else "keep_apart",
        with_ids=(old_brake.id, new.brake.id),
    )


def may_old_fluid_meet_new(*, old: OldLine | None, new: NewLine) -> bool | None:
    """Whether a trace of the old line's fluid in the new line does no harm.

    False for another class; None for an old hose whose fluid nobody told, which is treated as another.
    """
    check = check_fluid_of_job(old=old, new=new)
    if check is None or check.outcome is not Outcome.TIGHT:
        return True
    return None if check.note == "old_fluid_not_known" else False


def _stays(brake: Brake | None) -> Check:
    if brake is None:
        return Check(rule=PartRule.FLUID, outcome=Outcome.UNKNOWN, note="brake_not_known")
    if brake.fluid is None:
        return Check(rule=PartRule.FLUID, outcome=Outcome.UNKNOWN, note="fluid_not_known", with_ids=(brake.id,))
    return Check(rule=PartRule.FLUID, outcome=Outcome.FITS, note="as_the_brake", with_ids=(brake.id,))
