"""Does the frame take the rotor, and does the caliper?"""

from planner.parts import Brake, BrakeMount
from planner.rules import BrakeRule
from planner.verdicts import Check, Outcome


def check_rotor_in_frame(*, rotor_mm: float | None, frame_mount: BrakeMount | None) -> Check:
    """Whether the rotor lies between the frame's limits.

    The native rotor is within them whatever was stated; whether a smaller one can be had is asked of the mount.

    Returns rule "rotor_size": FITS with note "within_limits" or "is_native"; NO_FIT with "above_frame" or "below_frame"
    and the limit as room; UNKNOWN with "rotor_not_stated" or "maximum_not_stated".

    rotor_mm : rotor diameter wanted; None when not stated
    frame_mount : what this end of the frame takes; None when not in the catalog

    Source: common practice, no source: the greatest rotor is the frame's or fork's maker's word on its strength.
    """
    if rotor_mm is None:
        return Check(rule=BrakeRule.ROTOR_SIZE, outcome=Outcome.UNKNOWN, note="rotor_not_stated")
    least_mm = None if frame_mount is None else frame_mount.rotor_min_mm
    most_mm = None if frame_mount is None else frame_mount.rotor_max_mm
    if most_mm is not None and rotor_mm > most_mm:
        return _limit(Outcome.NO_FIT, "above_frame", rotor_mm, most_mm, most_mm - rotor_mm)
    if least_mm is not None and rotor_mm < least_mm:
        return _limit(Outcome.NO_FIT, "below_frame", rotor_mm, least_mm, rotor_mm - least_mm)
    if most_mm is not None:
        return _limit(Outcome.FITS, "within_limits", rotor_mm, most_mm, most_mm - rotor_mm)
    if frame_mount is not None and frame_mount.rotor_native_mm == rotor_mm:
        return _limit(Outcome.FITS, "is_native", rotor_mm, rotor_mm, 0.0)
    return _limit(Outcome.UNKNOWN, "maximum_not_stated", rotor_mm, None, None)


def check_rotor_in_caliper(*, rotor_mm: float | None, brake: Brake) -> Check | None:
    """Whether the rotor lies between the limits that the caliper's maker states.

    Returns rule "caliper_rotor": FITS with note "within_limits"; NO_FIT with "above_caliper" or "below_caliper" and the
    limit as room; None where the caliper states none, or no rotor was stated.

    rotor_mm : rotor diameter wanted; None when not stated

    Source: common practice, no source.
    """
    least_mm, most_mm = brake.caliper_rotor_min_mm, brake.caliper_rotor_max_mm
    if rotor_mm is None or (least_mm is None and most_mm is None):
        return None
    if most_mm is not None and rotor_mm > most_mm:
        note, limit_mm, room_mm = "above_caliper", most_mm, most_mm - rotor_mm
    elif least_mm is not None and rotor_mm < least_mm:
        note, limit_mm, room_mm = "below_caliper", least_mm, rotor_mm - least_mm
    else:
        return Check(rule=BrakeRule.CALIPER_ROTOR, outcome=Outcome.FITS, note="within_limits", size_mm=rotor_mm)
    return Check(
        rule=BrakeRule.CALIPER_ROTOR,
        outcome=Outcome.NO_FIT,
        note=note,
        size_mm=rotor_mm,
        available_mm=limit_mm,
        clearance_mm=room_mm,
    )


def _limit(outcome: Outcome, note: str, rotor_mm: float, limit_mm: float | None, clearance_mm: float | None) -> Check:
    return Check(
        rule=BrakeRule.ROTOR_SIZE,
        outcome=outcome,
        note=note,
        size_mm=rotor_mm,
        available_mm=limit_mm,
        clearance_mm=clearance_mm,
    )
