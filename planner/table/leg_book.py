"""Lengths of legs, by the values they hang on: frames that differ in their holes alone share them."""

from collections.abc import Hashable, Iterable

from planner.parts import Frame, Line
from planner.plan.leg_lengths import find_legs, hang_legs
from planner.plan.lengths import LegLength


class LegBook:
    """Legs at rest, and those that were hung as a real hose lies."""

    def __init__(self) -> None:
        self._rest: dict[Hashable, dict[str, LegLength]] = {}
        self._hung: dict[Hashable, dict[str, LegLength]] = {}

    def rest(self, *, frame: Frame, places: Hashable, line: Line) -> dict[str, LegLength]:
        """Every leg of a frame as `find_legs` tells it.

        places : of the frame, as `places_of` tells them
        """
        key = (places, line.minimum_bend_radius_mm, line.outer_diameter_mm)
        found = self._rest.get(key)
        if found is None:
            found = self._rest[key] = find_legs(frame=frame, line=line)
        return found

    def hung(self, *, frame: Frame, places: Hashable, line: Line, run_ids: Iterable[str]) -> dict[str, LegLength]:
        """The legs with the upper estimates of at least these runs.

        places : of the frame, as `places_of` tells them
        """
        key = (places, line.minimum_bend_radius_mm, line.outer_diameter_mm)
        known = self._hung.setdefault(key, {})
        missing = [run_id for run_id in run_ids if run_id not in known]
        legs = self.rest(frame=frame, places=places, line=line)
        if missing:
            hung = hang_legs(frame=frame, line=line, legs=legs, run_ids=missing)
            known.update((run_id, hung[run_id]) for run_id in missing)
        return {**legs, **known}


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
