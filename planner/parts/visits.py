"""A visit: several lines changed on one frame before it is ridden again."""

from collections.abc import Iterable

from planner.parts.brakes import HubKind
from planner.parts.frames import Frame
from planner.parts.jobs import NewLine, OldLine, StayingLine
from planner.quick_dataclass import dataclass


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
    together : ids of lines drawn in with one draw; at most one of each such set has an old line, which then draws
    before : pairs of ids: the first is wanted before the second
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
    together: tuple[tuple[str, ...], ...] = ()
    before: tuple[tuple[str, str], ...] = ()

    def units(self, lines: Iterable[VisitLine]) -> tuple[tuple[VisitLine, ...], ...]:
        """Some of the lines, those drawn in with one draw side by side; a line by itself is one of its own.

        A line that is only taken out, or whose partners are not asked for, goes by itself. Of lines drawn in together
        the one with an old line stands first, the others by name.
        """
        lines = tuple(lines)
        with_it = {line_id: ids for ids in self.together for line_id in ids}
        units: dict[tuple[str, ...], tuple[VisitLine, ...]] = {}
        for line in lines:
            ids = with_it.get(line.id, ()) if line.new is not None else ()
            some = tuple(each for each in lines if each.id in ids and each.new is not None) or (line,)
            units[tuple(each.id for each in some)] = tuple(sorted(some, key=lambda each: (each.old is None, each.id)))
        return tuple(units.values())
