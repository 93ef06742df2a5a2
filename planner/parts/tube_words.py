"""The sides of a tube in the words of the bench: top or bottom, left or right, or an hour of the clock."""

from enum import StrEnum

from planner.parts.frames import Point
from planner.quick_dataclass import dataclass


class SideWord(StrEnum):
    """A side of a tube by its word."""

    LEFT = "left"
    RIGHT = "right"
    TOP = "top"
    BOTTOM = "bottom"
    FRONT = "front"
    BACK = "back"


_HOURS = {
    SideWord.TOP: 0.0,
    SideWord.FRONT: 0.0,
    SideWord.RIGHT: 3.0,
    SideWord.BOTTOM: 6.0,
    SideWord.BACK: 6.0,
    SideWord.LEFT: 9.0,
}


@dataclass(frozen=True, slots=True, kw_only=True)
class TubeSide:
    """A side of a tube.

    word : as it was told; None for an hour of the clock
    clock : hour of the clock as the rider sees it: 12 the top (0 too), 3 the right [hours]
    """

    word: SideWord | None
    clock: float

    @property
    def needs_up(self) -> bool:
        """Whether it hangs on which side of the tube is up, or in front: left and right do not."""
        return self.clock % 6 != 3

    @staticmethod
    def of_word(word: SideWord) -> "TubeSide":
        """The side that a word means."""
        return TubeSide(word=word, clock=_HOURS[word])


class TubeEnd(StrEnum):
    """An open end of a tube's cavity, by its path."""

    START = "start"
    END = "end"


@dataclass(frozen=True, slots=True, kw_only=True)
class TubePlace:
    """Where a hole is on its tube. One of `from_start_mm`, `from_end_mm` and `end` is told.

    zone_id : the tube's cavity
    from_start_mm, from_end_mm : along the middle line, from the path's first or last point
    end : where the hole is the tube's open end
    side : of the tube; None for an open end on the middle line
    lean_deg : between the line and the way straight out of the wall; 90 lies along the tube
    off_mm : from the middle line to the hole, where it is not the tube's own wall; None for that
    """

    zone_id: str
    from_start_mm: float | None = None
    from_end_mm: float | None = None
    end: TubeEnd | None = None
    side: TubeSide | None = None
    lean_deg: float = 90.0
    off_mm: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldPort:
    """A hole as far as its place is told.

    joins : the two zones, first and second
    at_mm : where it is, if told by numbers
    on : where it is on its tube; None for a window, or where `at_mm` is told alone
    is_window : whether it is a window between the two cavities that it joins
    wall_mm : of the wall it goes through
    """

    id: str
    joins: tuple[str, str]
    at_mm: Point | None
    on: TubePlace | None
    is_window: bool
    wall_mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Tube:
    """A tube as far as holes on it are told by it.

    path_mm : points along its middle line
    bore_mm : clear inside diameter; None when not measured
    outer_mm : outside from left to right, and from bottom to top; None when not measured
    """

    path_mm: tuple[Point, ...]
    bore_mm: float | None
    outer_mm: tuple[float, float] | None
