"""Ways of joining the new line to the old one, or to a leader, for drawing it through."""

from enum import StrEnum
from typing import ClassVar, Literal, TypeAlias

from planner.quick_dataclass import dataclass

__all__ = [
    "LaidOutside",
    "LeaderLine",
    "LineTie",
    "LinerTube",
    "MagnetTip",
    "Method",
    "MethodKind",
    "OverCable",
    "PullWord",
    "SleeveTube",
    "SpokeLink",
    "SuctionCord",
    "ThreadedCoupler",
    "TiedOn",
]


class MethodKind(StrEnum):
    """The families of methods, by the word that files use."""

    THREADED_COUPLER = "threaded_coupler"
    SLEEVE_TUBE = "sleeve_tube"
    SPOKE_LINK = "spoke_link"
    LEADER_LINE = "leader_line"
    SUCTION_CORD = "suction_cord"
    MAGNET_TIP = "magnet_tip"
    OVER_CABLE = "over_cable"
    LINER_TUBE = "liner_tube"
    LAID_OUTSIDE = "laid_outside"
    TIED_ON = "tied_on"

    @property
    def is_leader(self) -> bool:
        """Whether something thin goes in first and draws the new line after it."""
        return self in (MethodKind.LEADER_LINE, MethodKind.SUCTION_CORD, MethodKind.MAGNET_TIP)

    @property
    def joins_old_line(self) -> bool:
        """Whether the old line itself is cut and draws the new one."""
        return self in (MethodKind.THREADED_COUPLER, MethodKind.SLEEVE_TUBE, MethodKind.SPOKE_LINK)

    @property
    def can_part_inside(self) -> bool:
        """Whether there is a joint that can come apart where no hand reaches it."""
        return self not in (MethodKind.OVER_CABLE, MethodKind.LAID_OUTSIDE)


LeaderKind: TypeAlias = Literal[
    MethodKind.LEADER_LINE, MethodKind.SUCTION_CORD, MethodKind.MAGNET_TIP, MethodKind.TIED_ON
]
"""Of something thin that goes in first, and of what is tied on behind it."""


class PullWord(StrEnum):
    """What the hands may do to a joint, most careful first."""

    PUSH_ONLY = "push_only"
    EASE_GENTLY = "ease_gently"
    MAY_PULL = "may_pull"


@dataclass(frozen=True, slots=True, kw_only=True)
class LineTie:
    """How further lines are tied on behind a joint, so that all of them go in with one draw.

    most_n : further lines at most
    adds_mm : how much thicker than its line a tied end is [mm]
    holds_n : pull that one tie holds [N]
    setup_min : minutes to tie one line on [min]
    uses : ids of the small parts that one tie takes
    """

    most_n: int
    adds_mm: float
    holds_n: float
    setup_min: float
    uses: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ThreadedCoupler:
    """A double-ended stud screwed into the bores of both lines, with a collar between.

    id, name : as in the catalog
    stud_diameter_mm, stud_length_mm : of each half of the stud [mm]
    collar_diameter_mm, collar_length_mm : of the part between the halves [mm]
    holds_n : pull it holds; None when not measured [N]
    setup_min : minutes to make the joint [min]
    uses : ids of the small parts one joint takes
    fail_chance : how often it comes apart on the way and is made again, 0 to 1; None when not known
    tie : how further lines are tied on behind it; None where none can be
    """

    kind: Literal[MethodKind.THREADED_COUPLER] = MethodKind.THREADED_COUPLER
    id: str
    name: str
    stud_diameter_mm: float
    stud_length_mm: float
    collar_diameter_mm: float
    collar_length_mm: float
    holds_n: float | None
    setup_min: float
    uses: tuple[str, ...] = ()
    fail_chance: float | None = None
    tie: LineTie | None = None

    @property
    def covers_mm(self) -> float:
        """How much of each line one half of the stud sits in."""
        return self.stud_length_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SleeveTube:
    """A soft tube pushed over both ends.

    id, name : as in the catalog
    bore_diameter_mm, outer_diameter_mm : of the tube at rest [mm]
    grip_length_mm : covered on each line [mm]
    holds_n : pull it holds; None when not measured [N]
    setup_min : minutes to make the joint [min]
    uses : ids of the small parts one joint takes
    fail_chance : how often it comes apart on the way and is made again, 0 to 1; None when not known
    tie : how further lines are tied on behind it; None where none can be
    """

    kind: Literal[MethodKind.SLEEVE_TUBE] = MethodKind.SLEEVE_TUBE
    id: str
    name: str
    bore_diameter_mm: float
    outer_diameter_mm: float
    grip_length_mm: float
    holds_n: float | None
    setup_min: float
    uses: tuple[str, ...] = ()
    fail_chance: float | None = None
    tie: LineTie | None = None

    @property
    def covers_mm(self) -> float:
        """How much of each line the sleeve covers."""
        return self.grip_length_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class SpokeLink:
    """A piece of spoke lying in both bores; adds nothing to the diameter and holds nothing.

    id, name : as in the catalog
    rod_diameter_mm : of the spoke [mm]
    reach_mm : length in each bore [mm]
    holds_n : pull it holds; 0 by its nature [N]
    setup_min : minutes to make the joint [min]
    uses : ids of the small parts one joint takes
    fail_chance : how often it comes apart on the way and is made again, 0 to 1; None when not known
    tie : how further lines are tied on behind it; None where none can be
    """

    kind: Literal[MethodKind.SPOKE_LINK] = MethodKind.SPOKE_LINK
    id: str
    name: str
    rod_diameter_mm: float
    reach_mm: float
    holds_n: float | None
    setup_min: float
    uses: tuple[str, ...] = ()
    fail_chance: float | None = None
    tie: LineTie | None = None

    @property
    def covers_mm(self) -> float:
        """How much of each line the spoke lies in."""
        return self.reach_mm


@dataclass(frozen=True, slots=True, kw_only=True)
class LeaderLine:
    """A thin line fished through an empty frame, or a bare cable left in it, that draws the new line after it.

    id, name : as in the catalog
    outer_diameter_mm : of the leader itself [mm]
    joint_diameter_mm : of its own joint to the new line, the widest part [mm]
    joint_length_mm : rigid length of that joint; 0 where it is soft [mm]
    stud_diameter_mm : of the thread on its end that is screwed into the new line's bore; None for another end [mm]
    holds_n : pull it holds; None when not measured [N]
    setup_min : minutes to fish it through and make the joint [min]
    uses : ids of the small parts one joint takes
    fail_chance : how often it comes apart on the way and is made again, 0 to 1; None when not known
    tie : how further lines are tied on behind it; None where none can be
    """

    kind: LeaderKind = MethodKind.LEADER_LINE
    id: str
    name: str
    outer_diameter_mm: float
    joint_diameter_mm: float
    joint_length_mm: float
    stud_diameter_mm: float | None = None
    holds_n: float | None
    setup_min: float
    uses: tuple[str, ...] = ()
    fail_chance: float | None = None
    tie: LineTie | None = None

    @property
    def covers_mm(self) -> float:
        """How much of the new line the leader's thread sits in; nothing of an end that is not screwed in."""
        return 0.0 if self.stud_diameter_mm is None else self.joint_length_mm / 2


@dataclass(frozen=True, slots=True, kw_only=True)
class SuctionCord(LeaderLine):
    """A leader whose light thread is drawn through an empty, dry frame by suction first."""

    kind: Literal[MethodKind.SUCTION_CORD] = MethodKind.SUCTION_CORD


@dataclass(frozen=True, slots=True, kw_only=True)
class MagnetTip(LeaderLine):
    """A leader with a steel tip that a magnet outside leads through an empty tube that is not magnetic.

    wall_max_mm : thickest wall the magnet works through; None when not tried [mm]
    """

    kind: Literal[MethodKind.MAGNET_TIP] = MethodKind.MAGNET_TIP
    wall_max_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class OverCable:
    """New housing pushed over the inner cable that lies in the frame: nothing is joined, nothing is thicker than it.

    id, name : as in the catalog
    holds_n : nothing is pulled: 0 by its nature [N]
    setup_min : minutes to free the cable's end and thread it [min]
    uses : ids of the small parts it takes
    fail_chance : how often it has to be done again, 0 to 1; None when not known
    """

    kind: Literal[MethodKind.OVER_CABLE] = MethodKind.OVER_CABLE
    covers_mm: ClassVar[float] = 0.0
    id: str
    name: str
    holds_n: float | None = 0.0
    setup_min: float
    uses: tuple[str, ...] = ()
    fail_chance: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LinerTube:
    """A thin tube pushed over the bare cable that lies in the frame; the cable goes out and the new line through it.

    A new hose may also go over the liner, where its bore is wide enough.

    id, name : as in the catalog
    bore_diameter_mm, outer_diameter_mm : of the tube [mm]
    holds_n : pull it holds; None when not measured [N]
    setup_min : minutes to push it in [min]
    uses : ids of the small parts it takes
    fail_chance : how often it has to be done again, 0 to 1; None when not known
    """

    kind: Literal[MethodKind.LINER_TUBE] = MethodKind.LINER_TUBE
    covers_mm: ClassVar[float] = 0.0
    id: str
    name: str
    bore_diameter_mm: float
    outer_diameter_mm: float
    holds_n: float | None
    setup_min: float
    uses: tuple[str, ...] = ()
    fail_chance: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LaidOutside:
    """A line that goes through no hole at all: it is laid along and clipped. Needs no catalog entry."""

    kind: Literal[MethodKind.LAID_OUTSIDE] = MethodKind.LAID_OUTSIDE
    covers_mm: ClassVar[float] = 0.0
    id: str = "laid_outside"
    name: str = "Laid along the outside"
    holds_n: float | None = None
    setup_min: float = 0.0
    uses: tuple[str, ...] = ()
    fail_chance: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class TiedOn(LeaderLine):
    """A further line tied on behind the joint of one that goes in first; made from that joint's tie.

    behind_id : id of that first line
    """

    kind: Literal[MethodKind.TIED_ON] = MethodKind.TIED_ON
    behind_id: str


Method = (
    ThreadedCoupler
    | SleeveTube
    | SpokeLink
    | SuctionCord
    | MagnetTip
    | TiedOn
    | LeaderLine
    | OverCable
    | LinerTube
    | LaidOutside
)
