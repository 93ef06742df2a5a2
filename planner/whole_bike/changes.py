"""What a visit changes: each line with its ways, and each way with the manners that lead it in."""

from dataclasses import dataclass
from enum import StrEnum

from planner.parts import Job
from planner.plan.options import Candidate
from planner.verdicts import Outcome, Room
from planner.whole_bike.lyings import Lying
from planner.whole_bike.place_book import Size

Value = tuple[int, ...]
"""What orders are compared by, the less the better: lines resting on something unmeasured, lines that leave the old
one's way, lines pushed only, lines eased, thousandths of minutes, hundredths of millimetres."""

NO_COST: Value = (0, 0, 0, 0, 0, 0)


MINUTES = 4
"""The place of the minutes in a value."""


class StepKind(StrEnum):
    """What happens to a line at one step of the order."""

    SWAP = "swap"
    IN = "in"
    OUT = "out"


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A thing that a place is asked about, beside whatever lies there.

    place_id : port or run
    room : the place as it is at that moment
    size : of the thing
    """

    place_id: str
    room: Room
    size: Size


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Manner:
    """A method from one end, as far as it does not depend on the other lines.

    candidate : what the single planner knows of it
    value : with nothing unmeasured
    alone : worst of what does not look at other lines: stiff pieces, bends, kinds, ends
    drawing : what is asked of the places while it is drawn
    """

    candidate: Candidate
    value: Value
    alone: Outcome
    drawing: tuple[Asked, ...]


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Way:
    """One way of a new line through the frame, or its going out.

    job : the line's own job on this way; None where nothing goes in
    through : ids of the ports and runs it lies in, as a line that stays would be told
    new : how it lies afterwards; None where nothing does
    manners : best first
    riding : what is asked of the places at the end
    """

    job: Job | None = None
    through: tuple[str, ...] = ()
    new: Lying | None = None
    manners: tuple[Manner, ...] = ()
    riding: tuple[Asked, ...] = ()


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Change:
    """One step of a visit, before its place in the order is known.

    line_id : the line it is done to
    kind : what is done
    old : how the old line lies until then; None where nothing does
    old_through : ids of its ports and runs, as a line that stays would be told
    ways : what may be chosen
    """

    line_id: str
    kind: StepKind
    old: Lying | None
    old_through: tuple[str, ...]
    ways: tuple[Way, ...]
