"""Shared field types: each with its unit, its range, the words on the form and the help under it.

Ranges are wide on purpose: they catch slips (inches, radius for diameter, a lost point), not unusual parts. All are
common practice, no source. Numbers are strict: "7.5" in quotes is text, not a number.
"""

from decimal import Decimal
from typing import Annotated
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from pydantic import AfterValidator, BaseModel, ConfigDict, Field, GetPydanticSchema, StringConstraints
from pydantic_core import PydanticCustomError, core_schema

from catalog.field_types import measure as _measure
from catalog.field_types import text as _text
from catalog.field_types import work as _work
from catalog.ranges import MayBeRange


class Entry(BaseModel):
    """What was typed: always checked, never changed afterwards; fields nobody knows are refused."""

    model_config = ConfigDict(extra="forbid", allow_inf_nan=False, frozen=True, defer_build=True)


def _not_blank(text: str) -> str:
    if not text.strip():
        raise PydanticCustomError("blank", "an empty text")
    return text


def _is_money(amount: Decimal) -> Decimal:
    if amount > 1_000_000:
        raise PydanticCustomError("money", "more than a million")
    return amount


def _is_share_of_price(share: Decimal) -> Decimal:
    if share > 1:
        raise PydanticCustomError("tax", "more than the price itself")
    return share


def _is_time_zone(text: str) -> str:
    try:
        ZoneInfo(text)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        raise PydanticCustomError("time_zone", "no such time zone") from None
    return text


def _is_coin(amount: Decimal) -> Decimal:
    if not amount:
        raise PydanticCustomError("coin", "a coin of nothing")
    return amount


def _has_direction(vector: tuple[float, float, float]) -> tuple[float, float, float]:
    if not any(vector):
        raise PydanticCustomError("no_direction", "a direction of length zero")
    return vector


# --- names and texts -------------------------------------------------------------------------------------------------
Id = Annotated[
    str,
    StringConstraints(pattern=r"^\w[\w.+-]*$", max_length=64),
    _text("id", "A short name of letters, digits, point, plus, hyphen and underscore, without spaces."),
]
Name = Annotated[
    str, StringConstraints(max_length=200), AfterValidator(_not_blank), _text("name", "What people call it.")
]
Label = Annotated[
    str, StringConstraints(max_length=200), _text("label", "Where it is, in words one can point to on the frame.")
]
Address = Annotated[
    str, StringConstraints(max_length=400), AfterValidator(_not_blank), _text("address", "Where to find it.")
]
Note = Annotated[str, StringConstraints(max_length=2000), _text("note", "Anything worth remembering about it.")]
Sentence = Annotated[
    str,
    StringConstraints(max_length=1000),
    AfterValidator(_not_blank),
    _text("sentence", "A sentence for the work sheet; {placeholders} stand for facts of the plan."),
]
Thread = Annotated[
    str, StringConstraints(max_length=40), _text("thread", "Thread designation as in ISO 261, such as M8x0.75.")
]
Currency = Annotated[
    str,
    StringConstraints(pattern=r"^[A-Z]{3}$"),
    _text("currency", "Three capital letters as in ISO 4217, such as EUR."),
]
Exact = Annotated[
    Decimal,
    GetPydanticSchema(
        lambda _source, _handler: core_schema.no_info_after_validator_function(
            Decimal,
            core_schema.str_schema(pattern=r"^[0-9]{1,7}(\.[0-9]{1,4})?$"),
            serialization=core_schema.to_string_ser_schema(when_used="always"),
        )
    ),
]
"""Decimal text in files, an exact number from there on; what stands there as a number has lost its cents already."""

Money = Annotated[
    Exact,
    AfterValidator(_is_money),
    _text("price", 'Decimal text in quotes in the shop\'s currency, such as "1.20".'),
]
TaxShare = Annotated[
    Exact,
    AfterValidator(_is_share_of_price),
    _text("tax", 'Part of the price, decimal text in quotes up to "1"; "0.20" is 20 %.'),
]
Coin = Annotated[
    Money,
    AfterValidator(_is_coin),
    _text("coin", 'The smallest coin, decimal text in quotes above "0", such as "0.05".'),
]
TimeZone = Annotated[
    str,
    StringConstraints(max_length=64),
    AfterValidator(_is_time_zone),
    _text("time zone", "Whose days are the shop's, as in the IANA list, such as Europe/Lisbon. [this machine's]"),
]
YesNo = Annotated[bool, Field(strict=True, title="yes or no", description="true or false.")]

# --- places and directions -------------------------------------------------------------------------------------------
Coordinate = Annotated[
    float,
    _measure("coordinate", "In frame axes: x forward, y to the rider's left, z up.", "mm", least=-5000, most=5000),
]
Component = Annotated[
    float, _measure("component", "Part of a direction; its length does not matter.", "", least=-1e6, most=1e6)
]
PointXYZ = Annotated[
    tuple[Coordinate, Coordinate, Coordinate],
    _text("place", "[x, y, z] from the bottom-bracket centre: x forward, y to the rider's left, z up."),
]
PointXZ = Annotated[
    tuple[Coordinate, Coordinate], _text("place", "[x, z] from the bottom-bracket centre, seen from the side.")
]
PointXY = Annotated[tuple[Coordinate, Coordinate], _text("corner", "[x, y] on the edge of the hole, x along the tube.")]
Direction = Annotated[
    tuple[Component, Component, Component],
    AfterValidator(_has_direction),
    _text("heading", "[x, y, z] of the way it points; its length does not matter."),
]

# --- holes and cavities ----------------------------------------------------------------------------------------------
HoleDiameter = Annotated[
    float,
    _measure("diameter", "Across the hole, with the inside jaws of a caliper.", "mm", least=1, most=100),
    MayBeRange(),
]
Gauge = Annotated[
    float, _measure("at least", "Across a drill shank or pin that went into the hole.", "mm", least=1, most=100)
]
HoleLength = Annotated[
    float,
    _measure("length", "Overall length of the hole along the tube, over rounded ends.", "mm", least=1, most=300),
    MayBeRange(),
]
HoleWidth = Annotated[
    float, _measure("width", "Overall width of the hole across the tube.", "mm", least=1, most=300), MayBeRange()
]
CornerRadius = Annotated[
    float, _measure("corner radius", "Of all four corners; 0 is a sharp corner.", "mm", least=0, most=100)
]
HoleTolerance = Annotated[
    float,
    _measure(
        "tolerance", "Plus or minus on every dimension; left out, the shop's own is taken.", "mm", least=0, most=3
    ),
]
GiveOrTake = Annotated[
    float,
    _measure(
        "give or take", "How far such a reading may be off, either way; degrees for a lean.", "mm", least=0, most=50
    ),
]
CavityBore = Annotated[
    float, _measure("bore", "Clear inside diameter of the cavity.", "mm", least=2, most=300), MayBeRange()
]
Tilt = Annotated[
    float,
    _measure(
        "tilt", "Angle between the line and the hole's axis, along the hole's length.", "degrees", least=0, below=90
    ),
    MayBeRange(),
]
WallThickness = Annotated[
    float, _measure("wall", "Thickness of the wall the hole goes through.", "mm", least=0.3, most=60), MayBeRange()
]
EntryDrag = Annotated[
    float, _measure("entry drag", "Force to slide a line through the hole, by spring balance.", "N", least=0, most=500)
]
GuideBore = Annotated[
    float, _measure("bore", "Inside diameter of the guide tube.", "mm", least=1, most=60), MayBeRange()
]
GuideBendRadius = Annotated[
    float, _measure("bend radius", "Of the guide, to the inside of the bend.", "mm", least=5, most=100_000)
]
Turn = Annotated[float, _measure("turn", "Whole change of direction; 0 is straight.", "degrees", least=0, most=360)]
RunLength = Annotated[float, _measure("length", "Measured along the guide.", "mm", least=1, most=5000), MayBeRange()]
SlackLength = Annotated[float, _measure("slack", "Kept in a loop on purpose.", "mm", least=1, most=5000)]
MagnetWall = Annotated[
    float, _measure("thickest wall", "The magnet works through walls up to this.", "mm", least=0.3, most=60)
]
LengthTolerance = Annotated[
    float,
    _measure(
        "length tolerance",
        "Plus or minus on a length along a run; left out, the shop's own is taken.",
        "mm",
        least=0,
        most=200,
    ),
]

# --- what moves ------------------------------------------------------------------------------------------------------
Lock = Annotated[float, _measure("lock", "Turn of the bar to each side until it stops.", "degrees", least=0, most=180)]
Swing = Annotated[
    float,
    _measure(
        "swing",
        "From rest to fully compressed; positive lifts what lies behind its pivot.",
        "degrees",
        least=-90,
        most=90,
    ),
]

# --- lines and fittings ----------------------------------------------------------------------------------------------
LineOuter = Annotated[float, _measure("outer diameter", "Across the line, with calipers.", "mm", least=0.8, most=20)]
LineTolerance = Annotated[
    float,
    _measure(
        "outer tolerance", "Plus or minus on the diameter; left out, the shop's own is taken.", "mm", least=0, most=2
    ),
]
LineBore = Annotated[
    float, _measure("bore", "Inside diameter; left out for a line without one.", "mm", least=0.5, most=15)
]
BendRadius = Annotated[
    float,
    _measure("bend radius", "The maker's smallest, to the inside of the bend.", "mm", least=2, most=1000),
]
Friction = Annotated[float, _measure("friction", "Ratio of drag to pressing force while sliding.", "", least=0, most=2)]
LineFriction = Annotated[
    float,
    _measure(
        "friction",
        "Ratio of drag to pressing force while sliding: of a hose, wire or bare cable on the frame; of a housing, the "
        "inner cable in it.",
        "",
        least=0,
        most=2,
    ),
]
MassPerMetre = Annotated[float, _measure("mass per metre", "Weigh one metre.", "g", above=0, most=2000)]
FittingOuter = Annotated[
    float, _measure("outer diameter", "Largest outside diameter, with calipers.", "mm", least=0.8, most=60)
]
FittingLength = Annotated[float, _measure("length", "Rigid length along the line.", "mm", least=1, most=300)]
InsertionDepth = Annotated[float, _measure("depth", "How far the line goes into it.", "mm", least=0, most=100)]
OutletMove = Annotated[
    float,
    _measure(
        "move",
        "How much more line the new outlet asks than the old one; negative for less.",
        "mm",
        least=-500,
        most=500,
    ),
]
LineLength = Annotated[float, _measure("length", "Measured along the line.", "mm", least=50, most=100_000)]
BarDiameter = Annotated[float, _measure("clamp", "Bar diameter where the lever clamps.", "mm", least=12, most=60)]
RotorDiameter = Annotated[float, _measure("rotor", "Outside diameter of the rotor.", "mm", least=80, most=300)]
RotorStep = Annotated[
    float, _measure("step", "How much larger a rotor it gives than the mount by itself.", "mm", least=0, most=150)
]
Lift = Annotated[
    float,
    _measure(
        "lift",
        "How far it moves the caliper away from the axle; left out when nobody measured it.",
        "mm",
        least=0,
        most=110,
    ),
]

# --- joints ----------------------------------------------------------------------------------------------------------
RodDiameter = Annotated[float, _measure("diameter", "Across it, with calipers.", "mm", least=0.5, most=30)]
RodLength = Annotated[float, _measure("length", "With calipers or a rule.", "mm", least=1, most=200)]
SoftLength = Annotated[float, _measure("length", "Rigid length; 0 where there is none.", "mm", least=0, most=200)]
Holds = Annotated[
    float,
    _measure("holds", "Pull it holds, by spring balance; left out when nobody measured it.", "N", least=0, most=5000),
]
TieThickness = Annotated[float, _measure("thickness", "Over line and wrap, less the line.", "mm", least=0, most=10)]
SetupMinutes = Annotated[float, _measure("setup", "Time to make the joint.", "minutes", least=0, most=600)]
StepMinutes = Annotated[float, _measure("minutes", "Time the step takes.", "minutes", least=0, most=600)]

# --- what a shop chooses ---------------------------------------------------------------------------------------------
Margin = Annotated[float, _measure("margin", "Chosen by the shop.", "mm", least=0, most=50)]
DegreesOff = Annotated[
    float, _measure("heading", "How far a heading is off, as one standard deviation.", "degrees", least=0, most=45)
]
Step = Annotated[float, _measure("step", "Lengths are rounded up to this.", "mm", above=0, most=100)]
Span = Annotated[float, _measure("span", "Longest open leg without a clip.", "mm", least=10, most=5000)]
Share = Annotated[float, _measure("share", "A part of one: 0.02 is two in a hundred.", "", least=0, below=1)]
PressureShrink = Annotated[
    float,
    _measure(
        "shrinkage under pressure",
        "Part of its length by which this line may shorten under pressure; left out, nothing is said of it.",
        "",
        least=0,
        below=1,
    ),
]
Chance = Annotated[float, _measure("chance", "How often it happens: 0 never, 1 always.", "", least=0, most=1)]
Modulus = Annotated[
    float, _measure("modulus", "Young's modulus of the rubber at small strain.", "MPa", above=0, most=1000)
]
HoleWork = Annotated[float, _work("a hole", "Rows that one search may look at: a thing held against an edge, once.")]
PlanWork = Annotated[float, _work("a plan", "Rows that all searches of one plan may look at, a question counted once.")]
CutRow = Annotated[
    tuple[
        Annotated[float, _measure("up to", "Longest hose the row is for.", "mm", above=0, most=100_000)],
        Annotated[float, _measure("tolerance", "Plus or minus on the cut.", "mm", least=0, most=100)],
    ],
    _text("row", "[up to this length, plus or minus on the cut]."),
]
Times = Annotated[float, _measure("times", "How many times the drag.", "", least=1, most=20)]
Days = Annotated[
    int, Field(strict=True, ge=1, le=730, title="days", description="Whole days.", json_schema_extra={"unit": "days"})
]
