"""Does the lever's clamp sit on the bar?"""

from planner.fit.size_match import match_room_mm
from planner.rules import BrakeRule
from planner.verdicts import Check, Outcome


def check_lever_clamp(*, clamp_mm: float | None, bar_mm: float | None, clamp_tolerance_mm: float | None) -> Check:
    """Whether the lever clamps the bar.

    Returns rule "lever_clamp": FITS with note "same_size"; NO_FIT with "clamp_too_small" or "clamp_too_large";
    UNKNOWN with "clamp_not_measured" or "bar_not_measured", or with "tolerance_not_known" where the two differ.

    clamp_mm : bar diameter the lever is made for; None when not measured
    bar_mm : bar diameter where it is to sit; None when not measured
    clamp_tolerance_mm : how far the two may differ; None when the shop has not said

    Common practice, no source: 22.2 mm on flat bars, 23.8 mm on drop bars.
    """
    if clamp_mm is None or bar_mm is None:
        note = "clamp_not_measured" if clamp_mm is None else "bar_not_measured"
        return Check(
            rule=BrakeRule.LEVER_CLAMP, outcome=Outcome.UNKNOWN, note=note, size_mm=bar_mm, available_mm=clamp_mm
        )
    room_mm = match_room_mm(first_mm=clamp_mm, second_mm=bar_mm, tolerance_mm=clamp_tolerance_mm)
    if room_mm is None:
        outcome, note = Outcome.UNKNOWN, "tolerance_not_known"
    elif room_mm >= 0:
        outcome, note = Outcome.FITS, "same_size"
    else:
        outcome, note = Outcome.NO_FIT, "clamp_too_small" if clamp_mm < bar_mm else "clamp_too_large"
    return Check(
        rule=BrakeRule.LEVER_CLAMP,
        outcome=outcome,
        note=note,
        size_mm=bar_mm,
        available_mm=clamp_mm,
        clearance_mm=room_mm,
    )
