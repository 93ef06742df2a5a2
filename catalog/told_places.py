"""Where everything of a frame lies, however it was told: by numbers, on a tube, or by the geometry table."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field

from catalog.frame_tables import CockpitEntry, GeometryEntry
from catalog.frames import (
    AnchorEntry,
    BarEntry,
    BrakeMountsEntry,
    FourBarEntry,
    FrameEntry,
    PortEntry,
    RunEntry,
    SinglePivotEntry,
    ZoneEntry,
)
from catalog.mechanic_errors import Complaint
from catalog.port_places import WINDOW, OnEntry, tube_place
from catalog.yaml_text import Path
from planner import (
    NotPlaced,
    find_caliper_outlet,
    find_outlet,
    find_port_poses,
    find_tubes,
    rear_axle_mm,
)
from planner.parts import (
    OUTSIDE,
    AnchorPart,
    FrameEnd,
    FrameTable,
    Point,
    RiderSide,
    ToldPort,
    Tube,
)

PointAndWay = tuple[Point, Point]
"""A place and the way a line points there."""

DRAWN_ZONES = (
    "head_tube",
    "down_tube",
    "stay_left",
    "stay_right",
    "seat_tube",
    "top_tube",
    "seatstay_left",
    "seatstay_right",
)
"""Cavities that a geometry table can draw."""


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
    brakes: BrakeMountsEntry = field(default_factory=BrakeMountsEntry)


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Where everything lies.

    paths : of cavities by id, those that the table draws among them
    ports, anchors : by id; what nobody told is not in them
    retold : ports told by numbers and on their tubes: what the latter says
    drawn : anchors placed by what is usual of their part alone
    table : the geometry table; None where there is none
    complaints : what cannot be placed, and why
    """

    paths: Mapping[str, tuple[Point, ...]]
    ports: Mapping[str, PointAndWay]
    anchors: Mapping[str, PointAndWay]
    retold: Mapping[str, PointAndWay]
    drawn: frozenset[str]
    table: FrameTable | None
    complaints: tuple[Complaint, ...] = field(default=())


def drawn_zone_ids(geometry: GeometryEntry | None) -> tuple[str, ...]:
    """The cavities that a geometry table draws; all that one can, where it is not accepted yet.

    geometry : as accepted; None where it is not
    """
    if geometry is None or any(geometry.complaints()):
        return DRAWN_ZONES
    return tuple(find_tubes(geometry.part()))


def find_places(told: ToldFrame) -> Places:
    """Where everything of a frame lies; named cavities go before those that the table draws."""
    table, complaints = None, []
    if told.geometry is not None:
        complaints = [(("geometry", *path), given, allowed) for path, given, allowed in told.geometry.complaints()]
        table = None if complaints else told.geometry.part()
    paths: dict[str, tuple[Point, ...]] = {zone.id: zone.path for zone in told.zones if zone.path}
    if table is not None:
        paths = {**find_tubes(table), **paths}
    ports, retold = ({}, {}) if complaints else _port_places(told, paths, complaints)
    return Places(
        paths=paths,
        ports=ports,
        retold=retold,
        anchors=dict(_anchor_places(told, table, ports)),
        drawn=frozenset(anchor.id for anchor in told.anchors if anchor.at is None and anchor.is_ is AnchorPart.CALIPER),
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
    ports: dict[str, PointAndWay] = {}
    retold: dict[str, PointAndWay] = {}
    for place, port in told.ports:
        pose = poses.get(port.id)
        if isinstance(pose, NotPlaced):
            inside = (pose.field,) if pose.field in OnEntry.model_fields else ()
            complaints.append((("ports", place, "on", *inside), pose.given, pose.allowed))
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


def _anchor_places(
    told: ToldFrame, table: FrameTable | None, ports: Mapping[str, PointAndWay]
) -> Iterator[tuple[str, PointAndWay]]:
    for anchor in told.anchors:
        if anchor.at is not None and anchor.heading is not None:
            yield anchor.id, (anchor.at, anchor.heading)
        elif anchor.at is None and table is not None:
            yield from _drawn_anchor(anchor, told, table, ports)


def _drawn_anchor(
    anchor: AnchorEntry, told: ToldFrame, table: FrameTable, ports: Mapping[str, PointAndWay]
) -> Iterator[tuple[str, PointAndWay]]:
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
        beside = [place for run in told.runs if anchor.id in run.between for place in run.between if place in ports]
        far_mm = ports[beside[0]][0] if beside else None
        pose = find_caliper_outlet(axle_mm=rear_axle_mm(table), mount=rear.mount, is_left=is_left, far_mm=far_mm)
    if pose is not None:
        yield anchor.id, (pose.position_mm, pose.heading)


def zone_complaints(zone: ZoneEntry, path: Path) -> Iterator[Complaint]:
    """What a cavity's two sizes say against each other."""
    if zone.outer is not None and zone.bore is not None and min(zone.outer) <= zone.bore:
        given = f"{min(zone.outer):g} mm was given"
        yield (*path, "outer"), given, f"more than the bore, {zone.bore:g} mm, is allowed"


def told_by(entry: FrameEntry) -> ToldFrame:
    """What a frame that is accepted says of where something lies."""
    return ToldFrame(
        zones=entry.zones,
        ports=tuple(enumerate(entry.ports)),
        anchors=entry.anchors,
        runs=entry.runs,
        geometry=entry.geometry,
        cockpit=entry.cockpit,
        bar=entry.bar,
        rear=entry.rear,
        brakes=entry.brakes,
    )
