"""What moves on a frame, however it was told: the bar, the rear, and all that rides on it."""

from collections.abc import Iterator, Mapping

from catalog.frames import FourBarEntry, PortEntry, SinglePivotEntry
from catalog.layouts import bar_defaults, layout_defaults
from catalog.mechanic_errors import Complaint
from catalog.told_places import ToldFrame
from planner import rear_axle_mm, steering_axis, swing_of_travel_deg
from planner.errors import ImpossibleDimensionError
from planner.parts import (
    OUTSIDE,
    AnchorPart,
    Bar,
    FourBar,
    FrameEnd,
    FrameTable,
    MovesWith,
    SinglePivot,
)

STAYS = ("stay_left", "stay_right", "seatstay_left", "seatstay_right")
"""Cavities that a table draws and that lie behind a single pivot."""


def find_bar(told: ToldFrame, *, table: FrameTable | None) -> Bar | None:
    """How the bar turns: about the axis told, else about the table's; None where there is neither."""
    bar, geometry = told.bar, told.geometry
    if bar is not None and bar.axis_point is not None and bar.axis is not None:
        return Bar(axis_point_mm=bar.axis_point, axis=bar.axis, lock_deg=bar.lock)
    if table is None or geometry is None:
        return None
    point_mm, axis = steering_axis(table)
    kind = None if told.cockpit is None else told.cockpit.bar
    usual = bar_defaults(kind or layout_defaults(geometry.layout).bar)
    return Bar(axis_point_mm=point_mm, axis=axis, lock_deg=usual.lock if bar is None else bar.lock)


def find_rear(told: ToldFrame, *, table: FrameTable | None) -> SinglePivot | FourBar | None:
    """How the rear swings and what rides on it; None for a frame without one.

    Raises ImpossibleDimensionError when the travel is out of the rear's reach.
    """
    rear = told.rear
    if isinstance(rear, FourBarEntry):
        return FourBar(
            frame_pivots_mm=rear.frame_pivots,
            link_pivots_mm=rear.link_pivots,
            swing_deg=rear.swing,
            moves=find_riders(told),
        )
    pivot_mm = None if rear is None else _pivot_mm(rear, told)
    if rear is None or pivot_mm is None:
        return None
    swing_deg = rear.swing
    if swing_deg is None and rear.travel is not None and table is not None:
        swing_deg = swing_of_travel_deg(axle_mm=rear_axle_mm(table), pivot_mm=pivot_mm, travel_mm=rear.travel)
    return None if swing_deg is None else SinglePivot(pivot_mm=pivot_mm, swing_deg=swing_deg, moves=find_riders(told))


def _pivot_mm(rear: SinglePivotEntry, told: ToldFrame) -> tuple[float, float] | None:
    if rear.pivot is not None or told.geometry is None:
        return rear.pivot
    return told.geometry.defaults.pivot


def motion_complaints(told: ToldFrame, *, table: FrameTable | None) -> Iterator[Complaint]:
    """What is missing or said twice of what moves."""
    bar = told.bar
    if bar is not None and (bar.axis_point is None) is not (bar.axis is None):
        missing = "axis_point" if bar.axis_point is None else "axis"
        yield ("bar", missing), "nothing was given", "axis_point and axis together, or neither beside `geometry`"
    elif bar is not None and bar.axis is None and told.geometry is None:
        yield ("bar", "axis_point"), "nothing was given", "axis_point and axis, or `geometry`, which draws them"
    if isinstance(told.rear, SinglePivotEntry):
        yield from _single_pivot_complaints(told.rear, told, table)
    for place, zone in enumerate(told.zones):
        if zone.moves_with is MovesWith.REAR and told.rear is None:
            given = "rear was given on a frame without one"
            yield ("zones", place, "moves_with"), given, "rear: how it moves, or moves_with left out"


def _single_pivot_complaints(rear: SinglePivotEntry, told: ToldFrame, table: FrameTable | None) -> Iterator[Complaint]:
    if (rear.swing is None) is (rear.travel is None):
        given = "nothing was given" if rear.swing is None else f"{rear.swing:g} degrees was given beside travel"
        yield ("rear", "swing"), given, "one of swing and, beside `geometry`, travel"
        return
    pivot_mm = _pivot_mm(rear, told)
    if pivot_mm is None:
        yield ("rear", "pivot"), "nothing was given", "[x, z] of the pivot, from the bottom bracket's middle"
    elif rear.travel is not None and told.geometry is None:
        given = f"{rear.travel:g} mm was given without `geometry`, which draws the axle"
        yield ("rear", "travel"), given, "swing, or `geometry`"
    elif table is not None:
        try:
            find_rear(told, table=table)
        except ImpossibleDimensionError as wrong:
            yield ("rear", "travel"), f"{wrong.value:g} mm was given", f"it {wrong.rule}"


def find_zone_movers(told: ToldFrame) -> dict[str, MovesWith]:
    """What each cavity rides on, where it does not stand still.

    The stays that a table draws behind a single pivot ride on it unless their own entry says otherwise.
    """
    movers = {zone.id: zone.moves_with for zone in told.zones if zone.moves_with is not None}
    if told.geometry is None or not isinstance(told.rear, SinglePivotEntry):
        return movers
    placed = {zone.id for zone in told.zones if zone.path}
    return {**{id_: MovesWith.REAR for id_ in STAYS if id_ not in placed}, **movers}


def find_riders(told: ToldFrame) -> tuple[str, ...]:
    """Everything that rides on the rear: what it names, what says so itself, and the holes of cavities that ride."""
    if told.rear is None:
        return ()
    movers = find_zone_movers(told)
    riders = dict.fromkeys(told.rear.moves)
    for _, port in told.ports:
        if find_port_mover(port, movers) is MovesWith.REAR:
            riders.setdefault(port.id)
    rides_behind = isinstance(told.rear, SinglePivotEntry)
    for anchor in told.anchors:
        is_behind = anchor.is_ in (AnchorPart.CALIPER, AnchorPart.DERAILLEUR) and anchor.end is not FrameEnd.FRONT
        if anchor.moves_with is MovesWith.REAR or (anchor.moves_with is None and is_behind and rides_behind):
            riders.setdefault(anchor.id)
    return tuple(riders)


def find_port_mover(port: PortEntry, movers: Mapping[str, MovesWith]) -> MovesWith | None:
    """What a hole rides on: told, or what every cavity that it opens rides on."""
    of_zones = {movers.get(zone) for zone in port.joins if zone != OUTSIDE}
    return of_zones.pop() if port.moves_with is None and len(of_zones) == 1 else port.moves_with
