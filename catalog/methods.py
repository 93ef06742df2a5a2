"""Methods: how the new line is joined to the old one, or to a leader, and drawn through."""

from typing import Annotated, Literal

from pydantic import Field

from catalog.fields import Chance, Holds, Id, LineOuter, Name, RodDiameter, RodLength, SetupMinutes, SoftLength
from catalog.sources import NamedEntry
from planner.parts import MethodKind


class _AnyMethodEntry(NamedEntry):
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


class ThreadedCouplerEntry(_AnyMethodEntry):
    """A double-ended stud screwed into the bores of both lines."""

    kind: Literal[MethodKind.THREADED_COUPLER]
    stud: RodDiameter
    stud_length: RodLength
    collar: RodDiameter
    collar_length: SoftLength


class SleeveTubeEntry(_AnyMethodEntry):
    """A soft tube pushed over both ends."""

    kind: Literal[MethodKind.SLEEVE_TUBE]
    bore: RodDiameter
    outer: RodDiameter
    grip_length: RodLength


class SpokeLinkEntry(_AnyMethodEntry):
    """A piece of spoke lying in both bores."""

    kind: Literal[MethodKind.SPOKE_LINK]
    rod: RodDiameter
    reach: RodLength


class LeaderLineEntry(_AnyMethodEntry):
    """A thin line fished through an empty frame, or a bare cable left in it."""

    kind: Literal[MethodKind.LEADER_LINE]
    outer: LineOuter
    joint_outer: RodDiameter
    joint_length: SoftLength = 0.0


MethodEntry = Annotated[
    ThreadedCouplerEntry | SleeveTubeEntry | SpokeLinkEntry | LeaderLineEntry,
    Field(discriminator="kind", title="method", description="How the new line is joined and drawn through."),
]
