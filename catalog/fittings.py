"""Fittings: what sits on a line's end."""

from typing import Annotated

from pydantic import Field

from catalog.fields import (
    FittingLength,
    FittingOuter,
    Holds,
    Id,
    InsertionDepth,
    LineBore,
    LineOuter,
    Money,
    Name,
    Thread,
)
from catalog.sources import NamedEntry
from planner.parts import FittingStyle, SetBy


class FittingEntry(NamedEntry):
    """A fitting, and the line it is made for."""

    name: Name | None = None
    style: Annotated[FittingStyle, Field(title="style", description="How it holds on to its line.")]
    outer: FittingOuter
    length: FittingLength
    set_by: Annotated[SetBy, Field(title="set by", description="Who can put it on.")]
    line_outer: LineOuter | None = None
    line_bore: LineBore | None = None
    depth: InsertionDepth = 0.0
    thread: Thread = ""
    joint_outer: Annotated[
        FittingOuter | None,
        Field(title="joint outer", description="Thickest place of a joint made up over it: sleeve, tape, hook."),
    ] = None
    joint_holds: Annotated[
        Holds | None, Field(title="joint holds", description="Pull such a joint holds, by spring balance.")
    ] = None
    uses: tuple[Id, ...] = ()
    price: Money | None = None
