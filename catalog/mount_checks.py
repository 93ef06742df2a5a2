"""Whether what is said of mounts, rotors and adapters agrees with itself."""

from collections.abc import Iterator

from catalog.adapters import JOINED_BY_KIND, AdapterEntry
from catalog.brakes import BrakeEntry
from catalog.frames import BrakeMountEntry
from catalog.mechanic_errors import Complaint
from catalog.yaml_text import Path
from planner.parts import AdapterKind, MountKind

_ONE_END = {AdapterKind.TABS: "brackets for tabs are", AdapterKind.FLAT_PLATE: "a flat plate is"}


def mount_complaints(mount: BrakeMountEntry, path: Path) -> Iterator[Complaint]:
    """What one end of a frame says against itself: nothing goes below the native rotor, and tabs have none."""
    native, least, most = mount.rotor_native, mount.rotor_min, mount.rotor_max
    if native is not None and mount.mount is MountKind.IS_TABS:
        allowed = "nothing is allowed: tabs stand for no rotor, the bracket on them says which"
        yield (*path, "rotor_native"), f"{native:g} mm was given", allowed
        return
    if native is not None and least is not None and least < native:
        allowed = f"at least rotor_native, {native:g} mm, is allowed: adapters only move a caliper outwards"
        yield (*path, "rotor_min"), f"{least:g} mm was given", allowed
    yield from not_below((*path, "rotor_max"), most, "rotor_min", least)
    yield from not_below((*path, "rotor_max"), most, "rotor_native", native)


def brake_complaints(brake: BrakeEntry) -> Iterator[Complaint]:
    """What a brake says against itself."""
    caliper = brake.caliper
    yield from not_below(("caliper", "rotor_max"), caliper.rotor_max, "rotor_min", caliper.rotor_min)


def adapter_complaints(entry: AdapterEntry) -> Iterator[Complaint]:
    """What an adapter says against itself, or leaves out that its kind needs."""
    if entry.kind in _ONE_END and entry.end == "any":
        yield (
            ("end",),
            "any was given",
            f"front or rear is allowed: {_ONE_END[entry.kind]} made for one end, read the stamp",
        )
    if entry.kind is AdapterKind.SPECIAL:
        for field, mount in (("frame_mount", entry.frame_mount), ("caliper_mount", entry.caliper_mount)):
            if mount is None:
                yield (field,), "nothing was given", f"one of {', '.join(MountKind)} must be given for kind: special"
    else:
        yield from _named_mounts(entry)
        if entry.step is None:
            allowed = (
                "the new rotor less the one the mount stands for must be given; on tabs, less their lowest bracket's"
            )
            yield ("step",), "nothing was given", allowed
        elif entry.step == 0 and entry.kind in (AdapterKind.POST_STEP, AdapterKind.POST_WASHERS):
            yield ("step",), "0 mm was given", "more than 0 mm is allowed: at its native rotor a mount takes no adapter"
    if entry.lift == 0 and entry.step and entry.kind is not AdapterKind.TABS:
        yield (
            ("lift",),
            "0 mm was given",
            f"above zero for a step of {entry.step:g} mm; leave it out when nobody measured it",
        )


def _named_mounts(entry: AdapterEntry) -> Iterator[Complaint]:
    given = (("frame_mount", entry.frame_mount), ("caliper_mount", entry.caliper_mount))
    for (field, mount), own in zip(given, JOINED_BY_KIND[entry.kind], strict=True):
        if mount is not None and mount is not own:
            yield (field,), f"{mount} was given", f"{own}, as the kind {entry.kind} says, or leave it out"


def not_below(path: Path, high: float | None, low_name: str, low: float | None) -> Iterator[Complaint]:
    """A limit that lies below the one it must not lie below."""
    if high is not None and low is not None and high < low:
        yield path, f"{high:g} mm was given", f"at least {low_name}, {low:g} mm, is allowed"
