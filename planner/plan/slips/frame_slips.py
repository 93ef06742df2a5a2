"""Everything that is unlikely of a frame as told, and what was likely meant."""

from collections.abc import Iterator
from itertools import combinations
from math import dist

from planner.geometry.curves.bends import turn_between_deg
from planner.geometry.curves.legs import find_mover
from planner.geometry.frame_table.frame_table import find_table_gaps
from planner.geometry.motion.frame_axes import unit_vector
from planner.geometry.vectors import dot, from_to, moved
from planner.parts import Frame, MovesWith, Point, SlipLimits, Zone
from planner.plan.slips.anchor_slips import anchor_slips
from planner.plan.slips.leg_slips import length_slips, loop_slips
from planner.plan.slips.likely import MEASURE_AGAIN
from planner.plan.slips.port_slips import port_slips, side_slips
from planner.rules import SlipRule
from planner.verdicts import Check, Outcome


def find_slips(*, frame: Frame, limits: SlipLimits | None, with_loops: bool) -> tuple[Check, ...]:
    """What to ask about a frame as told; nothing of it stops a plan.

    Returns in the order frame, holes, anchors, runs; none where the shop has set no limits.

    with_loops : whether the shape of every leg is looked at too; a plan looks at that itself, with its own line

    Common practice, no source.
    """
    if limits is None:
        return ()
    return (
        *_units(frame, limits),
        *_table(frame, limits),
        *_steering(frame, limits),
        *side_slips(frame, limits),
        *port_slips(frame, limits),
        *_stands_still(frame),
        *anchor_slips(frame, limits),
        *length_slips(frame, limits),
        *(loop_slips(frame, limits) if with_loops else ()),
    )


def _units(frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    """The whole frame in another unit shows in how far its furthest points are apart."""
    points_mm = {point for zone in frame.zones.values() for point in zone.path_mm}
    points_mm |= {port.position_mm for port in frame.ports.values() if port.position_mm is not None}
    points_mm |= {anchor.position_mm for anchor in frame.anchors.values() if anchor.position_mm is not None}
    far_mm = max((dist(a, b) for a, b in combinations(sorted(points_mm), 2)), default=None)
    if far_mm is None or limits.frame_least_mm <= far_mm <= limits.frame_most_mm:
        return
    units = ((limits.frame_cm_mm, "all of it in centimetres?"), (limits.frame_inches_mm, "all of it in inches?"))
    note = next((words for (least, most), words in units if least <= far_mm <= most), "all of it in millimetres?")
    yield _asked(SlipRule.FRAME_UNITS, far_mm, note)


def _table(frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    if frame.table is None:
        return
    gaps = find_table_gaps(frame.table)
    named = {
        "the front axle's height": gaps.height_mm,
        "the wheelbase": gaps.wheelbase_mm,
        "the front centre": gaps.front_centre_mm,
    }
    for words, gap_mm in named.items():
        if gap_mm is not None and abs(gap_mm) > limits.table_open_mm:
            yield _asked(SlipRule.TABLE_OPEN, abs(gap_mm), "is one of its figures misread?", beside=words)


def _head_tube(frame: Frame) -> Zone | None:
    return next((zone for zone in frame.zones.values() if zone.id.startswith("head") and zone.path_mm), None)


def _steering(frame: Frame, limits: SlipLimits) -> Iterator[Check]:
    head, bar = _head_tube(frame), frame.bar
    if head is None or bar is None:
        return
    along = from_to(head.path_mm[0], head.path_mm[-1])
    turn_deg = turn_between_deg(first=along, second=bar.axis)
    lean_deg = min(turn_deg, 180 - turn_deg)

    def off_mm(at_mm: Point) -> float:
        apart, way = from_to(head.path_mm[0], at_mm), unit_vector(along)
        return dist(apart, moved((0.0, 0.0, 0.0), way, dot(apart, way)))

    point_mm = bar.axis_point_mm
    if off_mm(point_mm) > limits.steering_off_mm or lean_deg > limits.steering_lean_deg:
        mirrored = (-point_mm[0], point_mm[1], point_mm[2])
        is_sign = off_mm(mirrored) <= limits.steering_off_mm < off_mm(point_mm)
        note = f"x {mirrored[0]:.4g}?" if is_sign else MEASURE_AGAIN
        yield _asked(SlipRule.STEERING_AXIS, off_mm(point_mm), note, beside=f"leaning {lean_deg:.0f}° to it")


def _stands_still(frame: Frame) -> Iterator[Check]:
    """A hole of a tube whose other holes ride."""
    movers = {id_: find_mover(frame=frame, place=id_) for id_ in frame.ports}
    for port in frame.ports.values():
        if movers[port.id] is not None:
            continue
        zones = set(port.joins) & set(frame.zones)
        riding = [
            other.label or other.id
            for other in frame.ports.values()
            if movers[other.id] is MovesWith.REAR and zones & set(other.joins)
        ]
        if riding:
            yield Check(
                rule=SlipRule.STANDS_STILL,
                outcome=Outcome.UNKNOWN,
                port_id=port.id,
                with_ids=(riding[0],),
                note="name it in the rear's `moves`?",
            )


def _asked(rule: SlipRule, size_mm: float, note: str, *, beside: str = "") -> Check:
    return Check(
        rule=rule,
        outcome=Outcome.UNKNOWN,
        with_ids=(beside,) if beside else (),
        size_mm=size_mm,
        note=note,
    )
