"""A job: which line is replaced on which frame, from where to where."""

from enum import StrEnum

from planner.parts.brakes import Brake, HubKind
from planner.parts.frame_words import AnchorPart, MovesWith
from planner.parts.frames import Anchor, Frame
from planner.parts.lines import Line, LineEnd
from planner.quick_dataclass import dataclass


class OldMeasured(StrEnum):
    """From where to where an old line was measured."""

    BETWEEN_FITTINGS = "between_fittings"
    """What is seen of it, with both fittings on."""

    CUT_ENDS = "cut_ends"
    """The bare line from cut end to cut end."""

    WITH_FITTINGS = "with_fittings"
    """With both fittings, over all."""


class JobEnd(StrEnum):
    """The two ends of a job's line, by the job file's words."""

    FROM = "from"
    TO = "to"

    @property
    def other(self) -> "JobEnd":
        """The end at the other side."""
        return JobEnd.TO if self is JobEnd.FROM else JobEnd.FROM


@dataclass(frozen=True, slots=True, kw_only=True)
class OldLine:
    """The line in the frame now.

    line : what it is
    from_end, to_end : its ends at the job's two anchors
    brake : the brake it belongs to; None for a bare line
    through : ids of the ports it runs through, where known; empty when not told
    measured_length_mm : measured along the line; None when not measured [mm]
    measured : from where to where that is
    move_from_mm, move_to_mm : how much more line the new outlet at each end asks than the old one; negative for less;
        None where nobody told it [mm]
    is_reached : whether it reached in every posture; None where nobody told it
    """

    line: Line
    from_end: LineEnd
    to_end: LineEnd
    brake: Brake | None = None
    through: tuple[str, ...] = ()
    measured_length_mm: float | None = None
    measured: OldMeasured = OldMeasured.CUT_ENDS
    move_from_mm: float | None = None
    move_to_mm: float | None = None
    is_reached: bool | None = None

    def end_at(self, end: JobEnd) -> LineEnd:
        """The line's end at one end of the job."""
        return self.from_end if end is JobEnd.FROM else self.to_end


@dataclass(frozen=True, slots=True, kw_only=True)
class NewLine:
    """The line that goes in.

    line : what it is
    from_end, to_end : its ends at the job's two anchors
    brake : the brake it belongs to; None for a bare line
    supplied_length_mm : as supplied; None when not measured [mm]
    """

    line: Line
    from_end: LineEnd
    to_end: LineEnd
    brake: Brake | None = None
    supplied_length_mm: float | None = None

    def end_at(self, end: JobEnd) -> LineEnd:
        """The line's end at one end of the job."""
        return self.from_end if end is JobEnd.FROM else self.to_end


@dataclass(frozen=True, slots=True, kw_only=True)
class StayingLine:
    """A line that stays in the frame beside the new one.

    line : what it is
    through : ids of the ports and runs it shares
    """

    line: Line
    through: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One swap.

    id, title : as in the job file
    from_anchor_id, to_anchor_id : where the line starts and ends
    old : the line that comes out; None for an empty frame
    new : the line that goes in
    staying : lines that stay
    staying_at_end : lines beside it once it is ridden; None where they are those that stay
    rotor_mm : rotor diameter wanted; None when not stated [mm]
    rotor_hub : how that rotor sits on its hub; None when not stated
    may_remove_inserts, keeps_old_brake : what the job allows
    tied_on : further lines tied on behind this one's joint and drawn in with it
    """

    id: str
    title: str
    frame: Frame
    from_anchor_id: str
    to_anchor_id: str
    old: OldLine | None
    new: NewLine
    staying: tuple[StayingLine, ...] = ()
    rotor_mm: float | None = None
    rotor_hub: HubKind | None = None
    may_remove_inserts: bool = True
    keeps_old_brake: bool = False
    staying_at_end: tuple[StayingLine, ...] | None = None
    tied_on: tuple[Line, ...] = ()

    @property
    def ridden_beside(self) -> tuple[StayingLine, ...]:
        """The lines beside the new one when it is ridden."""
        return self.staying if self.staying_at_end is None else self.staying_at_end


def ends_of_brake(brake: Brake, *, is_lever_at_from: bool) -> tuple[LineEnd, LineEnd]:
    """The ends of a brake's line at the job's `from` and at its `to`."""
    ends = (brake.lever_end, brake.caliper_end)
    return ends if is_lever_at_from else ends[::-1]


def is_lever_at_from(*, frame: Frame, from_anchor_id: str, to_anchor_id: str) -> bool:
    """Whether the lever end of a brake sits at the job's `from` anchor.

    The lever sits where a lever is told to be; else where the bar turns; where both ends turn with it (a front brake)
    or neither does, at the higher one, and at `from` where they are level or nobody told their places.

    frame : the frame with both anchors
    from_anchor_id, to_anchor_id : where the line starts and ends
    """
    from_end, to_end = frame.anchors[from_anchor_id], frame.anchors[to_anchor_id]
    from_told, to_told = (_is_told_by_hand(end) for end in (from_end, to_end))
    if from_told is not to_told:
        return from_told is True or to_told is False
    from_turns, to_turns = (end.moves_with is MovesWith.BAR for end in (from_end, to_end))
    if from_turns is not to_turns:
        return from_turns
    if from_end.position_mm is None or to_end.position_mm is None:
        return True
    return from_end.position_mm[2] >= to_end.position_mm[2]


def _is_told_by_hand(anchor: Anchor) -> bool | None:
    """Whether the part at an end is one for the hand; None where nobody told what sits there."""
    return None if anchor.part is None else anchor.part in (AnchorPart.LEVER, AnchorPart.SHIFTER)
