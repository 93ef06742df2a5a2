"""Where a hole is, as said at the bench: `down 35 left`, `end of chainstay left`, `window to chainstay`, `headset`."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from catalog import HoleKind, UsualTube, usual_frame
from planner.parts import OUTSIDE
from ui.shared.dialogue.questions import AnswerRefused
from ui.shared.number_text import read_number

SIDES = ("left", "right", "top", "bottom", "front", "back")
STAY_SIDES = ("left", "right")
FIRST_ENDS, LAST_ENDS = ("upper", "front"), ("lower", "rear")
"""Words for the end that a line from the bar meets first, and for the other; of a seat tube the ends are its own."""

_NO_MEANING = frozenset(
    [
        "the",
        "of",
        "in",
        "at",
        "on",
        "its",
        "it",
        "mm",
        "tube",
        "from",
        "a",
        "an",
        "hole",
        "cover",
        "side",
        "bay",
        "shell",
        "bearing",
        "through",
        "into",
        "out",
        "leads",
        "exit",
    ]
)
_LONGEST_TUBE_MM = 1500.0

PLACE_ALLOWED = (
    "tube, mm from its upper or front end, side (“down 35 left”, “chainstay 360 top”), “end of chainstay left”, "
    "“window to chainstay”, “headset”"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class HolePlace:
    """Where a hole is, and between what.

    kind : what sort of hole it is
    joins : the two zones, in the line's order from the lever
    zone : the tube that it is told on; "" for a window
    from_start, from_end : mm along that tube; None where neither was said
    end : "start" or "end" for a tube's open end; "" otherwise
    side : of the tube; "" where none was said
    """

    kind: HoleKind
    joins: tuple[str, str]
    zone: str = ""
    from_start: float | None = None
    from_end: float | None = None
    end: str = ""
    side: str = ""

    @property
    def label(self) -> str:
        """Where it is, in words one can point to on the frame."""
        if self.kind is HoleKind.HEADSET:
            return "Headset cover, under the stem"
        if self.kind is HoleKind.WINDOW:
            return f"Inside, {zone_name(self.joins[0]).lower()} to {zone_name(self.joins[1]).lower()}"
        tube = usual_frame().tubes[self.zone]
        if self.end:
            return f"{tube.name}, {tube.ends[0 if self.end == 'start' else 1]} end"
        along = f"{self.from_start:g} mm from its {tube.ends[0]} end" if self.from_start is not None else ""
        along = f"{self.from_end:g} mm from its {tube.ends[1]} end" if self.from_end is not None else along
        return ", ".join(part for part in (tube.name, along, self.side) if part)

    @property
    def on_fields(self) -> Any:
        """Its place on its tube in the fields of a catalog file; None where words do not say it."""
        if self.kind is HoleKind.WINDOW:
            return "window"
        fields: dict[str, Any] = {"zone": self.zone}
        if self.end:
            return {**fields, "end": self.end}
        fields["from_start" if self.from_end is None else "from_end"] = (
            self.from_start if self.from_end is None else self.from_end
        )
        return {**fields, "side": self.side} if self.side else None


def zone_name(zone: str) -> str:
    """What to call a cavity."""
    tube = usual_frame().tubes.get(zone)
    return "Outside" if tube is None else tube.name


def read_place(words: str, *, inside: str, is_last: bool) -> HolePlace:
    """Where a hole is.

    inside : the zone the line lies in before it
    is_last : whether it is the last hole before the caliper

    Raises AnswerRefused where that cannot be, with the reason.
    """
    plain = re.sub(r"(?<!\d),|,(?!\d)", " ", words.casefold()).replace("bottom bracket", "bb")
    plain = re.sub(r"\b(?:below|behind|from) (?:the )?head(?: tube|tube)?\b", " upper ", plain)
    plain = re.sub(r"\b(?:above|from) (?:the )?bb\b", " lower ", re.sub(r"\bbehind (?:the )?bb\b", " upper ", plain))
    said = [word for word in plain.split() if word not in _NO_MEANING]
    if "headset" in said:
        place = _headset(said, inside)
    elif "window" in said:
        place = _window(said, inside)
    else:
        place = _on_tube(said, inside)
    if is_last and place.joins[1] != OUTSIDE:
        after = zone_name(place.joins[1]).lower()
        raise AnswerRefused(f"this is the last hole, and after it the line would still lie in the {after}")
    return place


def _headset(said: Sequence[str], inside: str) -> HolePlace:
    if inside != OUTSIDE:
        raise AnswerRefused(f"the line lies in the {zone_name(inside).lower()} and cannot enter at the headset")
    if len(said) > 1:
        raise AnswerRefused("“headset” stands alone")
    return HolePlace(kind=HoleKind.HEADSET, joins=(OUTSIDE, "head_tube"), zone="head_tube", end="start")


def _window(said: Sequence[str], inside: str) -> HolePlace:
    if inside == OUTSIDE:
        raise AnswerRefused("a window lies between two cavities, and the line is still outside")
    target = said[list(said).index("to") + 1 :] if "to" in said else []
    zone, rest = _tube(target or [word for word in said if word != "window"])
    if rest or zone == inside:
        raise AnswerRefused(f"a window leads out of the {zone_name(inside).lower()} to another tube")
    return HolePlace(kind=HoleKind.WINDOW, joins=(inside, zone))


def _on_tube(said: Sequence[str], inside: str) -> HolePlace:
    zone, rest = _tube(said, inside=inside)
    if inside not in (OUTSIDE, zone):
        raise AnswerRefused(
            f"the line lies in the {zone_name(inside).lower()}: the next hole is on it, its end, or a window out of it"
        )
    joins = (OUTSIDE, zone) if inside == OUTSIDE else (zone, OUTSIDE)
    tube = usual_frame().tubes[zone]
    if "end" in rest and not any(word[0].isdigit() for word in rest):
        return _tube_end([word for word in rest if word != "end"], zone, tube, joins)
    return _side_hole([word for word in rest if word != "end"], zone, tube, joins)


def _tube_end(rest: Sequence[str], zone: str, tube: UsualTube, joins: tuple[str, str]) -> HolePlace:
    ends = [place for word in rest if (place := _which_end(word, tube))]
    if len(rest) > len(ends) or len(ends) > 1:
        raise AnswerRefused("a tube's open end is told by the tube alone, or with front, rear, upper or lower")
    end = ends[0] if ends else "start" if joins[0] == OUTSIDE else "end"
    return HolePlace(kind=HoleKind.END, joins=joins, zone=zone, end=end)


def _side_hole(rest: Sequence[str], zone: str, tube: UsualTube, joins: tuple[str, str]) -> HolePlace:
    numbers = [word for word in rest if word[0].isdigit()]
    sides = [word for word in rest if word in SIDES and not _which_end(word, tube)]
    ends = [place for word in rest if (place := _which_end(word, tube))]
    hours = [word for word in numbers if _is_hour(word, rest)]
    along = [word for word in numbers if word not in hours]
    if len(along) != 1:
        raise AnswerRefused(f"how many mm from its {tube.ends[0]} end, and on which side")
    known = {*numbers, *sides, "boss", "o'clock", "clock"}
    strange = [word for word in rest if word not in known and not _which_end(word, tube)]
    if strange:
        raise AnswerRefused(f"“{strange[0]}” says nothing of a place")
    told_sides = [*sides, *(hour.split("o")[0] for hour in hours)]
    if len(told_sides) > 1 or len(ends) > 1:
        raise AnswerRefused("one side and one end are wanted")
    if not told_sides and tube.stay is None:
        raise AnswerRefused(f"on which side: {', '.join(SIDES)}, or an hour such as 9 o'clock")
    millimetres = read_number(along[0].removesuffix("mm"), unit="mm").value
    if millimetres is None or not 0 <= millimetres <= _LONGEST_TUBE_MM:
        raise AnswerRefused(f"{along[0]} is not within 0 to {_LONGEST_TUBE_MM:g} mm along a tube")
    is_out = joins[1] == OUTSIDE
    kind = HoleKind.STAY if tube.stay else HoleKind.BOSS if is_out or "boss" in rest else HoleKind.NECK
    is_from_end = ends[:1] == ["end"]
    side = told_sides[0] if told_sides else str(tube.stay)
    told = HolePlace(kind=kind, joins=joins, zone=zone, side=side)
    return replace(told, from_end=millimetres) if is_from_end else replace(told, from_start=millimetres)


def _is_hour(word: str, rest: Sequence[str]) -> bool:
    """Whether a number is an hour of the clock."""
    if word.endswith("o'clock"):
        return True
    after = rest[list(rest).index(word) + 1 :][:1]
    return after in (["o'clock"], ["clock"])


def _which_end(word: str, tube: UsualTube) -> str:
    """Which end a word names, by the line from bar to rear; "" where it names none."""
    if word in tube.ends:
        return ("start", "end")[tube.ends.index(word)]
    if tube.ends[0] in FIRST_ENDS and word in (*FIRST_ENDS, *LAST_ENDS) and word != "front":
        return "start" if word in FIRST_ENDS else "end"
    return ""


def _tube(said: Sequence[str], *, inside: str = OUTSIDE) -> tuple[str, list[str]]:
    """The tube that is named first, and the other words. Of two stays the one the line lies in, or the left one."""
    for place, word in sorted(enumerate(said), key=lambda one: one[1] == "top"):  # it may be a side
        called = word.replace("_", "").replace("-", "").replace("chainstays", "chainstay")
        if called == "chain" or (called == "seat" and said[place + 1 : place + 2] == ["stay"]):
            called += "stay"
        zones = [zone for zone, tube in usual_frame().tubes.items() if called in tube.words]
        if not zones:
            continue
        rest = [*said[:place], *said[place + 1 :]]
        if called.endswith("stay") and "stay" in rest:
            rest.remove("stay")
        return (zones[0], rest) if len(zones) == 1 else _one_stay(zones, rest, inside)
    raise AnswerRefused("no tube is named: down, top, head, seat, chainstay, seatstay, motor or bottom bracket (bb)")


def _one_stay(zones: Sequence[str], rest: list[str], inside: str) -> tuple[str, list[str]]:
    sides = [word for word in rest if word in STAY_SIDES]
    is_side_of_hole = any(word in SIDES and word not in STAY_SIDES for word in rest) or len(sides) > 1
    has_place = any(word[0].isdigit() for word in rest)
    if sides and (len(sides) > 1 or is_side_of_hole or not has_place or inside not in zones):
        which = sides[0]
        rest.remove(which)
    else:
        which = next((zone.rpartition("_")[2] for zone in zones if zone == inside), sides[0] if sides else "left")
    return next(zone for zone in zones if zone.endswith(which)), rest
