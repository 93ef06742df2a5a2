"""Does the caliper bolt to the frame, straight or with an adapter?"""

from collections.abc import Iterable
from math import isclose

from planner.fit.size_match import match_room_mm
from planner.parts import Adapter, AdapterKind, Brake, BrakeMount, FrameEnd, MountKind, ShopLimits, adapter_lift_mm
from planner.quick_dataclass import dataclass
from planner.rules import BrakeRule
from planner.verdicts import Check, Outcome


@dataclass(frozen=True, slots=True, kw_only=True)
class MountFit:
    """How the caliper gets onto the frame.

    checks : rule "mount", and rule "adapter_lift" where an adapter's lift tells something
    adapter : the adapter to use; None where none is needed, none was found, or one is to be asked about first
    """

    checks: tuple[Check, ...]
    adapter: Adapter | None


def check_mount(
    *,
    frame_mount: BrakeMount | None,
    end: FrameEnd | None,
    brake: Brake,
    rotor_mm: float | None,
    adapters: Iterable[Adapter],
    limits: ShopLimits,
) -> MountFit:
    """Whether the caliper bolts to the frame for the rotor wanted.

    Posts and flat stays stand for one rotor, their native one: an adapter only ever moves a caliper outwards. Tabs
    stand for none; a bracket is always between, and so is a plate on a fork's flat mount.

    Returns rule "mount": FITS with note "direct", "with_adapter" or, where no rotor was stated, "same_mount"; NO_FIT
    with "below_native", "no_adapter", "no_bracket", "no_plate" or "other_mount"; UNKNOWN with what was not told or is
    to be asked first.

    frame_mount : what this end of the frame takes; None when not in the catalog
    end : the end the caliper sits at; None when not known
    rotor_mm : rotor diameter wanted; None when not stated
    adapters : those in the catalog; the first that suits is taken, one that needs no asking first

    Source: common practice, no source.
    """
    if end is None:
        return _only(Outcome.UNKNOWN, "end_not_known")
    if frame_mount is None:
        return _only(Outcome.UNKNOWN, "frame_mount_not_known")
    if brake.caliper_mount is None:
        return _only(Outcome.UNKNOWN, "caliper_mount_not_known")
    if frame_mount.mount is MountKind.IS_TABS and brake.caliper_mount is MountKind.IS_TABS:
        return _only(Outcome.UNKNOWN, "tabs_on_tabs")
    joining = [
        adapter
        for adapter in adapters
        if adapter.frame_mount is frame_mount.mount and adapter.caliper_mount is brake.caliper_mount
    ]
    if frame_mount.mount is not brake.caliper_mount and not joining:
        return _only(Outcome.NO_FIT, _missing_note(frame_mount.mount, brake.caliper_mount))
    if rotor_mm is None:
        is_same = frame_mount.mount is brake.caliper_mount
        return _only(Outcome.FITS, "same_mount") if is_same else _only(Outcome.UNKNOWN, "rotor_not_stated")
    base_mm = _base_mm(frame_mount, end, limits)
    if base_mm is None:
        return _base_question(frame_mount)
    return _with_step(frame_mount, end, brake.caliper_mount, rotor_mm, base_mm, joining, limits)


def _with_step(
    frame_mount: BrakeMount,
    end: FrameEnd,
    caliper_mount: MountKind,
    rotor_mm: float,
    base_mm: float,
    joining: list[Adapter],
    limits: ShopLimits,
) -> MountFit:
    step_mm = rotor_mm - base_mm
    if step_mm < 0 and frame_mount.mount is not MountKind.IS_TABS:
        return _step(Outcome.NO_FIT, "below_native", rotor_mm, base_mm)
    is_same = frame_mount.mount is caliper_mount
    if is_same and isclose(rotor_mm, base_mm) and not _wants_plate(frame_mount.mount, end):
        return _step(Outcome.FITS, "direct", rotor_mm, base_mm)
    adapter = find_adapter(adapters=joining, end=end, step_mm=step_mm, base_mm=base_mm)
    if adapter is None:
        note = "no_adapter" if is_same and not _wants_plate(frame_mount.mount, end) else None
        return _step(Outcome.NO_FIT, note or _missing_note(frame_mount.mount, caliper_mount), rotor_mm, base_mm)
    if not _serves(adapter, base_mm):
        return _step(Outcome.UNKNOWN, "other_native", rotor_mm, base_mm, adapter)
    if adapter.ask is not None:
        return _step(Outcome.UNKNOWN, f"ask_{adapter.ask}", rotor_mm, base_mm, adapter)
    fit = _step(Outcome.FITS, "with_adapter", rotor_mm, base_mm, adapter)
    lift = check_adapter_lift(adapter=adapter, lift_tolerance_mm=limits.match_lift_mm)
    return MountFit(checks=(*fit.checks, *(() if lift is None else (lift,))), adapter=adapter)


def find_adapter(*, adapters: Iterable[Adapter], end: FrameEnd, step_mm: float, base_mm: float) -> Adapter | None:
    """The adapter for a step at one end; one that may be counted on as it is goes before one to be asked about.

    adapters : those that join the two mounts
    step_mm : rotor wanted less the native one or, on tabs, less the lowest bracket's
    base_mm : that native rotor or lowest bracket's
    """
    suits = [
        adapter
        for adapter in adapters
        if adapter.end in (None, end) and (adapter.step_mm is None or isclose(adapter.step_mm, step_mm, abs_tol=1e-9))
    ]
    return min(suits, key=lambda adapter: adapter.ask is not None or not _serves(adapter, base_mm), default=None)


def check_adapter_lift(*, adapter: Adapter, lift_tolerance_mm: float | None) -> Check | None:
    """Whether an adapter moves the caliper as far as its step asks for.

    A catalog slip shows here before a pad runs off the rotor's edge. On tabs the bracket's thickness is no lift, and a
    special adapter turns or shifts the caliper as well: neither is asked.

    Returns rule "adapter_lift" with the lift needed as size and the lift measured as room: FITS, NO_FIT with note
    "lift_off", or UNKNOWN with "lift_not_measured" or "tolerance_not_known"; None where it is not asked.

    lift_tolerance_mm : how far its measured lift may be off; None when the shop has not said

    Source: Plane geometry: half the change of diameter.
    """
    if adapter.kind in (AdapterKind.TABS, AdapterKind.SPECIAL) or adapter.step_mm is None:
        return None
    needed_mm = adapter_lift_mm(step_mm=adapter.step_mm)
    room_mm = None
    if adapter.lift_mm is not None:
        room_mm = match_room_mm(first_mm=adapter.lift_mm, second_mm=needed_mm, tolerance_mm=lift_tolerance_mm)
    if room_mm is None:
        outcome, note = Outcome.UNKNOWN, "lift_not_measured" if adapter.lift_mm is None else "tolerance_not_known"
    else:
        outcome, note = (Outcome.FITS, "half_the_change") if room_mm >= 0 else (Outcome.NO_FIT, "lift_off")
    return Check(
        rule=BrakeRule.ADAPTER_LIFT,
        outcome=outcome,
        note=note,
        with_ids=(adapter.id,),
        size_mm=needed_mm,
        available_mm=adapter.lift_mm,
        clearance_mm=room_mm,
    )


def _base_mm(frame_mount: BrakeMount, end: FrameEnd, limits: ShopLimits) -> float | None:
    if frame_mount.mount is not MountKind.IS_TABS:
        return frame_mount.rotor_native_mm
    return limits.tab_base_front_mm if end is FrameEnd.FRONT else limits.tab_base_rear_mm


def _base_question(frame_mount: BrakeMount) -> MountFit:
    """What is not known; a frame's least rotor is offered as its likely native one, and never taken for it."""
    if frame_mount.mount is MountKind.IS_TABS:
        return _only(Outcome.UNKNOWN, "tab_base_not_known")
    likely_mm = frame_mount.rotor_min_mm
    note = "native_not_stated" if likely_mm is None else "native_likely"
    check = Check(rule=BrakeRule.MOUNT, outcome=Outcome.UNKNOWN, note=note, available_mm=likely_mm)
    return MountFit(checks=(check,), adapter=None)


def _wants_plate(mount: MountKind, end: FrameEnd) -> bool:
    return mount is MountKind.FLAT and end is FrameEnd.FRONT


def _missing_note(frame_mount: MountKind, caliper_mount: MountKind) -> str:
    if frame_mount is caliper_mount:
        return "no_plate"
    return "no_bracket" if frame_mount is MountKind.IS_TABS and caliper_mount is MountKind.POST else "other_mount"


def _serves(adapter: Adapter, base_mm: float) -> bool:
    return adapter.native_mm is None or isclose(adapter.native_mm, base_mm)


def _step(outcome: Outcome, note: str, rotor_mm: float, base_mm: float, adapter: Adapter | None = None) -> MountFit:
    check = Check(
        rule=BrakeRule.MOUNT,
        outcome=outcome,
        note=note,
        with_ids=() if adapter is None else (adapter.id,),
        size_mm=rotor_mm,
        available_mm=base_mm,
        clearance_mm=rotor_mm - base_mm,
    )
    return MountFit(checks=(check,), adapter=None)


def _only(outcome: Outcome, note: str) -> MountFit:
    return MountFit(checks=(Check(rule=BrakeRule.MOUNT, outcome=outcome, note=note),), adapter=None)
