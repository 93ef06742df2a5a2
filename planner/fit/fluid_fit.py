"""May these two fluids ever meet: in a brake, in an old hose, in a bleed kit?"""

from planner.parts import Brake, Fluid, LineKind, NewLine, OldLine
from planner.parts.fluids import FLUID_FACTS
from planner.rules import PartRule
from planner.verdicts import Check, Outcome


def check_hose_reuse(*, has_held: Fluid | None, is_to_hold: Fluid | None) -> Check:
    """Whether a hose, an olive or a bleed kit that held one fluid may hold another.

    Returns rule "hose_reuse": FITS with note "same_class"; NO_FIT with "never_mix"; UNKNOWN with "fluid_not_known".

    has_held : what was in it; None when not known
    is_to_hold : what is to go in; None when not known

    Source: 49 CFR 571.116 (FMVSS 116) keeps mineral oil, silicone and glycol fluids apart; that hoses follow their
    fluid is common practice, no source.
    """
    if has_held is None or is_to_hold is None:
        return Check(rule=PartRule.HOSE_REUSE, outcome=Outcome.UNKNOWN, note="fluid_not_known")
    if FLUID_FACTS[has_held].fluid_class is FLUID_FACTS[is_to_hold].fluid_class:
        return Check(rule=PartRule.HOSE_REUSE, outcome=Outcome.FITS, note="same_class")
    return Check(rule=PartRule.HOSE_REUSE, outcome=Outcome.NO_FIT, note="never_mix")


def check_fill(*, made_for: Fluid | None, filled_with: Fluid | None) -> Check:
    """Whether a brake may be filled with another fluid than the one it is made for.

    Returns rule "fill": FITS with note "as_made_for" or "boils_higher"; TIGHT with "boils_lower"; NO_FIT with
    "never_mix"; UNKNOWN with "fluid_not_known".

    made_for : what its maker names; None when not known
    filled_with : what is to go in; None when not known

    Source: 49 CFR 571.116 (FMVSS 116), S5.1.1: least boiling points.
    """
    if made_for is None or filled_with is None:
        return Check(rule=PartRule.FILL, outcome=Outcome.UNKNOWN, note="fluid_not_known")
    if made_for is filled_with:
        return Check(rule=PartRule.FILL, outcome=Outcome.FITS, note="as_made_for")
    named, other = FLUID_FACTS[made_for], FLUID_FACTS[filled_with]
    if named.fluid_class is not other.fluid_class:
        return Check(rule=PartRule.FILL, outcome=Outcome.NO_FIT, note="never_mix")
    if named.dry_boiling_c is None or other.dry_boiling_c is None:
        return Check(rule=PartRule.FILL, outcome=Outcome.UNKNOWN, note="fluid_not_known")
    if other.dry_boiling_c < named.dry_boiling_c:
        return Check(rule=PartRule.FILL, outcome=Outcome.TIGHT, note="boils_lower")
    return Check(rule=PartRule.FILL, outcome=Outcome.FITS, note="boils_higher")


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


def _stays(brake: Brake | None) -> Check:
    if brake is None:
        return Check(rule=PartRule.FLUID, outcome=Outcome.UNKNOWN, note="brake_not_known")
    if brake.fluid is None:
        return Check(rule=PartRule.FLUID, outcome=Outcome.UNKNOWN, note="fluid_not_known", with_ids=(brake.id,))
    return Check(rule=PartRule.FLUID, outcome=Outcome.FITS, note="as_the_brake", with_ids=(brake.id,))
