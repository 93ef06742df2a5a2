"""Openings: the hole in a tube wall, and the soft insert in it."""

from collections.abc import Iterator
from typing import Annotated, ClassVar, Literal

from pydantic import BeforeValidator, Field

from catalog.field_help import IMPLIED, IMPLIED_BESIDE
from catalog.fields import (
    CornerRadius,
    Entry,
    Gauge,
    HoleDiameter,
    HoleLength,
    HoleTolerance,
    HoleWidth,
    PointXY,
    YesNo,
)
from catalog.mechanic_errors import Complaint
from catalog.spreads import spread_of
from planner import parts

_LEAST_AREA_MM2 = 0.5
"""An outline with less is a slip: its corners lie on a line, or in no order."""


class RoundOpeningEntry(Entry):
    """A drilled or moulded round hole."""

    shape: Literal["round"]
    diameter: HoleDiameter
    tolerance: HoleTolerance | None = None

    def part(self, *, tolerance_mm: float) -> parts.Opening:
        """The planner's part."""
        return parts.RoundOpening(diameter_mm=self.diameter, tolerance_mm=tolerance_mm)

    @property
    def extent_mm(self) -> tuple[float, float]:
        """Length and width over everything."""
        return self.diameter, self.diameter

    def complaints(self) -> Iterator[Complaint]:
        """Nothing: its figures cannot contradict each other."""
        yield from ()


class SlotOpeningEntry(Entry):
    """A slot with round ends."""

    shape: Literal["slot"]
    length: HoleLength
    width: HoleWidth
    tolerance: HoleTolerance | None = None

    def part(self, *, tolerance_mm: float) -> parts.Opening:
        """The planner's part."""
        return parts.SlotOpening(length_mm=self.length, width_mm=self.width, tolerance_mm=tolerance_mm)

    @property
    def extent_mm(self) -> tuple[float, float]:
        """Length and width over everything."""
        return self.length, self.width

    def complaints(self) -> Iterator[Complaint]:
        """Nothing: its figures cannot contradict each other."""
        yield from ()


class OvalOpeningEntry(Entry):
    """An ellipse, by its two axes."""

    shape: Literal["oval"]
    length: HoleLength
    width: HoleWidth
    tolerance: HoleTolerance | None = None

    def part(self, *, tolerance_mm: float) -> parts.Opening:
        """The planner's part."""
        return parts.OvalOpening(length_mm=self.length, width_mm=self.width, tolerance_mm=tolerance_mm)

    @property
    def extent_mm(self) -> tuple[float, float]:
        """Length and width over everything."""
        return self.length, self.width

    def complaints(self) -> Iterator[Complaint]:
        """Nothing: its figures cannot contradict each other."""
        yield from ()


class BoxOpeningEntry(Entry):
    """A rectangle with rounded corners."""

    shape: Literal["box"]
    length: HoleLength
    width: HoleWidth
    corner_radius: CornerRadius = 0.0
    tolerance: HoleTolerance | None = None

    def part(self, *, tolerance_mm: float) -> parts.Opening:
        """The planner's part."""
        return parts.BoxOpening(
            length_mm=self.length,
            width_mm=self.width,
            corner_radius_mm=self.corner_radius,
            tolerance_mm=tolerance_mm,
        )

    @property
    def extent_mm(self) -> tuple[float, float]:
        """Length and width over everything."""
        return self.length, self.width

    def complaints(self) -> Iterator[Complaint]:
        """What it says against itself."""
        most = min(self.length, self.width) / 2
        if self.corner_radius > most:
            given = f"{self.corner_radius:g} mm was given"
            yield ("corner_radius",), given, f"at most half the smaller side, {most:g} mm, is allowed"


class OutlineOpeningEntry(Entry):
    """Any other shape, corner by corner around its edge."""

    shape: Literal["outline"]
    points: Annotated[tuple[PointXY, ...], Field(min_length=3, max_length=500)]
    tolerance: HoleTolerance | None = None

    def part(self, *, tolerance_mm: float) -> parts.Opening:
        """The planner's part."""
        return parts.OutlineOpening(points_mm=self.points, tolerance_mm=tolerance_mm)

    @property
    def extent_mm(self) -> tuple[float, float]:
        """Length and width over everything."""
        xs, ys = zip(*self.points, strict=True)
        return max(xs) - min(xs), max(ys) - min(ys)

    def complaints(self) -> Iterator[Complaint]:
        """What it says against itself."""
        if crossing := _crossing_sides(self.points):
            given = f"the sides after points no. {crossing[0] + 1} and no. {crossing[1] + 1} meet"
            yield ("points",), given, "an outline that goes around once without crossing itself"
        elif _area_mm2(self.points) < _LEAST_AREA_MM2:
            yield ("points",), "an outline without area was given", "corners in order around the hole"


class GaugedOpeningEntry(Entry):
    """A hole that nobody measured, and that a round gauge such as a drill shank went into."""

    shape: Literal["gauge"] = "gauge"
    at_least: Gauge
    tolerance: ClassVar[float | None] = None

    def part(self, *, tolerance_mm: float) -> parts.Opening:  # noqa: ARG002  # a gauge that went in is no reading
        """The planner's part."""
        return parts.RoundOpening(diameter_mm=self.at_least, tolerance_mm=0.0, is_at_least=True)

    @property
    def extent_mm(self) -> tuple[float, float]:
        """Length and width that are sure of it."""
        return self.at_least, self.at_least

    def complaints(self) -> Iterator[Complaint]:
        """Nothing: its figures cannot contradict each other."""
        yield from ()


def is_gauge(value: object) -> bool:
    """Whether an opening, as written, tells what went into it and not what was read off it."""
    return isinstance(value, dict) and any(field in value for field in IMPLIED) and value.get("shape") in IMPLIED_BESIDE


def _with_shape(value: object) -> object:
    """A gauge needs no word for its shape, and what went in round is taken as round."""
    return {**value, "shape": "gauge"} if isinstance(value, dict) and is_gauge(value) else value


OpeningEntry = Annotated[
    Annotated[
        RoundOpeningEntry
        | SlotOpeningEntry
        | OvalOpeningEntry
        | BoxOpeningEntry
        | OutlineOpeningEntry
        | GaugedOpeningEntry,
        Field(discriminator="shape", title="opening", description="Shape of the hole; its length runs along the tube."),
    ],
    BeforeValidator(_with_shape),
]

UNKNOWN_OPENING = "unknown"
"""Said of a hole that was seen and not measured: the same as nothing, but said."""


def spread_of_opening_mm(opening: OpeningEntry) -> float:
    """Half the widest range among a hole's sizes: it stands for all of them, as a tolerance does. [mm]"""
    return max(spread_of(getattr(opening, name, None)) for name in ("diameter", "length", "width"))


class InsertEntry(Entry):
    """The rubber or plastic piece in a port, taken square to the line."""

    opening: OpeningEntry
    removable: YesNo
    split: Annotated[
        YesNo | None,
        Field(title="yes or no", description="Whether it opens, so that it is taken apart and not slid along a line."),
    ] = None


def _area_mm2(points: tuple[tuple[float, float], ...]) -> float:
    around = zip(points, (*points[1:], points[0]), strict=True)
    return abs(sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in around)) / 2


def _crossing_sides(points: tuple[tuple[float, float], ...]) -> tuple[int, int] | None:
    """The first two sides that meet although they are not neighbours."""
    sides = list(zip(points, (*points[1:], points[0]), strict=True))
    for first, (a, b) in enumerate(sides):
        for second in range(first + 2, len(sides)):
            if first == 0 and second == len(sides) - 1:
                continue
            c, d = sides[second]
            if _side_of(a, b, c) * _side_of(a, b, d) < 0 and _side_of(c, d, a) * _side_of(c, d, b) < 0:
                return first, second
    return None


def _side_of(a: tuple[float, float], b: tuple[float, float], p: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0])
