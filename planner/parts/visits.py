"""A visit: several lines changed on one frame before it is ridden again."""

from dataclasses import dataclass

from planner.parts.brakes import HubKind
from planner.parts.frames import Frame
from planner.parts.jobs import NewLine, OldLine, StayingLine


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitLine:
    """One line of a visit: changed, only taken out, or only put in.

    id : what the visit calls it
    from_anchor_id, to_anchor_id : where it starts and ends
    old : what comes out; None where nothing lies there
    new : what goes in; None where nothing does
    through : ids of the ports the new line must take where there is no old one; empty for any
    rotor_mm : rotor diameter wanted; None when not stated [mm]
    rotor_hub : how that rotor sits on its hub; None when not stated
    """

    id: str
    from_anchor_id: str
    to_anchor_id: str
    old: OldLine | None
    new: NewLine | None
    through: tuple[str, ...] = ()
    rotor_mm: float | None = None
    rotor_hub: HubKind | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Visit:
    """Several lines of one bicycle in one go.

    id, title : as in the job file
    lines : in the file's order
    staying : lines that nobody touches
    may_remove_inserts, keeps_old_brake : what the job allows
    may_take_out_first : whether an old line may come out before its new one goes in
    first : ids of the lines wanted before all others, in this order
    """

    id: str
    title: str
    frame: Frame
    lines: tuple[VisitLine, ...]
    staying: tuple[StayingLine, ...] = ()
    may_remove_inserts: bool = True
    keeps_old_brake: bool = False
    may_take_out_first: bool = True
    first: tuple[str, ...] = ()
