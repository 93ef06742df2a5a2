"""Small parts as said at the bench: the rubber in a hole, a guide tube, a brake mount, a rear end."""

import re
from typing import Any

from catalog import asked_field
from planner.parts import HubKind, MountKind
from ui.shared.dialogue.questions import AnswerRefused
from ui.shared.dialogue.said_sizes import as_said, ends_of, read_hole_size, read_one, read_size

_MOUNTS = {
    "post": MountKind.POST,
    "pm": MountKind.POST,
    "flat": MountKind.FLAT,
    "fm": MountKind.FLAT,
    "tabs": MountKind.IS_TABS,
    "is": MountKind.IS_TABS,
    "is_tabs": MountKind.IS_TABS,
}
_HUBS = {
    "six": HubKind.SIX_BOLT,
    "6": HubKind.SIX_BOLT,
    "spline": HubKind.SPLINED,
    "centre": HubKind.SPLINED,
    "center": HubKind.SPLINED,
}


def read_rubber(words: str, *, hole: dict[str, Any] | None) -> dict[str, Any] | None:
    """The piece in a hole; None for none.

    hole : the fields of the hole it sits in, which it cannot be wider than; None where that is not known

    Raises AnswerRefused where it is neither.
    """
    said = words.casefold()
    if said in ("no", "none"):
        return None
    is_fixed = said.endswith(" fixed")
    opening = read_hole_size(said.removesuffix(" fixed").removesuffix(" loose"))
    if "at_least" in opening:
        raise AnswerRefused("the opening in the rubber is wanted with its size")
    for name, size in opening.items():
        room = (hole or {}).get(name)
        if name in ("diameter", "length", "width") and room is not None and ends_of(size)[0] > ends_of(room)[1]:
            raise AnswerRefused(f"{as_said(size)} is more than the hole's own {name}, {as_said(room)}")
    return {"opening": opening, "removable": not is_fixed}


def read_guide(words: str) -> dict[str, Any] | None:
    """A guide tube in the fields of a catalog file; None for none.

    Raises AnswerRefused where it is neither.
    """
    said = words.casefold()
    if said in ("no", "none"):
        return None
    parts = [part for part in re.split(r",\s+|\s+", said) if part not in ("bore", "bend", "turn", "mm", "guide")]
    bore = read_size(parts[0], kind="guide", name="bore") if parts else None
    if bore is None or len(parts) not in (2, 3) or (len(parts) == 2 and parts[1] != "straight"):
        raise AnswerRefused("three numbers are wanted")
    fields: dict[str, Any] = {"bore": bore.written}
    if len(parts) == 3:
        fields["bend_radius"] = read_one(parts[1], kind="guide", name="bend_radius")
        fields["turn"] = read_one(parts[2], kind="guide", name="turn")
    if bore.tolerance is not None:
        fields["tolerance"] = bore.tolerance
    return fields


def read_mount(words: str) -> dict[str, Any]:
    """What the frame's rear end takes, in the fields of a catalog file.

    Raises AnswerRefused where no mount is named, or a rotor is out of range.
    """
    parts = re.split(r"[,/\s]+", words.casefold().replace("six-bolt", "six").replace("6-bolt", "six"))
    mount = next((_MOUNTS[part] for part in parts if part in _MOUNTS), None)
    if mount is None:
        raise AnswerRefused("no mount is named")
    hub = next((kind for part in parts for word, kind in _HUBS.items() if part.startswith(word) and part != "60"), None)
    rotors = [_rotor(part) for part in parts if part.removesuffix("mm").isdigit() and len(part) > 1]
    known = len(rotors) + sum(part in _MOUNTS or part.startswith(tuple(_HUBS)) or part == "bolt" for part in parts)
    if len(rotors) > 2 or known < len([part for part in parts if part]):
        raise AnswerRefused("a mount, at most two rotors and a hub are wanted")
    if len(rotors) == 2 and rotors[0] > rotors[1]:
        raise AnswerRefused(f"the native rotor, {rotors[0]:g}, is larger than the greatest, {rotors[1]:g}")
    fields: dict[str, Any] = {"mount": str(mount)}
    if rotors and mount is not MountKind.IS_TABS:
        fields["rotor_native"] = rotors[0]
    if rotors and (len(rotors) == 2 or mount is MountKind.IS_TABS):
        fields["rotor_max"] = rotors[-1]
    return {**fields, **({"hub": str(hub)} if hub else {})}


def _rotor(word: str) -> float:
    return read_one(word, kind="mount", name="rotor_native")


def read_travel(words: str) -> dict[str, Any]:
    """How the rear end moves, in the fields of a catalog file.

    Raises AnswerRefused where it is no travel.
    """
    parts = [part for part in re.split(r",\s+|\s+", words.casefold().replace("travel", "")) if part != "mm"]
    parts = [part for part in parts if part]
    if len(parts) not in (1, 3, 4) or (len(parts) == 4 and parts[1] != "pivot"):
        raise AnswerRefused("one number, or three")
    fields: dict[str, Any] = {"kind": "single_pivot", "travel": read_one(parts[0], kind="single_pivot", name="travel")}
    if len(parts) > 1:
        fields["pivot"] = [_number(part) for part in parts[-2:]]
    return fields


def _number(word: str) -> float:
    try:
        number = float(word.replace(",", "."))
    except ValueError:
        raise AnswerRefused(f"“{word}” is not a number") from None
    if abs(number) > (asked_field("run", "length").most or 0):
        raise AnswerRefused(f"{number:g} mm is not on a bicycle")
    return number
