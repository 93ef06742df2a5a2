"""May this end of the line lead through the frame, and may the old line be cut at that end?"""

from planner.parts import LineEnd, SetBy
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
