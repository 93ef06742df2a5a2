"""Where the entries of things become planner parts, and short file names become names with units."""

from collections.abc import Mapping
from typing import TypeVar

from catalog.brakes import BrakeEntry, CaliperEntry, LeverEntry
from catalog.fittings import FittingEntry
from catalog.frames import AnchorEntry, BrakeMountEntry, FrameEntry, GuideEntry, PortEntry, RunEntry
from catalog.lines import LineEntry
from catalog.openings import InsertEntry, OpeningEntry, spread_of_opening_mm
from catalog.shop import ShopEntry
from catalog.spreads import spread_of
from catalog.told_motion import find_bar, find_port_mover, find_rear, find_zone_movers
from catalog.told_places import Places, find_places, told_by
from planner import parts

Known = TypeVar("Known")


def to_line(entry: LineEntry, *, shop: ShopEntry) -> parts.Line:
    """A line."""
    return parts.Line(
        id=entry.id,
        name=entry.name or entry.id,
        kind=entry.kind,
        outer_diameter_mm=entry.outer,
        outer_tolerance_mm=_or_shop(entry.outer_tolerance, shop.line_tolerance),
        bore_diameter_mm=entry.bore,
        minimum_bend_radius_mm=entry.bend_radius,
        cable_diameter_mm=entry.cable,
        foam_diameter_mm=entry.foam,
        friction_ratio=entry.friction,
        mass_g_per_m=entry.mass_per_metre,
        pressure_shrink_ratio=entry.pressure_shrink,
        price_per_m=entry.price_per_metre,
    )


def to_fitting(entry: FittingEntry) -> parts.Fitting:
    """A fitting."""
    return parts.Fitting(
        id=entry.id,
        name=entry.name or entry.id,
        style=entry.style,
        set_by=entry.set_by,
        outer_diameter_mm=entry.outer,
        length_mm=entry.length,
        line_outer_diameter_mm=entry.line_outer,
        line_bore_diameter_mm=entry.line_bore,
        insertion_depth_mm=entry.depth,
        thread=entry.thread,
        joint_diameter_mm=entry.joint_outer,
        joint_holds_n=entry.joint_holds,
        uses=entry.uses,
        price=entry.price,
    )


def to_brake(entry: BrakeEntry, *, lines: dict[str, parts.Line], fittings: dict[str, parts.Fitting]) -> parts.Brake:
    """A brake with its line and both ends."""
    return parts.Brake(
        id=entry.id,
        name=entry.name or entry.id,
        fluid=entry.fluid,
        line=lines[entry.line],
        supplied_length_mm=entry.supplied_length,
        lever_end=_to_end(entry.lever, fittings),
        caliper_end=_to_end(entry.caliper, fittings),
        lever_clamp_mm=entry.lever.clamp,
        made_for=entry.end,
        caliper_mount=entry.caliper.mount,
        caliper_rotor_min_mm=entry.caliper.rotor_min,
        caliper_rotor_max_mm=entry.caliper.rotor_max,
        price=entry.price,
    )


def _to_end(entry: LeverEntry | CaliperEntry, fittings: dict[str, parts.Fitting]) -> parts.LineEnd:
    if entry.fitting is None:
        return parts.LineEnd()
    return parts.LineEnd(fitting=fittings[entry.fitting], is_fitted=entry.fitted)


def _to_opening(entry: OpeningEntry, shop: ShopEntry) -> parts.Opening:
    half_mm = spread_of_opening_mm(entry)
    return entry.part(tolerance_mm=half_mm or _or_shop(entry.tolerance, shop.opening_tolerance))


def to_frame(entry: FrameEntry, *, shop: ShopEntry) -> parts.Frame:
    """A frame with everything routing asks of it, wherever its places come from."""
    mounts = {"front": entry.brakes.front, "rear": entry.brakes.rear}
    told = told_by(entry)
    places, movers = find_places(told), find_zone_movers(told)
    return parts.Frame(
        id=entry.id,
        name=entry.name or entry.id,
        zones=_to_zones(entry, places, movers),
        ports={port.id: _to_port(port, shop, places, movers) for port in entry.ports},
        anchors={anchor.id: _to_anchor(anchor, places) for anchor in entry.anchors},
        runs={run.id: _to_run(run, shop) for run in entry.runs},
        bar=find_bar(told, table=places.table),
        rear=find_rear(told, table=places.table),
        brakes={end: _to_mount(mount) for end, mount in mounts.items() if mount is not None},
        bar_clamp_mm=entry.bar_clamp,
        features=frozenset(entry.features),
        geometry_error=entry.geometry_error or shop.geometry_error or _error_of_words(entry),
        table=places.table,
        in_words=frozenset(port.id for port in entry.ports if port.at is None and port.on is not None),
        retold=dict(places.retold),
    )


def _error_of_words(entry: FrameEntry) -> parts.GeometryError | None:
    """Places told on tubes or by a table are as good as a photograph's; of numbers nobody said how good they are."""
    is_by_words = entry.geometry is not None or any(port.on is not None and port.at is None for port in entry.ports)
    return parts.GeometryError.ORDINARY if is_by_words else None


def _to_zones(entry: FrameEntry, places: Places, movers: Mapping[str, parts.MovesWith]) -> dict[str, parts.Zone]:
    """The cavities named, and those that the table draws beside them."""
    bores = {zone.id: zone.bore for zone in entry.zones}
    return {
        id_: parts.Zone(
            id=id_,
            path_mm=places.paths.get(id_, ()),
            bore_diameter_mm=bores.get(id_),
            bore_tolerance_mm=spread_of(bores.get(id_)),
            moves_with=movers.get(id_),
        )
        for id_ in dict.fromkeys((*bores, *places.paths))
    }


def _to_anchor(entry: AnchorEntry, places: Places) -> parts.Anchor:
    position_mm, heading = places.anchors.get(entry.id, (None, None))
    steers = entry.is_ in (parts.AnchorPart.LEVER, parts.AnchorPart.SHIFTER)
    return parts.Anchor(
        id=entry.id,
        position_mm=position_mm,
        heading=heading,
        moves_with=parts.MovesWith.BAR if entry.moves_with is None and steers else entry.moves_with,
        label=entry.label,
        serves=entry.serves,
        part=entry.is_,
        side=entry.side,
        end=entry.end,
        is_drawn=entry.id in places.drawn,
    )


def _to_port(entry: PortEntry, shop: ShopEntry, places: Places, movers: Mapping[str, parts.MovesWith]) -> parts.Port:
    position_mm, heading = places.ports.get(entry.id, (None, None))
    return parts.Port(
        id=entry.id,
        label=entry.label or entry.id,
        joins=entry.joins,
        position_mm=position_mm,
        heading=heading,
        opening=None if entry.opening is None else _to_opening(entry.opening, shop),
        tilt_deg=float(entry.tilt),
        tilt_tolerance_deg=spread_of(entry.tilt),
        wall_thickness_mm=float(entry.wall),
        wall_tolerance_mm=spread_of(entry.wall),
        insert=None if entry.insert is None else _to_insert(entry.insert, shop),
        moves_with=find_port_mover(entry, movers),
        admits=entry.admits,
        entry_drag_n=entry.entry_drag,
        lies_at=entry.lies_at,
        looks=entry.looks,
    )


def _to_insert(entry: InsertEntry, shop: ShopEntry) -> parts.Insert:
    return parts.Insert(opening=_to_opening(entry.opening, shop), is_removable=entry.removable, is_split=entry.split)


def _to_run(entry: RunEntry, shop: ShopEntry) -> parts.Run:
    return parts.Run(
        id=entry.id,
        label=entry.label,
        zone_id=entry.zone,
        between=entry.between,
        guide=None if entry.guide is None else _to_guide(entry.guide, shop),
        via_mm=entry.via,
        clips_mm=entry.clips,
        slack_mm=entry.slack or 0.0,
        length_mm=None if entry.length is None else float(entry.length),
        length_tolerance_mm=spread_of(entry.length) or _length_tolerance_mm(entry, shop),
        length_by=entry.length_by,
        is_reached=entry.reached,
    )


def _length_tolerance_mm(entry: RunEntry, shop: ShopEntry) -> float:
    if entry.length is None:
        return 0.0
    is_outside = entry.zone == parts.OUTSIDE
    return _or_shop(
        entry.length_tolerance, shop.length_tolerance_outside if is_outside else shop.length_tolerance_inside
    )


def _to_guide(entry: GuideEntry, shop: ShopEntry) -> parts.Guide:
    return parts.Guide(
        bore_diameter_mm=entry.bore,
        bend_radius_mm=entry.bend_radius,
        turn_deg=entry.turn,
        length_mm=None if entry.length is None else float(entry.length),
        length_tolerance_mm=spread_of(entry.length),
        tolerance_mm=spread_of(entry.bore) or _or_shop(entry.tolerance, shop.guide_tolerance),
    )


def _to_mount(entry: BrakeMountEntry) -> parts.BrakeMount:
    return parts.BrakeMount(
        mount=entry.mount,
        rotor_native_mm=entry.rotor_native,
        rotor_min_mm=entry.rotor_min,
        rotor_max_mm=entry.rotor_max,
        hub=entry.hub,
    )


def _or_shop(own: float | None, shops: float | None) -> float:
    return own if own is not None else known(shops)


def known(value: Known | None) -> Known:
    """A limit of the shop that must be there by now."""
    if value is None:
        raise ValueError("a shop's limit is not known: fill the shop up from the starter catalog first")
    return value
