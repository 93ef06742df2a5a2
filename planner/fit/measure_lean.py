"""What measuring how a line leans, or how thick the wall is, would change, where these were told as a range."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from planner.fit.hole_fit import check_things_in_room
from planner.geometry.packing.work import Allowance
from planner.rules import PlaceRule
from planner.verdicts import Check, Outcome, Room, Thing

_READINGS = 7
"""Evenly over the range: every angle in it is as likely as any other."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LeanReading:
    """What one of the two would tell.

    what : "tilt" or "wall"
    low, high : the range it was told as [mm or deg, by its unit]
    unit : of both
    changes_ratio : how often the measurement would change the outcome
    """

    what: str
    low: float
    high: float
    unit: str
    changes_ratio: float


def find_lean_readings(
    *,
    room: Room,
    things: Sequence[Thing],
    outcome: Outcome,
    running_clearance_mm: float,
    allowance: Allowance | None = None,
) -> Iterator[LeanReading]:
    """How often tilt and wall, each measured alone, would change the outcome; none for what was told as one figure.

    room : the hole, with what tilt and wall may be off by
    things : what shares it
    outcome : as it stands
    running_clearance_mm : wanted in the worst case, diametral
    allowance : the work that questions may cost; None for the usual of one
    """

    def changes(rooms: Sequence[Room]) -> float:
        asked = [_asked(one, things, running_clearance_mm, allowance) for one in rooms]
        return sum(check.outcome is not outcome for check in asked) / len(asked)

    if room.tilt_tolerance_deg > 0:
        low, high = room.at_best.tilt_deg, room.at_worst.tilt_deg
        rooms = [replace(room, tilt_deg=at, tilt_tolerance_deg=0.0) for at in _over(low, high)]
        yield LeanReading(what="tilt", low=low, high=high, unit="°", changes_ratio=changes(rooms))
    if room.wall_tolerance_mm > 0:
        low, high = room.at_best.wall_thickness_mm, room.at_worst.wall_thickness_mm
        rooms = [replace(room, wall_thickness_mm=at, wall_tolerance_mm=0.0) for at in _over(low, high)]
        yield LeanReading(what="wall", low=low, high=high, unit=" mm", changes_ratio=changes(rooms))


def _over(low: float, high: float) -> list[float]:
    return [low + (high - low) * (k + 0.5) / _READINGS for k in range(_READINGS)]


def _asked(room: Room, things: Sequence[Thing], running_clearance_mm: float, allowance: Allowance | None) -> Check:
    return check_things_in_room(
        rule=PlaceRule.PORT_CLEARANCE,
        room=room,
        things=things,
        running_clearance_mm=running_clearance_mm,
        allowance=allowance,
    )
