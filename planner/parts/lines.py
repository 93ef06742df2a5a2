"""Lines and what sits on their ends."""

from decimal import Decimal
from enum import StrEnum

from planner.quick_dataclass import dataclass


class LineFamily(StrEnum):
    """How a line does its work."""

    HYDRAULIC = "hydraulic"
    MECHANICAL = "mechanical"
    ELECTRIC = "electric"


class LineKind(StrEnum):
    """What a line is."""

    HYDRAULIC_HOSE = "hydraulic_hose"
    BRAKE_HOUSING = "brake_housing"
    SHIFT_HOUSING = "shift_housing"
    INNER_CABLE = "inner_cable"
    ELECTRIC_WIRE = "electric_wire"

    @property
    def family(self) -> LineFamily:
        """How a line of this kind does its work."""
        if self is LineKind.HYDRAULIC_HOSE:
            return LineFamily.HYDRAULIC
        return LineFamily.ELECTRIC if self is LineKind.ELECTRIC_WIRE else LineFamily.MECHANICAL


class FittingStyle(StrEnum):
    """How a fitting holds on to its line."""

    CRIMPED = "crimped"
    COMPRESSION = "compression"
    BANJO = "banjo"
    BARBED = "barbed"
    PLUG = "plug"


class SetBy(StrEnum):
    """Who can put a fitting on."""

    FACTORY = "factory"
    WORKSHOP = "workshop"


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A hose, housing, inner cable or wire.

    id, name : as in the catalog
    kind : what it is
    outer_diameter_mm : outside [mm]
    outer_tolerance_mm : plus or minus [mm]
    bore_diameter_mm : inside; None for a line without a bore or when not measured [mm]
    minimum_bend_radius_mm : the maker's limit, to the inside of the bend (SAE J343 practice) [mm]
    friction_ratio : of a hose, wire or bare cable sliding over the frame; of a housing, the inner cable in it; None
        when not known
    mass_g_per_m : mass of a metre; None when not known
    cable_diameter_mm : of a housing, the inner cable that lies in it; None when not told [mm]
    foam_diameter_mm : of an anti-rattle sleeve over it, squeezed as far as it gives; None without one [mm]
    pressure_shrink_ratio : part of its length by which it may shorten under pressure; None for a line not known to
    price_per_m : in the shop's currency; None when not priced
    """

    id: str
    name: str
    kind: LineKind
    outer_diameter_mm: float
    outer_tolerance_mm: float
    bore_diameter_mm: float | None
    minimum_bend_radius_mm: float
    friction_ratio: float | None = None
    mass_g_per_m: float | None = None
    pressure_shrink_ratio: float | None = None
    price_per_m: Decimal | None = None
    cable_diameter_mm: float | None = None
    foam_diameter_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitting:
    """What sits on a line's end.

    id, name : as in the catalog
    style : how it holds on
    set_by : who can put it on
    outer_diameter_mm : largest outside diameter [mm]
    length_mm : rigid length along the line [mm]
    line_outer_diameter_mm, line_bore_diameter_mm : the line it is made for; None when not measured [mm]
    insertion_depth_mm : how far the line goes into it [mm]
    thread : designation, "" where it has none
    joint_diameter_mm : thickest place of a joint made up over it, sleeve, tape or hook; None when not measured [mm]
    joint_holds_n : pull that joint holds; None when not measured [N]
    uses : ids of the small parts one setting takes
    price : in the shop's currency; None when not priced
    """

    id: str
    name: str
    style: FittingStyle
    set_by: SetBy
    outer_diameter_mm: float
    length_mm: float
    line_outer_diameter_mm: float | None = None
    line_bore_diameter_mm: float | None = None
    insertion_depth_mm: float = 0.0
    thread: str = ""
    joint_diameter_mm: float | None = None
    joint_holds_n: float | None = None
    uses: tuple[str, ...] = ()
    price: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class LineEnd:
    """One end of a line as it lies on the bench.

    fitting : what belongs on it; None for a bare line
    is_fitted : whether it already sits there
    """

    fitting: Fitting | None = None
    is_fitted: bool = False
