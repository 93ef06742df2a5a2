"""May this end of the line lead through the frame, may the old line be cut there, and do the fluids stay apart?"""

from planner.fit.fluid_fit import may_old_fluid_meet_new
from planner.parts import LineEnd, MethodKind, NewLine, OldLine, SetBy
from planner.rules import JointRule
from planner.verdicts import Check, Outcome, State


def check_leading_end_can_be_set(*, leading_end: LineEnd) -> Check:
    """Whether the end that goes through the frame bare can get its fitting afterwards.

    A factory-crimped fitting that is not on the line yet cannot be put on in a workshop.

    Returns rule "leading_end".

    leading_end : the new line's end that goes through the frame

    Common practice, no source: crimping takes the maker's press.
    """
    fitting = leading_end.fitting
    must_be_set = fitting is not None and not leading_end.is_fitted
    cannot_be_set = fitting is not None and must_be_set and fitting.set_by is SetBy.FACTORY
    return Check(
        rule=JointRule.LEADING_END,
        outcome=Outcome.NO_FIT if cannot_be_set else Outcome.FITS,
        state=State.DRAWING,
        with_ids=() if fitting is None else (fitting.id,),
    )


def check_old_end_may_be_cut(*, cut_end: LineEnd, keeps_old_brake: bool) -> Check:
    """Whether the old line may be cut at the end the new one is fed from.

    An old brake that is to be used again may be cut only where the workshop can set its fitting again.

    cut_end : the old line's end at that side
    keeps_old_brake : whether the old brake is to be used again
    """
    fitting = cut_end.fitting
    spoils_brake = keeps_old_brake and fitting is not None and fitting.set_by is SetBy.FACTORY
    return Check(
        rule=JointRule.CUT_END,
        outcome=Outcome.NO_FIT if spoils_brake else Outcome.FITS,
        state=State.DRAWING,
        with_ids=() if fitting is None else (fitting.id,),
    )


def check_bores_stay_apart(*, method_kind: MethodKind, old: OldLine, new: NewLine) -> Check | None:
    """Whether the joint keeps the old line's fluid out of the new line's bore.

    A stud closes the bore and under a sleeve a plug does; a spoke lies in both bores, and nothing closes them.

    Returns rule "fluid_barrier"; None where the joint closes the bore, or the two fluids may meet.

    Common practice, no source; that the classes never meet: 49 CFR 571.116 (FMVSS 116).
    """
    may_meet = may_old_fluid_meet_new(old=old, new=new)
    if method_kind is not MethodKind.SPOKE_LINK or may_meet:
        return None
    return Check(
        rule=JointRule.FLUID_BARRIER,
        outcome=Outcome.UNKNOWN if may_meet is None else Outcome.NO_FIT,
        state=State.DRAWING,
        with_ids=(old.line.id, new.line.id),
    )
