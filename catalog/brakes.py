"""Brakes: a lever, a caliper and the line between them."""

from typing import Annotated, ClassVar

from pydantic import Field

from catalog.fields import BarDiameter, Entry, Id, LineLength, Money, Name, RotorDiameter, YesNo
from catalog.sources import NamedEntry
from planner.parts import Fluid, FrameEnd, MountKind


class LeverEntry(Entry):
    """The lever end of a brake's line; without a fitting the line ends bare."""

    fitting: Id | None = None
    fitted: YesNo = False
    clamp: BarDiameter | None = None


class CaliperEntry(Entry):
    """The caliper end of a brake's line; without a fitting the line ends bare."""

    fitting: Id | None = None
    fitted: YesNo = False
    mount: Annotated[MountKind, Field(title="mount", description="How the caliper bolts on.")] | None = None
    rotor_min: Annotated[
        RotorDiameter | None, Field(title="least rotor", description="Smallest rotor its maker allows.")
    ] = None
    rotor_max: Annotated[
        RotorDiameter | None, Field(title="greatest rotor", description="Largest rotor its maker allows.")
    ] = None

    MOVED: ClassVar[dict[str, str]] = {
        "rotor_native": "that field now belongs to the frame or fork, as brakes > rear (or front) > rotor_native: the"
        " mount stands for a rotor, the caliper for none"
    }


class BrakeEntry(NamedEntry):
    """A brake as supplied; one without fluid is pulled by a cable."""

    name: Name | None = None
    fluid: Annotated[Fluid, Field(title="fluid", description="What it is filled with.")] | None = None
    end: (
        Annotated[FrameEnd, Field(title="end", description="The end it is made for; left out where that is open.")]
        | None
    ) = None
    lever: LeverEntry
    caliper: CaliperEntry
    line: Id
    supplied_length: LineLength | None = None
    price: Money | None = None
