"""Holes told where no hole is likely: off their tube, on the wrong side, with a line that points out or back."""

import re
from collections.abc import Iterator
from math import dist, hypot

from planner.geometry.curves.bends import turn_between_deg
from planner.geometry.frame_table.tube_path import nearest_station
from planner.geometry.motion.frame_axes import opposite, unit_vector
from planner.geometry.vectors import dot, from_to, moved
from planner.parts import OUTSIDE, Anchor, Frame, Point, Port, SlipLimits, Zone
from planner.plan.slips.likely import MEASURE_AGAIN, likely_heading, likely_place
from planner.rules import SlipRule
from planner.verdicts import Check, Outcome

_SIDES = {"left": 1.0, "right": -1.0}


def port_slips(frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    """What is unlikely of every hole of a frame.

    Common practice, no source.
    """
    for port in frame.ports.values():
        if port.position_mm is not None and port.heading is not None:
            yield from _off_tube(port, port.position_mm, frame, limits)
            yield from _points_out(port, port.position_mm, port.heading, frame, limits)
            yield from _backwards(port, port.position_mm, port.heading, frame, limits)
        if port.id in frame.retold:
            yield from _told_twice(port, *frame.retold[port.id], limits)


def side_slips(frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    """Holes, anchors and cavities that are called left and lie right of the middle, or the other way round.

    Common practice, no source.
    """
    places: list[Port | Anchor] = [*frame.ports.values(), *frame.anchors.values()]
    named = [(place.id, f"{place.id} {place.label}", place.position_mm) for place in places]
    named += [(zone.id, zone.id, _middle_mm(zone)) for zone in frame.zones.values()]
    for id_, name, place_mm in named:
        words = {word for word in re.split(r"[^a-z]+", name.lower()) if word in _SIDES}
        if place_mm is None or len(words) != 1:
            continue
        (word,) = words
        beyond_mm = -_SIDES[word] * place_mm[1]
        if beyond_mm > limits.side_mm:
            yield _asked(SlipRule.OTHER_SIDE, id_, beyond_mm, None, f"y {-place_mm[1]:.4g}?", beside=word)


def _middle_mm(zone: Zone) -> Point | None:
    return zone.path_mm[len(zone.path_mm) // 2] if zone.path_mm else None


def off_tube_mm(zone: Zone, place_mm: Point, *, wall_mm: float) -> float | None:
    """How far a place lies from the wall of a tube, beyond it; None where path or bore are not told.

    Returns negative inside [mm].

    Derived: the distance from the path, less half the bore and the wall.
    """
    if not zone.path_mm or zone.bore_diameter_mm is None:
        return None
    off_mm = dist(place_mm, nearest_station(zone.path_mm, place_mm).position_mm)
    return off_mm - zone.bore_diameter_mm / 2 - wall_mm


def _off_tube(port: Port, place_mm: Point, frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    limit_mm = limits.off_tube_mm if OUTSIDE in port.joins else limits.off_window_mm
    zones = [frame.zones[zone] for zone in port.joins if zone in frame.zones]

    def worst_mm(at_mm: Point) -> tuple[float, str]:
        found = [(off_tube_mm(zone, at_mm, wall_mm=port.wall_thickness_mm), zone.id) for zone in zones]
        return max(((off_mm, id_) for off_mm, id_ in found if off_mm is not None), default=(0.0, ""))

    off_mm, zone_id = worst_mm(place_mm)
    if off_mm > limit_mm:
        by_numbers = likely_place(place_mm, lambda at_mm: worst_mm(at_mm)[0] <= limit_mm)
        likely = MEASURE_AGAIN if port.id in frame.in_words else by_numbers
        yield _asked(SlipRule.OFF_TUBE, port.id, off_mm, limit_mm, likely, beside=zone_id)


def _points_out(port: Port, place_mm: Point, heading: Point, frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    """A hole well off the middle line has a way out; the line must not go against it."""
    if OUTSIDE not in port.joins:
        return
    zone = frame.zones.get(port.joins[1] if port.joins[0] == OUTSIDE else port.joins[0])
    if zone is None or not zone.path_mm or zone.bore_diameter_mm is None:
        return
    station = nearest_station(zone.path_mm, place_mm)
    off = from_to(station.position_mm, place_mm)
    off = moved(off, station.along, -dot(off, station.along))
    radius_mm = zone.bore_diameter_mm / 2 + port.wall_thickness_mm
    if hypot(*off) <= max(limits.points_out_off_mm, limits.points_out_off_ratio * radius_mm):
        return
    out = unit_vector(off)
    right_way = out if port.joins[0] == zone.id else opposite(out)

    likely = likely_heading(heading, way=right_way, least_ratio=-limits.points_out_ratio, also=", or its `joins`")
    if likely:
        yield _asked(SlipRule.POINTS_OUT, port.id, None, None, likely, beside=zone.id)


def _backwards(port: Port, place_mm: Point, heading: Point, frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    for run in frame.runs.values():
        if port.id not in run.between:
            continue
        far = frame.ports.get(run.between[1] if run.between[0] == port.id else run.between[0])
        if far is None or far.position_mm is None or dist(far.position_mm, place_mm) == 0:
            continue
        there = unit_vector(from_to(place_mm, far.position_mm))
        way = there if run.zone_id == port.joins[1] else opposite(there)
        likely = likely_heading(heading, way=way, least_ratio=-limits.backwards_ratio, also=", or its `joins`")
        if likely:
            yield _asked(SlipRule.BACKWARDS, port.id, None, None, likely, beside=far.label or far.id)


def _told_twice(port: Port, retold_mm: Point, retold_heading: Point, limits: SlipLimits) -> Iterator[Check]:
    if port.position_mm is None or port.heading is None:
        return
    apart_mm = dist(port.position_mm, retold_mm)
    turn_deg = turn_between_deg(first=port.heading, second=retold_heading)
    if apart_mm > limits.told_twice_mm or turn_deg > limits.told_twice_deg:
        words = f"turned by {turn_deg:.0f}°"
        yield _asked(SlipRule.TOLD_TWICE, port.id, apart_mm, None, "leave one out; the numbers count", beside=words)


def _asked(
    rule: SlipRule, place_id: str, size_mm: float | None, limit_mm: float | None, likely: str, *, beside: str
) -> Check:
    return Check(
        rule=rule,
        outcome=Outcome.UNKNOWN,
        port_id=place_id,
        with_ids=(beside,),
        size_mm=size_mm,
        available_mm=limit_mm,
        note=likely,
    )
