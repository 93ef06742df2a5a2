"""Does the rotor sit on the hub?"""

from planner.parts import HubKind
from planner.rules import BrakeRule
from planner.verdicts import Check, Outcome


def check_hub(*, hub: HubKind | None, rotor: HubKind | None) -> Check:
    """Whether the rotor wanted and the wheel's hub are made for each other.

    Returns rule "hub": FITS with note "same_seat"; NO_FIT with "six_bolt_on_splined" (an adapter ring is made for
    that) or "splined_on_six_bolt" (nothing is); UNKNOWN with "hub_not_known" or "rotor_seat_not_stated".

    hub : how a rotor sits on this wheel's hub; None when not known
    rotor : how the rotor wanted sits; None when not stated
    """
    if hub is None:
        return Check(rule=BrakeRule.HUB, outcome=Outcome.UNKNOWN, note="hub_not_known")
    if rotor is None:
        return Check(rule=BrakeRule.HUB, outcome=Outcome.UNKNOWN, note="rotor_seat_not_stated")
    if hub is rotor:
        return Check(rule=BrakeRule.HUB, outcome=Outcome.FITS, note="same_seat")
    note = "six_bolt_on_splined" if hub is HubKind.SPLINED else "splined_on_six_bolt"
    return Check(rule=BrakeRule.HUB, outcome=Outcome.NO_FIT, note=note)
