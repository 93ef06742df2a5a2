"""Lines: hoses, housings, inner cables and wires."""

from typing import Annotated

from pydantic import Field

from catalog.fields import (
    BendRadius,
    LineBore,
    LineFriction,
    LineOuter,
    LineTolerance,
    MassPerMetre,
    Money,
    Name,
    PressureShrink,
)
from catalog.sources import NamedEntry
from planner.parts import LineKind


class LineEntry(NamedEntry):
    """A hose, housing, inner cable or wire as sold."""

    name: Name | None = None
    kind: Annotated[LineKind, Field(title="kind", description="What the line is.")]
    outer: LineOuter
    outer_tolerance: LineTolerance | None = None
    bore: LineBore | None = None
    bend_radius: BendRadius
    cable: Annotated[LineOuter | None, Field(title="cable", description="Of a housing: the inner cable in it.")] = None
    foam: Annotated[
        LineOuter | None,
        Field(title="foam", description="Of an anti-rattle sleeve over it: its diameter squeezed as far as it gives."),
    ] = None
    friction: LineFriction | None = None
    mass_per_metre: MassPerMetre | None = None
    pressure_shrink: PressureShrink | None = None
    price_per_metre: Money | None = None
