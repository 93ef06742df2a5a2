"""Where the entries of things become planner parts, and short file names become names with units."""

from typing import TypeVar

from catalog.brakes import BrakeEntry, CaliperEntry, LeverEntry
from catalog.fittings import FittingEntry
from catalog.frames import BrakeMountEntry, FourBarEntry, FrameEntry, GuideEntry, PortEntry, RunEntry, SinglePivotEntry
from catalog.lines import LineEntry
from catalog.openings import InsertEntry, OpeningEntry
from catalog.shop import ShopEntry
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
    return entry.part(tolerance_mm=_or_shop(entry.tolerance, shop.opening_tolerance))


def to_frame(entry: FrameEntry, *, shop: ShopEntry) -> parts.Frame:
    """A frame with everything routing asks of it."""
    mounts = {"front": entry.brakes.front, "rear": entry.brakes.rear}
    return parts.Frame(
        id=entry.id,
        name=entry.name or entry.id,
        zones={zone.id: parts.Zone(id=zone.id, path_mm=zone.path, bore_diameter_mm=zone.bore) for zone in entry.zones},
        ports={port.id: _to_port(port, shop) for port in entry.ports},
        anchors={
            anchor.id: parts.Anchor(
                id=anchor.id,
                position_mm=anchor.at,
                heading=anchor.heading,
                moves_with=anchor.moves_with,
                label=anchor.label,
                serves=anchor.serves,
                part=anchor.is_,
                side=anchor.side,
                end=anchor.end,
            )
            for anchor in entry.anchors
        },
        runs={run.id: _to_run(run, shop) for run in entry.runs},
        bar=None
        if entry.bar is None
        else parts.Bar(axis_point_mm=entry.bar.axis_point, axis=entry.bar.axis, lock_deg=entry.bar.lock),
        rear=None if entry.rear is None else _to_rear(entry.rear),
        brakes={end: _to_mount(mount) for end, mount in mounts.items() if mount is not None},
        bar_clamp_mm=entry.bar_clamp,
        features=frozenset(entry.features),
        geometry_error=entry.geometry_error,
    )


def _to_port(entry: PortEntry, shop: ShopEntry) -> parts.Port:
    return parts.Port(
        id=entry.id,
        label=entry.label or entry.id,
        joins=entry.joins,
        position_mm=entry.at,
        heading=entry.heading,
        opening=None if entry.opening is None else _to_opening(entry.opening, shop),
        tilt_deg=entry.tilt,
        wall_thickness_mm=entry.wall,
        insert=None if entry.insert is None else _to_insert(entry.insert, shop),
        moves_with=entry.moves_with,
        admits=entry.admits,
        entry_drag_n=entry.entry_drag,
        lies_at=entry.lies_at,
        looks=entry.looks,
    )


def _to_insert(entry: InsertEntry, shop: ShopEntry) -> parts.Insert:
    return parts.Insert(opening=_to_opening(entry.opening, shop), is_removable=entry.removable)


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
        length_mm=entry.length,
        length_tolerance_mm=_length_tolerance_mm(entry, shop),
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
        length_mm=entry.length,
        tolerance_mm=_or_shop(entry.tolerance, shop.guide_tolerance),
    )


def _to_rear(entry: SinglePivotEntry | FourBarEntry) -> parts.SinglePivot | parts.FourBar:
    if isinstance(entry, SinglePivotEntry):
        return parts.SinglePivot(pivot_mm=entry.pivot, swing_deg=entry.swing, moves=entry.moves)
    return parts.FourBar(
        frame_pivots_mm=entry.frame_pivots,
        link_pivots_mm=entry.link_pivots,
        swing_deg=entry.swing,
        moves=entry.moves,
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
