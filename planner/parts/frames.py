"""A frame: its cavities, its holes, the ways between them, and what moves.

Frame axes: origin at the bottom-bracket centre, x forward, y to the rider's left, z up.
"""

from dataclasses import field

from planner.parts.brakes import BrakeMount, FrameEnd
from planner.parts.frame_tables import FrameTable
from planner.parts.frame_words import (
    AnchorPart,
    AnchorServes,
    FrameFeature,
    GeometryError,
    LengthBy,
    MovesWith,
    PortLooks,
    PortPlace,
    RiderSide,
)
from planner.parts.lines import LineKind
from planner.parts.openings import Insert, Opening
from planner.quick_dataclass import dataclass

OUTSIDE = "outside"
"""The zone that every frame has: the open air around it."""

Point = tuple[float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Zone:
    """A cavity that lines can run through.

    id : as in the catalog
    path_mm : points along its middle line; empty where nobody told it [mm]
    bore_diameter_mm : clear diameter; None when not measured [mm]
    bore_tolerance_mm : plus or minus on that [mm]
    moves_with : what it rides on as told; None where that is left to the ports into it
    """

    id: str
    path_mm: tuple[Point, ...]
    bore_diameter_mm: float | None
    bore_tolerance_mm: float = 0.0
    moves_with: MovesWith | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Port:
    """A hole that joins two zones.

    id, label : as in the catalog
    joins : the two zones, first and second
    position_mm : middle of the hole; None where nobody told it [mm]
    heading : the way a line points going from the first zone into the second; any length; None with the position
    opening : its shape; None when nobody measured it
    tilt_deg : angle between the line and the hole's axis, leaning along the opening's length [deg]
    tilt_tolerance_deg : plus or minus on that [deg]
    wall_thickness_mm : of the wall it goes through [mm]
    wall_tolerance_mm : plus or minus on that [mm]
    insert : the soft piece in it, if any
    moves_with : bar or rear; None where it stands still
    admits : line kinds it takes; empty for any that fits
    entry_drag_n : force to slide a line through it; None when not measured [N]
    lies_at : the part that must come off to reach it; None for a port in a tube's side
    looks : which way it looks at its tube; None where that is left to its place and heading
    """

    id: str
    label: str
    joins: tuple[str, str]
    position_mm: Point | None
    heading: Point | None
    opening: Opening | None
    tilt_deg: float = 0.0
    wall_thickness_mm: float
    tilt_tolerance_deg: float = 0.0
    wall_tolerance_mm: float = 0.0
    insert: Insert | None = None
    moves_with: MovesWith | None = None
    admits: tuple[LineKind, ...] = ()
    entry_drag_n: float | None = None
    lies_at: PortPlace | None = None
    looks: PortLooks | None = None

    def takes(self, kind: LineKind) -> bool:
        """Whether it takes this kind of line at all, whatever its size."""
        return not self.admits or kind in self.admits


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchor:
    """Where a line starts or ends, always outside.

    id : as in the catalog
    position_mm : where the line leaves the part; None where nobody told it [mm]
    heading : the way it leaves the part; any length; None with the position
    moves_with : bar or rear; None where it stands still
    label : as in the catalog; "" where it has none
    serves : what a line that ends here works; None when not told
    part : what sits there; None when not told
    side : of the bicycle; None when not told, and then read off the position
    end : of the bicycle; None when not told, and then read off the position and what it rides on
    is_drawn : whether its position is no more than what is usual of such a part
    """

    id: str
    position_mm: Point | None
    heading: Point | None
    moves_with: MovesWith | None = None
    label: str = ""
    serves: AnchorServes | None = None
    part: AnchorPart | None = None
    side: RiderSide | None = None
    end: FrameEnd | None = None
    is_drawn: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Guide:
    """A small tube fixed inside a zone that holds the line.

    bore_diameter_mm : inside [mm]
    bend_radius_mm : of its bend, to the inside of the bend; None for a straight guide [mm]
    turn_deg : whole change of direction, 0 for a straight guide [deg]
    length_mm : measured length; None when not measured [mm]
    tolerance_mm : plus or minus on the bore [mm]
    length_tolerance_mm : plus or minus on the length [mm]
    """

    bore_diameter_mm: float
    bend_radius_mm: float | None
    turn_deg: float
    length_mm: float | None = None
    tolerance_mm: float
    length_tolerance_mm: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A way from one port or anchor to another through one zone.

    id, label : as in the catalog; label "" where it has none
    zone_id : the zone it lies in, or OUTSIDE
    between : ids of the two ports or anchors
    guide : the tube that holds the line; None for an open run
    via_mm : points the line is led past [mm]
    slack_mm : line kept in a loop here on purpose, as under a dropper post that must come right out [mm]
    clips_mm : points it must pass, clipped to the frame; passed behind the points of `via_mm` [mm]
    length_mm : as somebody measured it along the line; None when nobody did [mm]
    length_tolerance_mm : plus or minus on that [mm]
    length_by : how it was found
    is_reached : whether the old line did every posture with this length
    """

    id: str
    zone_id: str
    between: tuple[str, str]
    guide: Guide | None = None
    label: str = ""
    via_mm: tuple[Point, ...] = ()
    clips_mm: tuple[Point, ...] = ()
    slack_mm: float = 0.0
    length_mm: float | None = None
    length_tolerance_mm: float = 0.0
    length_by: LengthBy = LengthBy.TAPE
    is_reached: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """The handlebar and what turns with it.

    axis_point_mm : a point on the steering axis [mm]
    axis : its direction; any length
    lock_deg : turn to each side until it stops [deg]
    """

    axis_point_mm: Point
    axis: Point
    lock_deg: float


@dataclass(frozen=True, slots=True, kw_only=True)
class SinglePivot:
    """A rear end swinging about one pivot, in the plane y = const.

    pivot_mm : (x, z) of the pivot [mm]
    swing_deg : from rest to fully compressed; positive lifts the rear [deg]
    moves : ids of the ports and anchors that ride on it
    """

    pivot_mm: tuple[float, float]
    swing_deg: float
    moves: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FourBar:
    """A rear end carried by two links; the named ports and anchors ride on the coupler.

    frame_pivots_mm : (x, z) of the two pivots on the frame [mm]
    link_pivots_mm : (x, z) at rest of the far ends of the links swinging about them, in the same order [mm]
    swing_deg : turn of the first link from rest to fully compressed; positive lifts the end of a link that points
        rearward from its frame pivot; a link that points forward lifts the rear with a negative turn [deg]
    moves : ids of the ports and anchors that ride on the coupler
    """

    frame_pivots_mm: tuple[tuple[float, float], tuple[float, float]]
    link_pivots_mm: tuple[tuple[float, float], tuple[float, float]]
    swing_deg: float
    moves: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """Everything about a frame that routing asks.

    id, name : as in the catalog
    zones, ports, anchors, runs : by id, in catalog order
    bar, rear : what moves; None where nothing does
    brakes : what each end takes, by "front" and "rear"
    bar_clamp_mm : bar diameter where levers clamp; None when not measured [mm]
    features : what the hands must know of it
    geometry_error : how well its places were told; None where that is left to the shop
    table : the geometry table it is drawn from; None where its places were told
    in_words : ids of the ports whose place is told by their tubes
    retold : place and heading on their tubes of ports whose numbers are told as well, by id [mm]
    """

    id: str
    name: str
    zones: dict[str, Zone]
    ports: dict[str, Port]
    anchors: dict[str, Anchor]
    runs: dict[str, Run]
    bar: Bar | None = None
    rear: SinglePivot | FourBar | None = None
    brakes: dict[str, BrakeMount] = field(default_factory=dict)
    bar_clamp_mm: float | None = None
    features: frozenset[FrameFeature] = frozenset()
    geometry_error: GeometryError | None = None
    table: FrameTable | None = None
    in_words: frozenset[str] = frozenset()
    retold: dict[str, tuple[Point, Point]] = field(default_factory=dict)
