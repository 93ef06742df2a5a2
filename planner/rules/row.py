"""What is known of every rule: what it measures and of what, when it is asked, and what it says for each outcome."""

from collections.abc import Mapping
from enum import StrEnum

from planner.outcomes import Outcome, State
from planner.quick_dataclass import dataclass

FITS, TIGHT, UNKNOWN, NO_FIT = Outcome.FITS, Outcome.TIGHT, Outcome.UNKNOWN, Outcome.NO_FIT
WHILE_DRAWING, WHILE_RIDING, AT_BOTH_MOMENTS = (State.DRAWING,), (State.RIDING,), (State.DRAWING, State.RIDING)


class Measure(StrEnum):
    """What the size, room and clearance of a rule are."""

    DIAMETER = "diameter"
    STIFF_LENGTH = "stiff length"
    LENGTH = "length"
    RADIUS = "radius"
    HEIGHT = "height"
    REACH = "reach"
    FORCE = "force"
    PART = "part"

    @property
    def is_spare_length(self) -> bool:
        """Whether the clearance is a spare length or radius, which is never compared with a gap on a diameter."""
        return self not in (Measure.DIAMETER, Measure.FORCE, Measure.PART)


class About(StrEnum):
    """What a rule is asked of."""

    HOLE = "hole"
    WALL = "wall"
    GUIDE = "guide"
    CAVITY = "cavity"
    LEG = "leg"
    JOINT = "joint"
    END = "end"
    PARTS = "parts"
    JOB = "job"


class Suits(StrEnum):
    """Which room is the better one where two ways are equal in all else."""

    NEITHER = "neither"
    LITTLE_ROOM = "little room"
    MUCH_ROOM = "much room"


Answer = Outcome | tuple[Outcome, str]
"""An outcome; or an outcome with the note that makes it another sentence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One rule in one row.

    measures : what its numbers are
    about : what it is asked of
    asked : the moments it is asked about; none where it is not about a moment
    suits : which room is better, for ties
    says : its sentence for each answer it gives, with {whose}, {piece}, {place}, {size}, {available}, {clearance},
        {missing}, {worst}, {beside}, {with} and {note} to be filled in; {whose} names a fitting, {piece} a stiff piece
        with its length
    """

    measures: Measure
    about: About
    says: Mapping[Answer, str]
    asked: tuple[State, ...] = ()
    suits: Suits = Suits.NEITHER

    @property
    def is_gap_round_a_line(self) -> bool:
        """Whether its clearance is that of a hole or guide that decides a plan, rather than of a whole cavity."""
        return self.measures is Measure.DIAMETER and self.about in (About.HOLE, About.GUIDE)

    def sentence(self, outcome: Outcome, note: str) -> str:
        """The sentence for an answer, unfilled.

        Raises KeyError for an answer that the rule does not give.
        """
        return self.says[(outcome, note) if (outcome, note) in self.says else outcome]


class RuleOfTopic(StrEnum):
    """A rule by its word in the file formats, with its row. The rules stand in the enums of their topics."""

    row: Row

    def __new__(cls, word: str, row: Row) -> "RuleOfTopic":
        """The word is the value; the row goes with it."""
        rule = str.__new__(cls, word)
        rule._value_ = word
        rule.row = row
        return rule

    @property
    def is_about_hole(self) -> bool:
        """Whether it is asked of a hole, which can be drawn with what lies in it."""
        return self.row.about is About.HOLE and self.row.measures is Measure.DIAMETER
