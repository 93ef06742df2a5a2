"""Field types of a geometry table, of a cockpit, and of a hole's place on its tube.

The ranges hold what such tables print; a figure outside one was likely told in another unit. Common practice, no
source.
"""

from typing import Annotated

from pydantic import Field

from catalog.field_types import measure

Reach = Annotated[
    float, measure("reach", "Forward from the bottom bracket to the head tube's top.", "mm", least=300, most=560)
]
Stack = Annotated[
    float, measure("stack", "Up from the bottom bracket to the head tube's top.", "mm", least=450, most=720)
]
HeadAngle = Annotated[
    float, measure("head angle", "Of the head tube against the ground.", "degrees", least=58, most=76)
]
HeadTube = Annotated[float, measure("head tube", "Its length, without the headset's cups.", "mm", least=60, most=260)]
SeatAngle = Annotated[
    float, measure("seat angle", "Of the seat tube against the ground.", "degrees", least=66, most=82)
]
SeatTube = Annotated[
    float, measure("seat tube", "From the bottom bracket's middle to its top.", "mm", least=300, most=700)
]
Chainstay = Annotated[
    float, measure("chainstay", "Straight from the bottom bracket to the rear axle.", "mm", least=380, most=560)
]
BottomBracketDrop = Annotated[
    float,
    measure(
        "bottom bracket drop",
        "Bottom bracket below the line of the axles; negative above it.",
        "mm",
        least=-20,
        most=90,
    ),
]
BottomBracketHeight = Annotated[
    float,
    measure("bottom bracket height", "Above the ground; with the wheel's radius.", "mm", least=200, most=400),
]
WheelRadius = Annotated[float, measure("wheel radius", "Ground to axle, tyre included.", "mm", least=200, most=400)]
Spacing = Annotated[float, measure("spacing", "Between the dropouts at the rear axle.", "mm", least=110, most=200)]
Fork = Annotated[float, measure("fork", "Axle to crown.", "mm", least=340, most=640)]
ForkOffset = Annotated[float, measure("offset", "Of the front axle from the steering axis.", "mm", least=20, most=90)]
Wheelbase = Annotated[float, measure("wheelbase", "Axle to axle.", "mm", least=850, most=1450)]
FrontCentre = Annotated[float, measure("front centre", "Bottom bracket to front axle.", "mm", least=480, most=950)]

BarWidth = Annotated[
    float, measure("width", "Of a flat bar end to end; of a drop bar between the hoods.", "mm", least=300, most=900)
]
Rise = Annotated[float, measure("rise", "Of the bar, over the stem's clamp.", "mm", least=-60, most=200)]
Sweep = Annotated[float, measure("sweep", "Backward, of the grips.", "degrees", least=0, most=90)]
Upsweep = Annotated[float, measure("upsweep", "Upward, of the grips.", "degrees", least=-20, most=30)]
Stem = Annotated[float, measure("stem", "Steerer to the middle of the bar.", "mm", least=0, most=160)]
StemAngle = Annotated[
    float, measure("stem angle", "To the square on the steerer; positive points up.", "degrees", least=-45, most=60)
]
Spacers = Annotated[float, measure("spacers", "Under the stem.", "mm", least=0, most=120)]
BarReach = Annotated[
    float,
    measure("bar reach", "Of a drop bar, from its middle to the front of the bend.", "mm", least=40, most=130),
]
Ahead = Annotated[float, measure("ahead", "Where the line leaves, ahead of the bar.", "mm", least=-150, most=150)]
Inboard = Annotated[float, measure("inboard", "Where the line leaves, from the bar's end.", "mm", least=0, most=350)]
Below = Annotated[float, measure("below", "Where the line leaves, below the bar.", "mm", least=-100, most=150)]

AlongTube = Annotated[
    float, measure("place along the tube", "Along its middle line, by a tape.", "mm", least=0, most=1500)
]
Lean = Annotated[
    float,
    measure("lean", "Of the line to straight through the wall; 90 lies along the tube.", "degrees", least=0, most=90),
]
OffMiddle = Annotated[
    float, measure("off the middle", "Of the hole from the tube's middle line.", "mm", least=0, most=200)
]
Travel = Annotated[float, measure("travel", "Rise of the rear axle.", "mm", least=10, most=300)]
OuterSize = Annotated[float, Field(strict=True, allow_inf_nan=False, json_schema_extra={"unit": "mm"})]
"""Held against its range as a pair, so that a number which stands for both is told once."""
