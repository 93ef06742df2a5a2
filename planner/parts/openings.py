"""The hole in a tube wall: its shape, its tolerance, and how a line leans in it.

Each shape carries its word of the file formats, so that a slot and an oval of the same sizes stay two things when they
are written down and read back.
"""

from typing import Literal

from planner.quick_dataclass import dataclass

__all__ = [
    "BoxOpening",
    "Insert",
    "Opening",
    "OutlineOpening",
    "OvalOpening",
    "RoundOpening",
    "SlotOpening",
    "is_gauged",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundOpening:
    """A drilled or moulded round hole; or what is sure of a hole that a round gauge went into.

    diameter_mm : across the hole [mm]
    tolerance_mm : plus or minus on every dimension [mm]
    is_at_least : whether it is only known to be no smaller, whatever its shape
    """

    diameter_mm: float
    tolerance_mm: float
    shape: Literal["round"] = "round"
    is_at_least: bool = False

    @property
    def words(self) -> str:
        """Shape and sizes as one reads them off the calipers."""
        return f"at least {self.diameter_mm:g} mm" if self.is_at_least else f"round {self.diameter_mm:g} mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class SlotOpening:
    """A slot with round ends; length runs along the tube.

    length_mm : overall, over the round ends [mm]
    width_mm : overall [mm]
    tolerance_mm : plus or minus on every dimension [mm]
    """

    length_mm: float
    width_mm: float
    tolerance_mm: float
    shape: Literal["slot"] = "slot"

    @property
    def words(self) -> str:
        """Shape and sizes as one reads them off the calipers."""
        return f"slot {self.length_mm:g} × {self.width_mm:g} mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class OvalOpening:
    """An ellipse; length runs along the tube.

    length_mm : one axis of the ellipse, end to end [mm]
    width_mm : the other axis [mm]
    tolerance_mm : plus or minus on every dimension [mm]
    """

    length_mm: float
    width_mm: float
    tolerance_mm: float
    shape: Literal["oval"] = "oval"

    @property
    def words(self) -> str:
        """Shape and sizes as one reads them off the calipers."""
        return f"oval {self.length_mm:g} × {self.width_mm:g} mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class BoxOpening:
    """A rectangle with rounded corners; length runs along the tube.

    length_mm : overall [mm]
    width_mm : overall [mm]
    corner_radius_mm : of all four corners; 0 is a sharp corner [mm]
    tolerance_mm : plus or minus on every dimension [mm]
    """

    length_mm: float
    width_mm: float
    corner_radius_mm: float
    tolerance_mm: float
    shape: Literal["box"] = "box"

    @property
    def words(self) -> str:
        """Shape and sizes as one reads them off the calipers."""
        return f"box {self.length_mm:g} × {self.width_mm:g} mm, corners {self.corner_radius_mm:g} mm"


@dataclass(frozen=True, slots=True, kw_only=True)
class OutlineOpening:
    """Any other shape, measured point by point around its edge; x runs along the tube.

    points_mm : corners in order, the last joined to the first [mm]
    tolerance_mm : how far the true edge may lie inside or outside the measured one [mm]
    """

    points_mm: tuple[tuple[float, float], ...]
    tolerance_mm: float
    shape: Literal["outline"] = "outline"

    @property
    def words(self) -> str:
        """Shape and sizes as one reads them off the calipers."""
        return f"outline of {len(self.points_mm)} points"


Opening = RoundOpening | SlotOpening | OvalOpening | BoxOpening | OutlineOpening


def is_gauged(opening: Opening | None) -> bool:
    """Whether a hole is only known to be no smaller than a gauge that went in: what passes that passes, no more.

    opening : None where nobody tried it
    """
    return isinstance(opening, RoundOpening) and opening.is_at_least


@dataclass(frozen=True, slots=True, kw_only=True)
class Insert:
    """The rubber or plastic piece in a port; soft, so it is taken square to the line.

    opening : the hole in the insert
    is_removable : whether it can be taken out for drawing the line through
    is_split : whether it opens and is taken off a line, or only slides along it; None where nobody looked
    """

    opening: Opening
    is_removable: bool
    is_split: bool | None = None
