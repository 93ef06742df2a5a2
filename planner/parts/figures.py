"""The figures that are read at the bench: of a frame, and of the lines that lie in it."""

from enum import StrEnum

from planner.parts.frame_words import PortLooks
from planner.parts.openings import Opening
from planner.quick_dataclass import dataclass
from planner.read_what import ReadWhat


class LineFigure(StrEnum):
    """The figures of a line, or of a fitting on it, that are read at the bench."""

    OLD_OUTER = "old_outer"
    OLD_CABLE = "old_cable"
    STAYING_OUTER = "staying_outer"
    BORE = "line_bore"
    JOINT_OUTER = "joint_outer"
    JOINT_HOLDS = "joint_holds"


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure of one thing.

    what : which
    id : of the port, run, zone, line or fitting that has it
    of_line : which line of a visit it is the old line's of; "" where the id tells it
    """

    what: ReadWhat | LineFigure
    id: str
    of_line: str = ""

    @property
    def unit(self) -> str:
        """What it counts in; "" for a word."""
        return {ReadWhat.LEAN: "°", ReadWhat.LOOKS: "", LineFigure.JOINT_HOLDS: "N"}.get(self.what, "mm")


@dataclass(frozen=True, slots=True, kw_only=True)
class FigureRead:
    """A figure as it was read.

    value : by its figure [mm, deg or N]; of a hole its opening, of the way it looks the word
    half : plus or minus on a number [mm or deg]; 0 where one number was read
    """

    figure: Figure
    value: float | Opening | PortLooks
    half: float = 0.0
