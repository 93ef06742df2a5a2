"""Methods: how the new line is joined to the old one, or to a leader, and drawn through."""

from abc import abstractmethod
from collections.abc import Iterator
from typing import Annotated, Any, Literal

from pydantic import Field

from catalog.fields import (
    Chance,
    Entry,
    Holds,
    Id,
    LineOuter,
    MagnetWall,
    Name,
    RodDiameter,
    RodLength,
    SetupMinutes,
    SoftLength,
    TieThickness,
)
from catalog.mechanic_errors import Complaint
from catalog.size_checks import narrower
from catalog.sources import NamedEntry
from planner import parts
from planner.parts import MethodKind

MOST_TIED = 3
"""Further lines behind one joint that a catalog may speak of."""


class AnyMethodEntry(NamedEntry):
    """What every method has."""

    name: Name | None = None
    holds: Holds | None = None
    setup: SetupMinutes
    uses: tuple[Id, ...] = ()
    fail_chance: (
        Annotated[
            Chance,
            Field(title="fail chance", description="How often it comes apart on the way and is made again, 0 to 1."),
        ]
        | None
    ) = None

    @abstractmethod
    def part(self) -> parts.Method:
        """The planner's part."""

    def complaints(self) -> Iterator[Complaint]:
        """What it says against itself."""
        yield from ()

    def shared(self) -> dict[str, Any]:
        """What goes into every method's part."""
        return {
            "id": self.id,
            "name": self.name or self.id,
            "holds_n": self.holds,
            "setup_min": self.setup,
            "uses": self.uses,
            "fail_chance": self.fail_chance,
        }


class TieEntry(Entry):
    """How further lines are tied on behind the joint, to go in with the same draw."""

    most: Annotated[int, Field(ge=1, le=MOST_TIED, title="most", description="Further lines at most.")]
    adds: Annotated[
        TieThickness, Field(title="adds", description="How much thicker than its line a tied end is, wrap included.")
    ]
    holds: Annotated[Holds, Field(title="holds", description="Pull that one tie holds, by spring balance.")]
    setup: Annotated[SetupMinutes, Field(title="setup", description="Time to tie one line on.")]
    uses: tuple[Id, ...] = ()

    def part(self) -> parts.LineTie:
        """The planner's part."""
        return parts.LineTie(
            most_n=self.most, adds_mm=self.adds, holds_n=self.holds, setup_min=self.setup, uses=self.uses
        )


class JointEntry(AnyMethodEntry):
    """A method whose joint leads, so that further lines may be tied on behind it."""

    ties: Annotated[
        TieEntry | None,
        Field(title="ties", description="How further lines are tied on behind the joint; left out where none can be."),
    ] = None

    def shared(self) -> dict[str, Any]:
        """What goes into every such method's part."""
        return {**super().shared(), "tie": None if self.ties is None else self.ties.part()}


class ThreadedCouplerEntry(JointEntry):
    """A double-ended stud screwed into the bores of both lines."""

    kind: Literal[MethodKind.THREADED_COUPLER]
    stud: RodDiameter
    stud_length: RodLength
    collar: RodDiameter
    collar_length: SoftLength

    def part(self) -> parts.Method:
        """The planner's part."""
        return parts.ThreadedCoupler(
            stud_diameter_mm=self.stud,
            stud_length_mm=self.stud_length,
            collar_diameter_mm=self.collar,
            collar_length_mm=self.collar_length,
            **self.shared(),
        )

    def complaints(self) -> Iterator[Complaint]:
        """What it says against itself."""
        if self.collar < self.stud:
            yield ("collar",), f"{self.collar:g} mm was given", f"at least the stud, {self.stud:g} mm, is allowed"


class SleeveTubeEntry(JointEntry):
    """A soft tube pushed over both ends."""

    kind: Literal[MethodKind.SLEEVE_TUBE]
    bore: RodDiameter
    outer: RodDiameter
    grip_length: RodLength

    def part(self) -> parts.Method:
        """The planner's part."""
        return parts.SleeveTube(
            bore_diameter_mm=self.bore,
            outer_diameter_mm=self.outer,
            grip_length_mm=self.grip_length,
            **self.shared(),
        )

    def complaints(self) -> Iterator[Complaint]:
        """What it says against itself."""
        yield from narrower(("bore",), self.bore, self.outer)


class SpokeLinkEntry(JointEntry):
    """A piece of spoke lying in both bores."""

    kind: Literal[MethodKind.SPOKE_LINK]
    rod: RodDiameter
    reach: RodLength

    def part(self) -> parts.Method:
        """The planner's part."""
        return parts.SpokeLink(rod_diameter_mm=self.rod, reach_mm=self.reach, **self.shared())


class LeaderLineEntry(JointEntry):
    """A thin line fished through an empty frame, or drawn in by the bare cable left in it."""

    kind: Literal[MethodKind.LEADER_LINE]
    outer: LineOuter
    joint_outer: RodDiameter
    joint_length: SoftLength = 0.0
    stud: RodDiameter | None = None

    def part(self) -> parts.Method:
        """The planner's part."""
        return parts.LeaderLine(**self.shared())

    def shared(self) -> dict[str, Any]:
        """What goes into every leader's part."""
        return {
            **super().shared(),
            "outer_diameter_mm": self.outer,
            "joint_diameter_mm": self.joint_outer,
            "joint_length_mm": self.joint_length,
            "stud_diameter_mm": self.stud,
        }

    def complaints(self) -> Iterator[Complaint]:
        """What it says against itself."""
        if self.joint_outer < self.outer:
            given = f"{self.joint_outer:g} mm was given"
            yield ("joint_outer",), given, f"the widest part: at least outer, {self.outer:g} mm, is allowed"


class SuctionCordEntry(LeaderLineEntry):
    """A leader whose light thread is drawn through an empty, dry frame by suction first."""

    kind: Literal[MethodKind.SUCTION_CORD]  # type: ignore[assignment]  # a kind of its own

    def part(self) -> parts.Method:
        """The planner's part."""
        return parts.SuctionCord(**self.shared())


class MagnetTipEntry(LeaderLineEntry):
    """A leader with a steel tip that a magnet outside leads through an empty tube that is not magnetic."""

    kind: Literal[MethodKind.MAGNET_TIP]  # type: ignore[assignment]  # a kind of its own
    wall_max: Annotated[
        MagnetWall | None, Field(title="thickest wall", description="The magnet works through walls up to this.")
    ] = None

    def part(self) -> parts.Method:
        """The planner's part."""
        return parts.MagnetTip(wall_max_mm=self.wall_max, **self.shared())


class OverCableEntry(AnyMethodEntry):
    """New housing pushed over the inner cable that lies in the frame."""

    kind: Literal[MethodKind.OVER_CABLE]

    def part(self) -> parts.Method:
        """The planner's part."""
        return parts.OverCable(**{**self.shared(), "holds_n": 0.0})


class LinerTubeEntry(AnyMethodEntry):
    """A thin tube pushed over the bare cable in the frame; the cable goes out and the new line in."""

    kind: Literal[MethodKind.LINER_TUBE]
    bore: RodDiameter
    outer: RodDiameter

    def part(self) -> parts.Method:
        """The planner's part."""
        return parts.LinerTube(bore_diameter_mm=self.bore, outer_diameter_mm=self.outer, **self.shared())

    def complaints(self) -> Iterator[Complaint]:
        """What it says against itself."""
        yield from narrower(("bore",), self.bore, self.outer)


MethodEntry = Annotated[
    ThreadedCouplerEntry
    | SleeveTubeEntry
    | SpokeLinkEntry
    | LeaderLineEntry
    | SuctionCordEntry
    | MagnetTipEntry
    | OverCableEntry
    | LinerTubeEntry,
    Field(discriminator="kind", title="method", description="How the new line is joined and drawn through."),
]
