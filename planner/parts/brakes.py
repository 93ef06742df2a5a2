"""Brakes: a lever, a caliper and the line between them."""

from decimal import Decimal
from enum import StrEnum

from planner.parts.lines import Line, LineEnd
from planner.quick_dataclass import dataclass


class Fluid(StrEnum):
    """Brake fluids; glycols, silicone and mineral oil never mix."""

    GLYCOL_DOT3 = "glycol_dot3"
    GLYCOL_DOT4 = "glycol_dot4"
    GLYCOL_DOT5_1 = "glycol_dot5_1"
    SILICONE_DOT5 = "silicone_dot5"
    MINERAL_OIL = "mineral_oil"


class MountKind(StrEnum):
    """How a caliper is bolted on."""

    POST = "post"
    FLAT = "flat"
    IS_TABS = "is_tabs"


class HubKind(StrEnum):
    """How a rotor sits on its hub."""

    SIX_BOLT = "six_bolt"
    SPLINED = "splined"


class FrameEnd(StrEnum):
    """The two ends of a frame that take a brake; the front one is the fork."""

    FRONT = "front"
    REAR = "rear"


@dataclass(frozen=True, slots=True, kw_only=True)
class Brake:
    """A brake as supplied.

    id, name : as in the catalog
    fluid : what it is filled with; None for a cable-pulled brake
    line : the line it is supplied with
    supplied_length_mm : length of that line; None when not measured [mm]
    lever_end, caliper_end : the two ends of the line
    lever_clamp_mm : bar diameter the lever clamps; None when not measured [mm]
    made_for : the end it is made for; None when not told
    caliper_mount : how the caliper bolts on; None when not known
    caliper_rotor_min_mm, caliper_rotor_max_mm : rotor diameters its maker allows; None when not stated [mm]
    price : in the shop's currency; None when not priced
    """

    id: str
    name: str
    fluid: Fluid | None
    line: Line
    supplied_length_mm: float | None
    lever_end: LineEnd
    caliper_end: LineEnd
    lever_clamp_mm: float | None = None
    made_for: FrameEnd | None = None
    caliper_mount: MountKind | None = None
    caliper_rotor_min_mm: float | None = None
    caliper_rotor_max_mm: float | None = None
    price: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class BrakeMount:
    """What one end of a frame takes.

    mount : the caliper mount on the frame
    rotor_native_mm : rotor diameter a caliper bolted straight on stands for; None when not stated, and on tabs [mm]
    rotor_min_mm, rotor_max_mm : rotor diameters the frame takes; None when not stated [mm]
    hub : how the rotor sits on the hub; None when not known
    """

    mount: MountKind
    rotor_native_mm: float | None = None
    rotor_min_mm: float | None = None
    rotor_max_mm: float | None = None
    hub: HubKind | None = None
