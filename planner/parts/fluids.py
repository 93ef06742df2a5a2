"""Brake fluids in their classes, with the least boiling points their standard asks for."""

from enum import StrEnum

from planner.parts.brakes import Fluid
from planner.quick_dataclass import dataclass


class FluidClass(StrEnum):
    """What may touch what: fluids of two classes never share a system, a hose or a bleed kit."""

    GLYCOL = "glycol"
    SILICONE = "silicone"
    MINERAL = "mineral"


@dataclass(frozen=True, slots=True, kw_only=True)
class FluidFacts:
    """What a fluid is.

    fluid_class : what it may touch
    dry_boiling_c, wet_boiling_c : least boiling points fresh and with water drawn; None where no standard says [deg C]
    """

    fluid_class: FluidClass
    dry_boiling_c: float | None
    wet_boiling_c: float | None


FLUID_FACTS: dict[Fluid, FluidFacts] = {
    Fluid.GLYCOL_DOT3: FluidFacts(fluid_class=FluidClass.GLYCOL, dry_boiling_c=205, wet_boiling_c=140),
    Fluid.GLYCOL_DOT4: FluidFacts(fluid_class=FluidClass.GLYCOL, dry_boiling_c=230, wet_boiling_c=155),
    Fluid.GLYCOL_DOT5_1: FluidFacts(fluid_class=FluidClass.GLYCOL, dry_boiling_c=260, wet_boiling_c=180),
    Fluid.SILICONE_DOT5: FluidFacts(fluid_class=FluidClass.SILICONE, dry_boiling_c=260, wet_boiling_c=180),
    Fluid.MINERAL_OIL: FluidFacts(fluid_class=FluidClass.MINERAL, dry_boiling_c=None, wet_boiling_c=None),
}
"""FMVSS 116 (49 CFR 571.116), S5.1.1 and S5.1.2; DOT 3 and DOT 4 read in data sheets, DOT 5 and 5.1 from memory."""
