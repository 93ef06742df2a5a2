"""The old line as the measure of the new one: what of it was seen between its fittings, and what speaks against it."""

from collections.abc import Iterator

from planner.parts import Job, LineEnd, OldLine, OldMeasured, SetBy, ShopLimits
from planner.quick_dataclass import dataclass
from planner.rules import OldLineRule
from planner.verdicts import Check, Outcome, State


@dataclass(frozen=True, slots=True, kw_only=True)
class OldLineLength:
    """What the old line says of the new one.

    need_mm : what lies free between the fittings of the new line; None where the old line cannot tell it [mm]
    questions : what speaks against it, or must be seen to before anything is cut by it
    """

    need_mm: float | None = None
    questions: tuple[Check, ...] = ()


def find_visible_mm(old: OldLine) -> float | None:
    """How much of the old line lies free between its fittings; None where that was not measured or cannot be told.

    Source: plane arithmetic; how deep a line goes into its fittings is catalog data.
    """
    if old.measured_length_mm is None:
        return None
    ends = (old.from_end, old.to_end)
    if old.measured is OldMeasured.BETWEEN_FITTINGS:
        return old.measured_length_mm
    if old.measured is OldMeasured.WITH_FITTINGS:
        taken_mm = sum(0.0 if end.fitting is None else end.fitting.length_mm for end in ends)
    else:
        depths_mm = [_depth_mm(end) for end in ends]
        if None in depths_mm:
            return None
        taken_mm = sum(depth_mm or 0.0 for depth_mm in depths_mm)
    visible_mm = old.measured_length_mm - taken_mm
    return visible_mm if visible_mm > 0 else None


def moved_mm(old: OldLine) -> float:
    """How much more line both new outlets ask together; 0 where nobody told it. [mm]"""
    return (old.move_from_mm or 0.0) + (old.move_to_mm or 0.0)


def _depth_mm(end: LineEnd) -> float | None:
    """How far a line goes into its end; None for one set at the factory that does not say."""
    if end.fitting is None:
        return 0.0
    depth_mm = end.fitting.insertion_depth_mm
    return None if depth_mm == 0 and end.fitting.set_by is SetBy.FACTORY else depth_mm


def find_old_line_length(*, job: Job, leaves_old_way: bool, limits: ShopLimits) -> OldLineLength:
    """The need of the new line, as the old one lay.

    Holds where the new line takes the way of the old one, and may be bent as tightly.

    leaves_old_way : whether the new line is known to take another way
    limits : how far outlets are taken to lie apart where nobody measured them
    """
    old = job.old
    if old is None or old.measured_length_mm is None:
        return OldLineLength()
    visible_mm = find_visible_mm(old)
    stops = list(_stops(old, visible_mm, leaves_old_way))
    if stops or visible_mm is None:
        return OldLineLength(questions=tuple(_question(rule, old.measured_length_mm) for rule in stops))
    need_mm = visible_mm + moved_mm(old)
    if need_mm <= 0:
        return OldLineLength(questions=(_question(OldLineRule.TOO_SHORT, old.measured_length_mm),))
    return OldLineLength(need_mm=need_mm, questions=tuple(_asked(job, old, limits)))


def _stops(old: OldLine, visible_mm: float | None, leaves_old_way: bool) -> Iterator[OldLineRule]:
    """Why nothing can be cut by the old line."""
    if visible_mm is None:
        is_deep = old.measured is OldMeasured.CUT_ENDS and None in (_depth_mm(old.from_end), _depth_mm(old.to_end))
        yield OldLineRule.DEPTH if is_deep else OldLineRule.TOO_SHORT
    if leaves_old_way:
        yield OldLineRule.OTHER_WAY
    if old.is_reached is False:
        yield OldLineRule.NOT_REACHED


def _asked(job: Job, old: OldLine, limits: ShopLimits) -> Iterator[Check]:
    """What must be seen to though the old line tells the length."""
    is_other_brake = job.new.brake is not None and (old.brake is None or old.brake.id != job.new.brake.id)
    if is_other_brake and old.move_from_mm is None and old.move_to_mm is None:
        yield _question(OldLineRule.MOVE, old.measured_length_mm, limits.outlet_move_mm)
    if job.new.line.minimum_bend_radius_mm > old.line.minimum_bend_radius_mm:
        yield _question(OldLineRule.BEND, job.new.line.minimum_bend_radius_mm, old.line.minimum_bend_radius_mm)
    if old.is_reached is None and (job.frame.bar is not None or job.frame.rear is not None or _moves(job)):
        yield _question(OldLineRule.REACHED, old.measured_length_mm)


def _moves(job: Job) -> bool:
    ends = (job.frame.anchors[job.from_anchor_id], job.frame.anchors[job.to_anchor_id])
    return ends[0].moves_with is not ends[1].moves_with


def _question(rule: OldLineRule, size_mm: float | None, available_mm: float | None = None) -> Check:
    return Check(rule=rule, outcome=Outcome.UNKNOWN, state=State.RIDING, size_mm=size_mm, available_mm=available_mm)
