"""Openings: the hole in a tube wall, and the soft insert in it."""

from typing import Annotated, Literal

from pydantic import Field

from catalog.fields import CornerRadius, Entry, HoleDiameter, HoleLength, HoleTolerance, HoleWidth, PointXY, YesNo


class RoundOpeningEntry(Entry):
    """A drilled or moulded round hole."""

    shape: Literal["round"]
    diameter: HoleDiameter
    tolerance: HoleTolerance | None = None


class SlotOpeningEntry(Entry):
    """A slot with round ends."""

    shape: Literal["slot"]
    length: HoleLength
    width: HoleWidth
    tolerance: HoleTolerance | None = None


class OvalOpeningEntry(Entry):
    """An ellipse, by its two axes."""

    shape: Literal["oval"]
    length: HoleLength
    width: HoleWidth
    tolerance: HoleTolerance | None = None


class BoxOpeningEntry(Entry):
    """A rectangle with rounded corners."""

    shape: Literal["box"]
    length: HoleLength
    width: HoleWidth
    corner_radius: CornerRadius = 0.0
    tolerance: HoleTolerance | None = None


class OutlineOpeningEntry(Entry):
    """Any other shape, corner by corner around its edge."""

    shape: Literal["outline"]
    points: Annotated[tuple[PointXY, ...], Field(min_length=3, max_length=500)]
    tolerance: HoleTolerance | None = None


OpeningEntry = Annotated[
    RoundOpeningEntry | SlotOpeningEntry | OvalOpeningEntry | BoxOpeningEntry | OutlineOpeningEntry,
    Field(discriminator="shape", title="opening", description="Shape of the hole; its length runs along the tube."),
]


class InsertEntry(Entry):
    """The rubber or plastic piece in a port, taken square to the line."""

    opening: OpeningEntry
    removable: YesNo
