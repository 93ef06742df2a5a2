"""Ways of joining the new line to the old one, or to a leader, for drawing it through."""

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

__all__ = [
    "LeaderLine",
    "Method",
    "MethodKind",
    "PullWord",
    "SleeveTube",
    "SpokeLink",
    "ThreadedCoupler",
]


class MethodKind(StrEnum):
    """The families of methods, by the word that files use."""

    THREADED_COUPLER = "threaded_coupler"
    SLEEVE_TUBE = "sleeve_tube"
    SPOKE_LINK = "spoke_link"
    LEADER_LINE = "leader_line"


class PullWord(StrEnum):
    """What the hands may do to a joint, most careful first."""

    PUSH_ONLY = "push_only"
    EASE_GENTLY = "ease_gently"
    MAY_PULL = "may_pull"


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
    """

    kind: ClassVar[MethodKind] = MethodKind.THREADED_COUPLER
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
    """

    kind: ClassVar[MethodKind] = MethodKind.SLEEVE_TUBE
    id: str
    name: str
    bore_diameter_mm: float
    outer_diameter_mm: float
    grip_length_mm: float
    holds_n: float | None
    setup_min: float
    uses: tuple[str, ...] = ()
    fail_chance: float | None = None

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
    """

    kind: ClassVar[MethodKind] = MethodKind.SPOKE_LINK
    id: str
    name: str
    rod_diameter_mm: float
    reach_mm: float
    holds_n: float | None
    setup_min: float
    uses: tuple[str, ...] = ()
    fail_chance: float | None = None

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
    holds_n : pull it holds; None when not measured [N]
    setup_min : minutes to fish it through and make the joint [min]
    uses : ids of the small parts one joint takes
    fail_chance : how often it comes apart on the way and is made again, 0 to 1; None when not known
    """

    kind: ClassVar[MethodKind] = MethodKind.LEADER_LINE
    id: str
    name: str
    outer_diameter_mm: float
    joint_diameter_mm: float
    joint_length_mm: float
    holds_n: float | None
    setup_min: float
    uses: tuple[str, ...] = ()
    fail_chance: float | None = None

    @property
    def covers_mm(self) -> float:
        """How much of the new line the leader's end sits in; nothing of a soft joint."""
        return self.joint_length_mm / 2


Method = ThreadedCoupler | SleeveTube | SpokeLink | LeaderLine
