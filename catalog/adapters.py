"""Adapters between a frame's caliper mount and a caliper."""

from typing import Annotated, ClassVar, Literal

from pydantic import Field

from catalog.fields import Id, Lift, Money, Name, RotorDiameter, RotorStep
from catalog.small_parts import OnShelf
from catalog.sources import NamedEntry
from planner.parts import AdapterKind, AskFirst, MountKind

_FROM_STEP = "adapters go by kind, end and step now: give the step, the new rotor less the one the mount stands for"

JOINED_BY_KIND = {
    AdapterKind.POST_STEP: (MountKind.POST, MountKind.POST),
    AdapterKind.POST_WASHERS: (MountKind.POST, MountKind.POST),
    AdapterKind.TABS: (MountKind.IS_TABS, MountKind.POST),
    AdapterKind.FLAT_PLATE: (MountKind.FLAT, MountKind.FLAT),
}
"""The mount on the frame and the one offered to the caliper."""


class AdapterEntry(NamedEntry):
    """A bracket, a plate, or a pair of spacers or washers, with the bolts it takes."""

    name: Name | None = None
    kind: Annotated[AdapterKind, Field(title="kind", description="What it is, which says what it joins.")]
    end: Annotated[
        Literal["front", "rear", "any"],
        Field(title="end", description="The end it is made for: read the stamp. Tabs and flat plates have one."),
    ] = "any"
    step: RotorStep | None = None
    native: Annotated[
        RotorDiameter | None,
        Field(title="native", description="Native rotor of the mounts it is known to serve; left out for any."),
    ] = None
    frame_mount: (
        Annotated[MountKind, Field(title="frame mount", description="Of a special one: what it is bolted to.")] | None
    ) = None
    caliper_mount: (
        Annotated[MountKind, Field(title="caliper mount", description="Of a special one: what it offers.")] | None
    ) = None
    lift: Lift | None = None
    ask: (
        Annotated[AskFirst, Field(title="ask", description="Why it is asked about before it is counted on.")] | None
    ) = None
    price: Money | None = None
    on_shelf: OnShelf | None = None
    uses: tuple[Id, ...] = ()

    MOVED: ClassVar[dict[str, str]] = {"from_rotor": _FROM_STEP, "to_rotor": _FROM_STEP}

    @property
    def joins(self) -> tuple[MountKind, MountKind]:
        """The mount it is bolted to and the one it offers."""
        if self.kind in JOINED_BY_KIND:
            return JOINED_BY_KIND[self.kind]
        if self.frame_mount is None or self.caliper_mount is None:
            raise ValueError("a special adapter without its two mounts: check the catalog first")
        return self.frame_mount, self.caliper_mount
