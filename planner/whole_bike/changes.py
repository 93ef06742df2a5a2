"""What a visit changes: each line with its ways, and each way with the manners that lead it in."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from planner.parts import Job, Method
from planner.plan.options import Candidate
from planner.verdicts import Outcome, Room
from planner.whole_bike.lyings import Lying, always_there, is_nowhere_more
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


ChangeId = tuple[str, StepKind]
"""A line by its id, the first of those drawn in together, and what is done to it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A thing that a place is asked about, beside whatever lies there.

    place_id : port or run
    room : the place as it is at that moment
    size : of the thing
    behind : sizes of the lines it follows in the same draw, which lie there already
    """

    place_id: str
    room: Room
    size: Size
    behind: tuple[Size, ...] = ()


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Led:
    """One line as a manner leads it in.

    line_id : which
    candidate : what the single planner knows of it
    methods : that it was asked with; None for all of the workshop
    """

    line_id: str
    candidate: Candidate
    methods: tuple[Method, ...] | None = None


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Manner:
    """A method from one end, as far as it does not depend on the other lines.

    led : the line; of lines drawn in together all of them, in the order in which they follow each other
    value : with nothing unmeasured
    alone : worst of what does not look at other lines: stiff pieces, bends, kinds, ends
    drawing : what is asked of the places while it is drawn
    """

    led: tuple[Led, ...]
    value: Value
    alone: Outcome
    drawing: tuple[Asked, ...]


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class LineWay:
    """One new line on one way.

    line_id : which
    job : its own job on this way
    through : ids of the ports and runs it lies in, as a line that stays would be told
    lying : how it lies afterwards
    riding : what is asked of the places at the end
    """

    line_id: str
    job: Job
    through: tuple[str, ...]
    lying: Lying
    riding: tuple[Asked, ...]


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Way:
    """One way of a new line through the frame, or of several drawn in together; or their going out.

    lines : empty where nothing goes in
    manners : best first
    """

    lines: tuple[LineWay, ...] = ()
    manners: tuple[Manner, ...] = ()

    @property
    def new(self) -> tuple[Lying, ...]:
        """How the new lines lie afterwards."""
        return tuple(line.lying for line in self.lines)

    @property
    def riding(self) -> tuple[Asked, ...]:
        """What is asked of the places at the end."""
        return tuple(asked for line in self.lines for asked in line.riding)


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class Change:
    """One step of a visit, before its place in the order is known.

    line_ids : the line it is done to; of lines drawn in together all of them, the one with an old line first
    kind : what is done
    old : how the old line lies until then; None where nothing does
    old_through : ids of its ports and runs, as a line that stays would be told
    ways : what may be chosen
    """

    line_ids: tuple[str, ...]
    kind: StepKind
    old: Lying | None
    old_through: tuple[str, ...]
    ways: tuple[Way, ...]

    @property
    def id(self) -> ChangeId:
        """What it goes by."""
        return self.line_ids[0], self.kind


def shrinks(old: Lying | None, new: Sequence[Lying]) -> bool:
    """Whether the others never meet more of a change afterwards than before."""
    return not new or (len(new) == 1 and is_nowhere_more(new[0], old))


def grows(old: Lying | None, new: Sequence[Lying]) -> bool:
    """Whether the others never meet less of a change afterwards than before, and it does not shrink."""
    return not shrinks(old, new) and (old is None or any(is_nowhere_more(old, each) for each in new))


def least_met(old: Lying | None, new: Sequence[Lying]) -> Lying | None:
    """What the others meet of a change at every moment, at the least; None where that may be nothing."""
    return always_there(old, new[0]) if new else None
