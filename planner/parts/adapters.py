"""Adapters between a frame's caliper mount and a caliper."""

from dataclasses import dataclass
from decimal import Decimal

from planner.parts.brakes import MountKind


@dataclass(frozen=True, slots=True, kw_only=True)
class Adapter:
    """A plate or pair of spacers between frame and caliper.

    id, name : as in the catalog
    frame_mount : the mount it is bolted to
    caliper_mount : the mount it offers
    from_rotor_mm : rotor diameter the caliper stands for without it [mm]
    to_rotor_mm : rotor diameter it stands for with it [mm]
    lift_mm : how far it moves the caliper away from the axle; None when not measured [mm]
    price : None when not priced
    uses : ids of the small parts it takes, such as longer bolts
    """

    id: str
    name: str
    frame_mount: MountKind
    caliper_mount: MountKind
    from_rotor_mm: float
    to_rotor_mm: float
    lift_mm: float | None = None
    price: Decimal | None = None
    uses: tuple[str, ...] = ()


def adapter_lift_mm(*, from_rotor_mm: float, to_rotor_mm: float) -> float:
    """How far a caliper must move away from the axle for another rotor: half the change of diameter.

    First order: it holds as far as the mount's bolts point at the axle.

    Returns negative towards the axle.

    from_rotor_mm : rotor diameter the caliper stands for now
    to_rotor_mm : rotor diameter it is to stand for

    Examples
    --------
    >>> adapter_lift_mm(from_rotor_mm=160, to_rotor_mm=203)
    21.5
    """
    return (to_rotor_mm - from_rotor_mm) / 2
