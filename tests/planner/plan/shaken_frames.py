"""Frames as they come out of honest measuring: everything a little off, in a direction drawn at random."""

from collections.abc import Callable
from dataclasses import replace
from math import cos, hypot, radians, sin
from random import Random

from planner.parts import Frame, Point


def shaken(frame: Frame, *, by_mm: float, by_deg: float, seed: str, with_tubes: bool = True) -> Frame:
    """Every hole, anchor and steering axis moved by so much, every heading turned by so much; the tubes' points too.

    seed : the same one draws the same frame
    """
    chance = Random(seed)

    def point(place: Point | None) -> Point | None:
        return None if place is None else _moved(place, by_mm, chance)

    def heading(way: Point | None) -> Point | None:
        return None if way is None else _turned(way, by_deg, chance)

    return replace(
        frame,
        zones={
            id_: replace(zone, path_mm=tuple(_moved(at, by_mm, chance) for at in zone.path_mm)) if with_tubes else zone
            for id_, zone in frame.zones.items()
        },
        ports={
            id_: replace(port, position_mm=point(port.position_mm), heading=heading(port.heading))
            for id_, port in frame.ports.items()
        },
        anchors={
            id_: replace(end, position_mm=point(end.position_mm), heading=heading(end.heading))
            for id_, end in frame.anchors.items()
        },
        bar=None
        if frame.bar is None
        else replace(frame.bar, axis_point_mm=_moved(frame.bar.axis_point_mm, by_mm, chance)),
    )


def _moved(place: Point, by_mm: float, chance: Random) -> Point:
    x, y, z = (at + by_mm * way for at, way in zip(place, _direction(chance), strict=True))
    return (x, y, z)


def _turned(heading: Point, by_deg: float, chance: Random) -> Point:
    size = hypot(*heading)
    ahead = [each / size for each in heading]
    drawn = _direction(chance)
    along = sum(a * b for a, b in zip(ahead, drawn, strict=True))
    aside = [b - along * a for a, b in zip(ahead, drawn, strict=True)]
    x, y, z = (
        cos(radians(by_deg)) * a + sin(radians(by_deg)) * b / hypot(*aside) for a, b in zip(ahead, aside, strict=True)
    )
    return (x, y, z)


def _direction(chance: Random) -> Point:
    drawn = [chance.gauss(0, 1) for _ in range(3)]
    x, y, z = (each / hypot(*drawn) for each in drawn)
    return (x, y, z)


def places_as(frame: Frame, told: Callable[[Point], Point]) -> Frame:
    """The frame with every point of tubes, holes and anchors told otherwise."""

    def point(place: Point | None) -> Point | None:
        return None if place is None else told(place)

    return replace(
        frame,
        zones={id_: replace(zone, path_mm=tuple(told(at) for at in zone.path_mm)) for id_, zone in frame.zones.items()},
        ports={id_: replace(port, position_mm=point(port.position_mm)) for id_, port in frame.ports.items()},
        anchors={id_: replace(end, position_mm=point(end.position_mm)) for id_, end in frame.anchors.items()},
    )
