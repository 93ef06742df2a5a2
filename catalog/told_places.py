"""Where everything of a frame lies, however it was told: by numbers, on a tube, or by the geometry table."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from catalog.frame_tables import CockpitEntry, GeometryEntry
from catalog.frames import AnchorEntry, BarEntry, BrakeMountsEntry, FourBarEntry, PortEntry, RunEntry, ZoneEntry
from catalog.frames import SinglePivotEntry
from catalog.layouts import bar_defaults, layout_defaults
from catalog.mechanic_errors import Complaint
from catalog.port_places import WINDOW, tube_place
from planner import (
    NotPlaced,
    find_caliper_outlet,
    find_outlet,
    find_port_poses,
    find_tubes,
    rear_axle_mm,
    steering_axis,
    swing_of_travel_deg,
)
from planner.errors import ImpossibleDimensionError
from planner.parts import (
    OUTSIDE,
    AnchorPart,
    Bar,
    FrameEnd,
    FrameTable,
    MovesWith,
    Point,
    RiderSide,
    SinglePivot,
    ToldPort,
    Tube,
)

PointAndWay = tuple[Point, Point]
"""A place and the way a line points there."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldFrame:
    """The parts of a frame file that say where something lies, each with its place in its list."""

    zones: tuple[ZoneEntry, ...] = ()
    ports: tuple[tuple[int, PortEntry], ...] = ()
    anchors: tuple[AnchorEntry, ...] = ()
    runs: tuple[RunEntry, ...] = ()
    geometry: GeometryEntry | None = None
    cockpit: CockpitEntry | None = None
    bar: BarEntry | None = None
    rear: SinglePivotEntry | FourBarEntry | None = None
    brakes: BrakeMountsEntry = BrakeMountsEntry()


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Where everything lies.

    paths : of cavities by id, those that the table draws among them
    ports, anchors : by id; what nobody told is not in them
    retold : ports told by numbers and on their tubes: what the latter says
    bar : how it turns; None where nobody told it
    table : the geometry table; None where there is none
    complaints : what cannot be placed, and why
    """

    paths: Mapping[str, tuple[Point, ...]]
    ports: Mapping[str, PointAndWay]
    anchors: Mapping[str, PointAndWay]
    retold: Mapping[str, PointAndWay]
    bar: Bar | None
    table: FrameTable | None
    complaints: tuple[Complaint, ...] = field(default=())


def find_places(told: ToldFrame) -> Places:
    """Where everything of a frame lies; named cavities go before those that the table draws."""
    table, complaints = None, []
    if told.geometry is not None:
        complaints = [(("geometry", *path), given, allowed) for path, given, allowed in told.geometry.complaints()]
        table = None if complaints else told.geometry.part()
    paths: dict[str, tuple[Point, ...]] = {zone.id: zone.path for zone in told.zones if zone.path}
    if table is not None:
        paths = {**find_tubes(table), **paths}
    ports, retold = _port_places(told, paths, complaints)
    return Places(
        paths=paths,
        ports=ports,
        retold=retold,
        anchors=dict(_anchor_places(told, table)),
        bar=_bar_of(told, table),
        table=table,
        complaints=tuple(complaints),
    )


def _port_places(
    told: ToldFrame, paths: Mapping[str, tuple[Point, ...]], complaints: list[Complaint]
) -> tuple[dict[str, PointAndWay], dict[str, PointAndWay]]:
    entries = {zone.id: zone for zone in told.zones}
    tubes = {
        id_: Tube(
            path_mm=path_mm,
            bore_mm=entries[id_].bore if id_ in entries else None,
            outer_mm=entries[id_].outer if id_ in entries else None,
        )
        for id_, path_mm in paths.items()
    }
    poses = find_port_poses(
        tubes=tubes,
        ports=[_told_port(port) for _, port in told.ports],
        runs=[(run.zone, run.between) for run in told.runs],
    )
    ports, retold = {}, {}
    for place, port in told.ports:
        pose = poses.get(port.id)
        if isinstance(pose, NotPlaced):
            path = ("ports", place, "on", *([pose.field] if pose.field in ("zone", "side", "off") else []))
            complaints.append((path, pose.given, pose.allowed))
        elif pose is not None:
            (ports if port.at is None else retold)[port.id] = (pose.position_mm, pose.heading)
        if port.at is not None and port.heading is not None:
            ports[port.id] = (port.at, port.heading)
    return ports, retold


def _told_port(port: PortEntry) -> ToldPort:
    on, is_window = None, port.on is not None and port.on.end == WINDOW
    if port.on is not None and not is_window:
        tubes = [zone for zone in port.joins if zone != OUTSIDE]
        on = tube_place(port.on, zone_id=port.on.zone or tubes[0], tilt_deg=port.tilt)
    return ToldPort(id=port.id, joins=port.joins, at_mm=port.at, on=on, is_window=is_window, wall_mm=port.wall)


def _anchor_places(told: ToldFrame, table: FrameTable | None) -> Iterator[tuple[str, PointAndWay]]:
    for anchor in told.anchors:
        if anchor.at is not None and anchor.heading is not None:
            yield anchor.id, (anchor.at, anchor.heading)
        elif anchor.at is None and table is not None:
            yield from _drawn_anchor(anchor, told, table)


def _drawn_anchor(anchor: AnchorEntry, told: ToldFrame, table: FrameTable) -> Iterator[tuple[str, PointAndWay]]:
    """A lever or shifter by the cockpit, a rear caliper by the axle; nothing where one of these was not told."""
    pose, rear = None, told.brakes.rear
    if anchor.is_ in (AnchorPart.LEVER, AnchorPart.SHIFTER) and told.cockpit is not None and told.geometry is not None:
        layout = told.geometry.layout
        if anchor.side is not None:
            pose = find_outlet(
                table=table,
                cockpit=told.cockpit.part(layout),
                outlet=told.cockpit.outlet(layout, is_lever=anchor.is_ is AnchorPart.LEVER),
                is_left=anchor.side is RiderSide.LEFT,
            )
    elif anchor.is_ is AnchorPart.CALIPER and anchor.end is not FrameEnd.FRONT and rear is not None:
        is_left = anchor.side is not RiderSide.RIGHT
        pose = find_caliper_outlet(axle_mm=rear_axle_mm(table), mount=rear.mount, is_left=is_left)
    if pose is not None:
        yield anchor.id, (pose.position_mm, pose.heading)


def _bar_of(told: ToldFrame, table: FrameTable | None) -> Bar | None:
    bar, geometry = told.bar, told.geometry
    if bar is not None and bar.axis_point is not None and bar.axis is not None:
        return Bar(axis_point_mm=bar.axis_point, axis=bar.axis, lock_deg=bar.lock)
    if table is None or geometry is None:
        return None
    point_mm, axis = steering_axis(table)
    kind = layout_defaults(geometry.layout).bar if told.cockpit is None else told.cockpit.bar
    usual = bar_defaults(kind or layout_defaults(geometry.layout).bar)
    return Bar(axis_point_mm=point_mm, axis=axis, lock_deg=usual.lock if bar is None else bar.lock)


def find_swing(rear: SinglePivotEntry, *, table: FrameTable | None) -> SinglePivot | ImpossibleDimensionError | None:
    """How a single pivot swings, by the angle told or by the travel of the axle that the table draws.

    Returns why it cannot where the travel is out of its reach; None where there is no table to tell it by.
    """
    pivot_mm = rear.pivot_mm
    if rear.swing is not None and rear.pivot is not None:
        return SinglePivot(pivot_mm=rear.pivot, swing_deg=rear.swing, moves=rear.moves)
    if table is None:
        return None
    if rear.swing is not None or rear.travel is None:
        return None if rear.swing is None else SinglePivot(pivot_mm=pivot_mm, swing_deg=rear.swing, moves=rear.moves)
    try:
        swing_deg = swing_of_travel_deg(axle_mm=rear_axle_mm(table), pivot_mm=pivot_mm, travel_mm=rear.travel)
    except ImpossibleDimensionError as wrong:
        return wrong
    return SinglePivot(pivot_mm=pivot_mm, swing_deg=swing_deg, moves=rear.moves)


def find_riders(told: ToldFrame) -> tuple[str, ...]:
    """Everything that rides on the rear: what it names, what says so itself, and the holes of cavities that ride."""
    if told.rear is None:
        return ()
    movers = {zone.id: zone.moves_with for zone in told.zones}
    riders = dict.fromkeys(told.rear.moves)
    for _, port in told.ports:
        of_zones = {movers.get(zone) for zone in port.joins if zone != OUTSIDE}
        if port.moves_with is MovesWith.REAR or (port.moves_with is None and of_zones == {MovesWith.REAR}):
            riders.setdefault(port.id)
    rides_behind = isinstance(told.rear, SinglePivotEntry)
    for anchor in told.anchors:
        is_behind = anchor.is_ in (AnchorPart.CALIPER, AnchorPart.DERAILLEUR) and anchor.end is not FrameEnd.FRONT
        if anchor.moves_with is MovesWith.REAR or (anchor.moves_with is None and is_behind and rides_behind):
            riders.setdefault(anchor.id)
    return tuple(riders)
