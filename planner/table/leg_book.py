"""Lengths of legs, by the values they hang on: frames that differ in their holes alone share them."""

from collections.abc import Hashable, Iterable
from dataclasses import dataclass, replace

from planner.parts import Frame, Line
from planner.plan.leg_lengths import find_legs, hang_legs
from planner.plan.leg_views import turn_of_leg_deg
from planner.plan.lengths import LegLength
from planner.table.kept import Kept

MOST_LEGS = 4_000
"""Frames times lines whose legs are kept."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Rest:
    """Every leg of a frame at rest.

    legs : as `find_legs` tells them, but for their curves, which take more room than all else
    turns_deg : how far the line turns on each
    """

    legs: dict[str, LegLength]
    turns_deg: dict[str, float]


class LegBook:
    """Legs at rest, and those that were hung as a real hose lies."""

    def __init__(self) -> None:
        self._rest: Kept[Rest] = Kept(MOST_LEGS)
        self._hung: Kept[dict[str, LegLength]] = Kept(MOST_LEGS)

    def rest(self, *, frame: Frame, places: Hashable, line: Line) -> Rest:
        """Every leg of a frame.

        places : of the frame, as `places_of` tells them
        """
        return self._rest.once(_key(places, line), lambda: _rest(frame, line))

    def hung(self, *, frame: Frame, places: Hashable, line: Line, run_ids: Iterable[str]) -> dict[str, LegLength]:
        """The legs with the upper estimates of at least these runs.

        places : of the frame, as `places_of` tells them
        """
        known = self._hung.once(_key(places, line), dict)
        missing = [run_id for run_id in run_ids if run_id not in known]
        legs = self.rest(frame=frame, places=places, line=line).legs
        if missing:
            hung = hang_legs(frame=frame, line=line, legs=legs, run_ids=missing)
            known.update((run_id, _without_curves(hung[run_id])) for run_id in missing)
        return {**legs, **known}


def _key(places: Hashable, line: Line) -> Hashable:
    return places, line.minimum_bend_radius_mm, line.outer_diameter_mm


def _rest(frame: Frame, line: Line) -> Rest:
    legs = find_legs(frame=frame, line=line)
    return Rest(
        legs={run_id: _without_curves(leg) for run_id, leg in legs.items()},
        turns_deg={run_id: turn_of_leg_deg(leg=leg, run=frame.runs[run_id]) for run_id, leg in legs.items()},
    )


def _without_curves(leg: LegLength) -> LegLength:
    return replace(leg, curve=None, relaxed_curve=None)


def places_of(frame: Frame) -> Hashable:
    """All that lengths hang on: where the ends of the runs lie, what carries them and how it moves."""
    ports = tuple(
        (port.id, port.joins, port.position_mm, port.heading, port.moves_with) for port in frame.ports.values()
    )
    anchors = tuple((each.id, each.position_mm, each.heading, each.moves_with) for each in frame.anchors.values())
    return Key((tuple(frame.runs.values()), ports, anchors, frame.bar, frame.rear))


class Key:
    """Values that are looked up many times: their hash is worked out once."""

    __slots__ = ("_hash", "_values")

    def __init__(self, values: Hashable) -> None:
        self._values, self._hash = values, hash(values)

    def __hash__(self) -> int:
        return self._hash

    def __eq__(self, other: object) -> bool:
        return self is other or (isinstance(other, Key) and self._values == other._values)
