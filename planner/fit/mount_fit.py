"""Does the caliper bolt to the frame, straight or with an adapter?"""

from collections.abc import Iterable
from dataclasses import dataclass
from math import isclose

from planner.fit.size_match import match_room_mm
from planner.parts import Adapter, Brake, BrakeMount, adapter_lift_mm
from planner.verdicts import Check, Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class MountFit:
    """How the caliper gets onto the frame.

    checks : rule "mount", and rule "adapter_lift" where an adapter is used
    adapter : the adapter to use; None where none is needed or none was found
    """

    checks: tuple[Check, ...]
    adapter: Adapter | None


def check_mount(
    *,
    frame_mount: BrakeMount | None,
    brake: Brake,
    rotor_mm: float | None,
    adapters: Iterable[Adapter],
    lift_tolerance_mm: float | None,
) -> MountFit:
    """Whether the caliper bolts to the frame for the rotor wanted.

    Mounts of one kind bolt together directly at the caliper's native rotor; a larger rotor, or a mount of another kind,
    takes an adapter. A rotor below the native one is the rotor check's business.

    Returns rule "mount": FITS with note "direct", "same_mount" or "with_adapter"; NO_FIT with "no_adapter" (one kind
    of mount) or "other_mount" (two kinds, nothing joins them for this rotor); UNKNOWN with what was not told.

    frame_mount : what this end of the frame takes; None when not in the catalog
    rotor_mm : rotor diameter wanted; None when not stated
    adapters : those in the catalog; the first that suits is taken
    lift_tolerance_mm : how far an adapter's measured lift may be off half the change of diameter; None when the shop
        has not said

    Source: Trade practice; steps of rotor size as sold, adapter lift by plane geometry.
    """
    if frame_mount is None:
        return _only(Outcome.UNKNOWN, "frame_mount_not_known")
    if brake.caliper_mount is None:
        return _only(Outcome.UNKNOWN, "caliper_mount_not_known")
    is_same = frame_mount.mount is brake.caliper_mount
    if rotor_mm is None or brake.rotor_native_mm is None:
        if is_same:
            return _only(Outcome.FITS, "same_mount")
        return _only(Outcome.UNKNOWN, "rotor_not_stated" if rotor_mm is None else "native_rotor_not_known")
    if is_same and rotor_mm <= brake.rotor_native_mm:
        return _only(Outcome.FITS, "direct" if rotor_mm == brake.rotor_native_mm else "same_mount")
    adapter = find_adapter(frame_mount=frame_mount, brake=brake, rotor_mm=rotor_mm, adapters=adapters)
    if adapter is None:
        return _only(Outcome.NO_FIT, "no_adapter" if is_same else "other_mount")
    check = Check(rule="mount", outcome=Outcome.FITS, note="with_adapter", with_ids=(adapter.id,))
    lift = check_adapter_lift(adapter=adapter, lift_tolerance_mm=lift_tolerance_mm)
    return MountFit(checks=(check, lift), adapter=adapter)


def find_adapter(
    *, frame_mount: BrakeMount, brake: Brake, rotor_mm: float, adapters: Iterable[Adapter]
) -> Adapter | None:
    """The adapter that joins this frame and caliper for this rotor.

    Returns the first that suits; None where none does, or where the caliper's mount or native rotor is not known.

    frame_mount : what this end of the frame takes
    rotor_mm : rotor diameter wanted
    """
    native_mm = brake.rotor_native_mm
    if native_mm is None:
        return None
    for adapter in adapters:
        joins = adapter.frame_mount is frame_mount.mount and adapter.caliper_mount is brake.caliper_mount
        if joins and isclose(adapter.from_rotor_mm, native_mm) and isclose(adapter.to_rotor_mm, rotor_mm):
            return adapter
    return None


def check_adapter_lift(*, adapter: Adapter, lift_tolerance_mm: float | None) -> Check:
    """Whether an adapter moves the caliper as far as its two rotor sizes ask for.

    A catalog slip shows here before a pad runs off the rotor's edge.

    Returns rule "adapter_lift" with the lift needed as size and the lift measured as room: FITS, NO_FIT with note
    "lift_off", or UNKNOWN with "lift_not_measured" or "tolerance_not_known".

    lift_tolerance_mm : how far its measured lift may be off; None when the shop has not said

    Source: Plane geometry: half the change of diameter.
    """
    needed_mm = adapter_lift_mm(from_rotor_mm=adapter.from_rotor_mm, to_rotor_mm=adapter.to_rotor_mm)
    room_mm = None
    if adapter.lift_mm is not None:
        room_mm = match_room_mm(first_mm=adapter.lift_mm, second_mm=needed_mm, tolerance_mm=lift_tolerance_mm)
    if room_mm is None:
        outcome, note = Outcome.UNKNOWN, "lift_not_measured" if adapter.lift_mm is None else "tolerance_not_known"
    else:
        outcome, note = (Outcome.FITS, "half_the_change") if room_mm >= 0 else (Outcome.NO_FIT, "lift_off")
    return Check(
        rule="adapter_lift",
        outcome=outcome,
        note=note,
        with_ids=(adapter.id,),
        size_mm=needed_mm,
        available_mm=adapter.lift_mm,
        clearance_mm=room_mm,
    )


def _only(outcome: Outcome, note: str) -> MountFit:
    return MountFit(checks=(Check(rule="mount", outcome=outcome, note=note),), adapter=None)
