"""Frames: zones, ports, anchors and runs, and what moves."""

from typing import Annotated, Literal

from pydantic import BeforeValidator, Field

from catalog.fields import (
    BarDiameter,
    CavityBore,
    Direction,
    Entry,
    EntryDrag,
    GuideBendRadius,
    GuideBore,
    HoleTolerance,
    Id,
    Label,
    LengthTolerance,
    Lock,
    Name,
    PointXYZ,
    PointXZ,
    RotorDiameter,
    RunLength,
    SlackLength,
    Swing,
    Tilt,
    Turn,
    WallThickness,
    YesNo,
)
from catalog.frame_tables import CockpitEntry, GeometryEntry
from catalog.geometry_fields import Travel
from catalog.openings import UNKNOWN_OPENING, InsertEntry, OpeningEntry
from catalog.port_places import On, Outer
from catalog.reading_entry import Readings
from catalog.sources import NamedEntry
from planner.parts import (
    AnchorPart,
    AnchorServes,
    FrameEnd,
    FrameFeature,
    GeometryError,
    HubKind,
    LengthBy,
    LineKind,
    MountKind,
    MovesWith,
    PortLooks,
    PortPlace,
    RiderSide,
)

Mover = Annotated[
    MovesWith, Field(title="moves with", description="What it rides on: bar for all that steers, bar, stem and fork.")
]

Moves = Annotated[
    tuple[Id, ...],
    Field(title="moves", description="Ports and anchors that ride on it, beside those of cavities that do."),
]


HowWellPlaced = Annotated[
    GeometryError,
    Field(
        title="geometry error",
        description="How places were found: careful, tape and rule; ordinary, photograph with a rule; rough, by eye.",
    ),
]


def _unknown_word(value: object) -> object:
    return None if value == UNKNOWN_OPENING else value


class ZoneEntry(NamedEntry):
    """A cavity that lines can run through."""

    path: Annotated[
        tuple[PointXYZ, ...],
        Field(min_length=2, title="path", description="Points along its middle line; left out where nobody told it."),
    ] = ()
    bore: CavityBore | None = None
    outer: Outer | None = None
    moves_with: Mover | None = None
    readings: Readings = ()


class PortEntry(NamedEntry):
    """A hole that joins two zones; without an opening when nobody measured it."""

    label: Label = ""
    joins: Annotated[tuple[Id, Id], Field(title="joins", description="The two zones it joins, first and second.")]
    at: PointXYZ | None = None
    heading: Direction | None = None
    on: On | None = None
    opening: Annotated[
        OpeningEntry | None,
        BeforeValidator(_unknown_word, json_schema_input_type=OpeningEntry | Literal["unknown"] | None),
        Field(title="opening", description="Shape of the hole; unknown or left out where nobody measured it."),
    ] = None
    tilt: Tilt = 0.0
    wall: WallThickness
    insert: InsertEntry | None = None
    moves_with: Mover | None = None
    admits: Annotated[
        tuple[LineKind, ...], Field(title="admits", description="Line kinds it takes; left out, any that fits.")
    ] = ()
    entry_drag: EntryDrag | None = None
    lies_at: Annotated[
        PortPlace | None, Field(title="lies at", description="The part that must come off to reach it.")
    ] = None
    looks: Annotated[
        PortLooks | None,
        Field(
            title="looks",
            description="side: through the tube's side; along: along it, as a boss, a stay exit or a window.",
        ),
    ] = None
    readings: Readings = ()


class AnchorEntry(NamedEntry):
    """Where a line starts or ends, always outside."""

    label: Label = ""
    at: PointXYZ | None = None
    heading: Direction | None = None
    is_: Annotated[AnchorPart | None, Field(alias="is", title="is", description="The part that sits there.")] = None
    side: Annotated[
        RiderSide | None, Field(title="side", description="As the rider sees it; left out, read off its place.")
    ] = None
    end: Annotated[FrameEnd | None, Field(title="end", description="front or rear; left out, read off its place.")] = (
        None
    )
    moves_with: Mover | None = None
    serves: Annotated[AnchorServes | None, Field(title="serves", description="What a line that ends here works.")] = (
        None
    )


class GuideEntry(Entry):
    """A small tube fixed inside a zone that holds the line."""

    bore: GuideBore
    bend_radius: GuideBendRadius | None = None
    turn: Turn = 0.0
    length: RunLength | None = None
    tolerance: HoleTolerance | None = None


class RunEntry(NamedEntry):
    """A way from one port or anchor to another through one zone."""

    label: Label = ""
    zone: Id
    between: Annotated[tuple[Id, Id], Field(title="between", description="The two ports or anchors it links.")]
    guide: GuideEntry | None = None
    via: Annotated[tuple[PointXYZ, ...], Field(title="via", description="Points the line is led past.")] = ()
    clips: Annotated[tuple[PointXYZ, ...], Field(title="clips", description="Points it is clipped to.")] = ()
    slack: Annotated[
        SlackLength | None,
        Field(title="slack", description="Line kept in a loop here on purpose, as under a dropper post."),
    ] = None
    length: Annotated[
        RunLength | None,
        Field(title="length", description="Measured along the line from hole to hole; it goes before everything else."),
    ] = None
    length_tolerance: LengthTolerance | None = None
    length_by: Annotated[LengthBy, Field(title="length by", description="How the length was found.")] = LengthBy.TAPE
    reached: Annotated[
        YesNo, Field(title="reached", description="true: the old line did every posture with this length.")
    ] = False
    readings: Readings = ()


class BarEntry(Entry):
    """The handlebar and what turns with it."""

    axis_point: PointXYZ | None = None
    axis: Direction | None = None
    lock: Lock


class SinglePivotEntry(Entry):
    """A rear end swinging about one pivot."""

    kind: Literal["single_pivot"]
    pivot: PointXZ | None = None
    swing: Swing | None = None
    travel: Travel | None = None
    moves: Moves = ()


class FourBarEntry(Entry):
    """A rear end carried by two links."""

    kind: Literal["four_bar"]
    frame_pivots: Annotated[tuple[PointXZ, PointXZ], Field(title="frame pivots", description="On the frame.")]
    link_pivots: Annotated[
        tuple[PointXZ, PointXZ], Field(title="link pivots", description="Far ends of the links at rest, same order.")
    ]
    swing: Swing
    moves: Moves = ()


RearEntry = Annotated[
    SinglePivotEntry | FourBarEntry,
    Field(discriminator="kind", title="rear", description="How the rear end moves; left out where it does not."),
]


class BrakeMountEntry(Entry):
    """What one end of a frame takes."""

    mount: Annotated[MountKind, Field(title="mount", description="How a caliper bolts on.")]
    rotor_native: Annotated[
        RotorDiameter | None,
        Field(title="native rotor", description="Rotor a caliper bolted straight on stands for; tabs have none."),
    ] = None
    rotor_min: RotorDiameter | None = None
    rotor_max: RotorDiameter | None = None
    hub: Annotated[HubKind, Field(title="hub", description="How the rotor sits on the hub.")] | None = None


class BrakeMountsEntry(Entry):
    """What the two ends of a frame take."""

    front: BrakeMountEntry | None = None
    rear: BrakeMountEntry | None = None


class FrameEntry(NamedEntry):
    """A frame with its holes, cavities and ways through."""

    name: Name | None = None
    zones: tuple[ZoneEntry, ...] = ()
    ports: tuple[PortEntry, ...] = ()
    anchors: tuple[AnchorEntry, ...] = ()
    runs: tuple[RunEntry, ...] = ()
    geometry: GeometryEntry | None = None
    cockpit: CockpitEntry | None = None
    bar: BarEntry | None = None
    bar_clamp: BarDiameter | None = None
    rear: RearEntry | None = None
    brakes: BrakeMountsEntry = BrakeMountsEntry()
    features: Annotated[
        tuple[FrameFeature, ...], Field(title="features", description="What the hands must know of it.")
    ] = ()
    geometry_error: HowWellPlaced | None = None
