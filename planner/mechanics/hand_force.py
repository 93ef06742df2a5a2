"""What a mechanical line loses on its way: the share of the hand's force that the housing keeps."""

from planner.mechanics.capstan import capstan_ratio
from planner.rules import LengthRule
from planner.verdicts import Check, Outcome


def hand_force_loss_ratio(*, friction_ratio: float, turn_deg: float) -> float:
    """The share of the pull at the lever that never arrives at the brake.

    Returns 0 for a straight or frictionless housing, towards 1 for one that swallows all.

    friction_ratio : friction of the inner cable in its housing
    turn_deg : sum of the changes of direction of the housing, ends and loops included

    >>> round(hand_force_loss_ratio(friction_ratio=0.06, turn_deg=360), 3)
    0.314

    Raises ImpossibleDimensionError when a number is negative.

    Source: Euler-Eytelwein formula, as for `planner.mechanics.capstan.capstan_ratio`.
    """
    return 1 - 1 / capstan_ratio(friction_ratio=friction_ratio, turn_deg=turn_deg)


def check_hand_force(*, friction_ratio: float | None, turn_deg: float, loss_limit_ratio: float) -> Check:
    """Whether the bends of a housing eat more of the hand's force than the shop puts up with.

    Returns rule "hand_force": FITS up to the limit, TIGHT above it (it works, but heavily), UNKNOWN when the friction
    is not known. The note is the share lost, in percent.

    friction_ratio : friction of the inner cable in its housing; None when not known
    turn_deg : sum of the changes of direction of the housing
    loss_limit_ratio : share of the hand's force that may be lost without a caution

    Raises ImpossibleDimensionError when a number is negative.

    Source: Euler-Eytelwein formula, as for `planner.mechanics.capstan.capstan_ratio`; the limit is the shop's.
    """
    if friction_ratio is None:
        return Check(rule=LengthRule.HAND_FORCE, outcome=Outcome.UNKNOWN)
    loss_ratio = hand_force_loss_ratio(friction_ratio=friction_ratio, turn_deg=turn_deg)
    outcome = Outcome.FITS if loss_ratio <= loss_limit_ratio else Outcome.TIGHT
    return Check(rule=LengthRule.HAND_FORCE, outcome=outcome, note=f"{100 * loss_ratio:.0f} %")
