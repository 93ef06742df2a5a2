"""Adapters between a frame's caliper mount and a caliper."""

from decimal import Decimal
from enum import StrEnum

from planner.parts.brakes import FrameEnd, MountKind
from planner.quick_dataclass import dataclass


class AdapterKind(StrEnum):
    """What an adapter is, which says what it joins and what its step is counted from."""

    POST_STEP = "post_step"
    POST_WASHERS = "post_washers"
    TABS = "tabs"
    FLAT_PLATE = "flat_plate"
    SPECIAL = "special"


class AskFirst(StrEnum):
    """Why an adapter is asked about before it is counted on."""

    SELDOM_SOLD = "seldom_sold"
    MAKER_ALLOWS = "maker_allows"
    PIECE_IN_HAND = "piece_in_hand"


@dataclass(frozen=True, slots=True, kw_only=True)
class Adapter:
    """A bracket, plate, or pair of spacers or washers between frame and caliper.

    id, name : as in the catalog
    frame_mount : the mount it is bolted to
    caliper_mount : the mount it offers
    end : the end it is made for; None for either
    step_mm : rotor it gives, less the mount's native one or, on tabs, less the one of their lowest bracket; None when
        not known [mm]
    native_mm : rotor of the mounts it is known to serve, on others it is asked about; None for any [mm]
    lift_mm : how far it moves the caliper away from the axle; None when not measured; on tabs not asked [mm]
    ask : why it is asked about first; None where it may be counted on
    price : None when not priced
    on_shelf : pieces the shop has; None where nobody counted
    uses : ids of the small parts it takes, such as its own bolts
    """

    id: str
    name: str
    kind: AdapterKind
    frame_mount: MountKind
    caliper_mount: MountKind
    end: FrameEnd | None = None
    step_mm: float | None
    native_mm: float | None = None
    lift_mm: float | None = None
    ask: AskFirst | None = None
    price: Decimal | None = None
    on_shelf: int | None = None
    uses: tuple[str, ...] = ()


def adapter_lift_mm(*, step_mm: float) -> float:
    """How far a caliper must move away from the axle for another rotor: half the change of diameter.

    First order: it holds as far as the mount's bolts point at the axle.

    Returns negative towards the axle.

    step_mm : how much larger the new rotor is

    >>> adapter_lift_mm(step_mm=43)
    21.5
    """
    return step_mm / 2
