"""Does the frame take the rotor, and does the caliper reach it?"""

from planner.parts import Brake, BrakeMount
from planner.verdicts import Check, Outcome


def check_rotor_in_frame(*, rotor_mm: float | None, frame_mount: BrakeMount | None) -> Check:
    """Whether the rotor lies between the frame's limits.

    Returns rule "rotor_size": FITS with note "within_limits"; NO_FIT with "above_frame" or "below_frame" and the
    limit as room; UNKNOWN with "rotor_not_stated" or "frame_limits_not_stated" when a limit that could forbid it is
    missing.

    rotor_mm : rotor diameter wanted; None when not stated
    frame_mount : what this end of the frame takes

    Common practice, no source: the frame's maker states the limits.
    """
    if rotor_mm is None:
        return Check(rule="rotor_size", outcome=Outcome.UNKNOWN, note="rotor_not_stated")
    least_mm = None if frame_mount is None else frame_mount.rotor_min_mm
    most_mm = None if frame_mount is None else frame_mount.rotor_max_mm
    if most_mm is not None and rotor_mm > most_mm:
        return _limit(Outcome.NO_FIT, "above_frame", rotor_mm, most_mm, most_mm - rotor_mm)
    if least_mm is not None and rotor_mm < least_mm:
        return _limit(Outcome.NO_FIT, "below_frame", rotor_mm, least_mm, rotor_mm - least_mm)
    if least_mm is None or most_mm is None:
        return _limit(Outcome.UNKNOWN, "frame_limits_not_stated", rotor_mm, None, None)
    return _limit(Outcome.FITS, "within_limits", rotor_mm, most_mm, most_mm - rotor_mm)


def check_rotor_under_caliper(*, rotor_mm: float | None, brake: Brake) -> Check:
    """Whether the caliper can stand far enough in for the rotor: an adapter only ever lifts it outwards.

    Returns rule "rotor_native": FITS with note "native" or "above_native"; NO_FIT with "below_native"; UNKNOWN with
    "rotor_not_stated" or "native_rotor_not_known".

    rotor_mm : rotor diameter wanted; None when not stated

    Source: Trade practice: a caliper cannot go below its mount's native rotor.
    """
    if rotor_mm is None or brake.rotor_native_mm is None:
        note = "rotor_not_stated" if rotor_mm is None else "native_rotor_not_known"
        return Check(rule="rotor_native", outcome=Outcome.UNKNOWN, note=note, size_mm=rotor_mm)
    over_mm = rotor_mm - brake.rotor_native_mm
    note = "native" if over_mm == 0 else "above_native" if over_mm > 0 else "below_native"
    return Check(
        rule="rotor_native",
        outcome=Outcome.NO_FIT if over_mm < 0 else Outcome.FITS,
        note=note,
        size_mm=rotor_mm,
        available_mm=brake.rotor_native_mm,
        clearance_mm=over_mm,
    )


def _limit(outcome: Outcome, note: str, rotor_mm: float, limit_mm: float | None, clearance_mm: float | None) -> Check:
    return Check(
        rule="rotor_size",
        outcome=outcome,
        note=note,
        size_mm=rotor_mm,
        available_mm=limit_mm,
        clearance_mm=clearance_mm,
    )
