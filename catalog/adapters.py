"""Adapters between a frame's caliper mount and a caliper."""

from typing import Annotated

from pydantic import Field

from catalog.fields import Id, Lift, Money, Name, RotorDiameter
from catalog.sources import NamedEntry
from planner.parts import MountKind

FromRotor = Annotated[
    RotorDiameter, Field(title="from rotor", description="Rotor diameter the caliper stands for without the adapter.")
]
ToRotor = Annotated[
    RotorDiameter, Field(title="to rotor", description="Rotor diameter the caliper stands for with the adapter.")
]


class AdapterEntry(NamedEntry):
    """A plate or a pair of spacers, with the bolts it takes."""

    name: Name | None = None
    frame_mount: Annotated[MountKind, Field(title="frame mount", description="The mount it is bolted to.")]
    caliper_mount: Annotated[MountKind, Field(title="caliper mount", description="The mount it offers.")]
    from_rotor: FromRotor
    to_rotor: ToRotor
    lift: Lift | None = None
    price: Money | None = None
    uses: tuple[Id, ...] = ()
