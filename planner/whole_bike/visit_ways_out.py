"""What would make an order of a visit that has none: each searched anew for all lines, told only where it works."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from enum import StrEnum

from planner.parts import Frame, Visit, VisitLine
from planner.plan.size_changes import LARGEST_GROWTH_MM, STEP_MM, grown_opening
from planner.whole_bike.changes import Change
from planner.whole_bike.reasons import Conflict
from planner.whole_bike.visit_search import WORKS, VisitSearch


class VisitWayOutKind(StrEnum):
    """What would change a visit's no."""

    OTHER_ORDER = "other_order"
    ONE_BY_ONE = "one_by_one"
    TAKE_OUT_FIRST = "take_out_first"
    INSERTS_OUT = "inserts_out"
    OUTSIDE = "outside"
    LARGER_PLACE = "larger_place"
    THINNER_LINE = "thinner_line"


@dataclass(frozen=True, slots=True, kw_only=True)
class VisitWayOut:
    """One change with which all lines go in.

    line_id : the line it is about; None where it is about none
    line_ids : the lines it is about, where these are several
    place_ids : the ports and runs it is about, all of them together
    by_mm : how much larger or thinner; None where it is not about a size [mm]
    split : ids of the lines taken out first even then
    """

    kind: VisitWayOutKind
    line_id: str | None = None
    line_ids: tuple[str, ...] = ()
    place_ids: tuple[str, ...] = ()
    by_mm: float | None = None
    split: tuple[str, ...] = ()


def find_visit_ways_out(*, search: VisitSearch, conflict: Conflict) -> tuple[VisitWayOut, ...]:
    """What would make an order, nearest at hand first; empty where nothing that was tried does.

    Asked are: lines drawn in one by one instead of together, old lines out first and inserts out where the job forbids
    it, each line of the conflict led outside, its places larger, its new lines thinner. Sizes are in steps of 0.05 mm,
    on the safe side; that a thinner line's size is the largest that will do is not claimed, since a joint may no
    longer suit it.

    search : the visit with what is remembered of it, and what is left of the allowance
    conflict : the lines and places that forbid an order
    """
    tried = _Tried(search=search)
    visit = search.visit
    return (
        *_one_by_one(visit, conflict, tried),
        *_settings(visit, tried),
        *_outside(visit, conflict, tried),
        *_larger(visit, conflict, tried),
        *_thinner(visit, conflict, tried),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class _Tried:
    search: VisitSearch

    def order(self, visit: Visit) -> tuple[str, ...] | None:
        """The lines taken out first in an order that works; None where there is none, or the allowance ran out."""
        search = VisitSearch(
            visit=visit, workshop=self.search.workshop, places=self.search.places, changes=self._unchanged(visit)
        )
        for split in (frozenset[str](), *search.splits(lines=visit.lines)):
            _, found = search.find(lines=visit.lines, levels=WORKS[-1:], split=split, any_will_do=True)
            if found.order is not None:
                return tuple(sorted(split))
            if not found.is_whole:
                return None
        return None

    def _unchanged(self, visit: Visit) -> dict[tuple[tuple[str, ...], bool], tuple[Change, ...]]:
        """What is known of lines that are the same on the same frame."""
        asked = self.search.visit
        if visit.frame is not asked.frame or visit.may_remove_inserts is not asked.may_remove_inserts:
            return {}
        same = {line.id for line in visit.lines if any(line is each for each in asked.lines)}
        return {key: changes for key, changes in self.search.changes.items() if same.issuperset(key[0])}


def _one_by_one(visit: Visit, conflict: Conflict, tried: _Tried) -> Iterator[VisitWayOut]:
    for ids in visit.together:
        split = None
        if not conflict.at_the_end and set(ids) & set(conflict.line_ids):
            split = tried.order(replace(visit, together=tuple(each for each in visit.together if each != ids)))
        if split is not None:
            yield VisitWayOut(kind=VisitWayOutKind.ONE_BY_ONE, line_ids=ids, split=split)


def _settings(visit: Visit, tried: _Tried) -> Iterator[VisitWayOut]:
    allowed = replace(visit, may_take_out_first=True)
    split = None if visit.may_take_out_first else tried.order(allowed)
    if split is not None:
        yield VisitWayOut(kind=VisitWayOutKind.TAKE_OUT_FIRST, split=split)
    split = None if visit.may_remove_inserts else tried.order(replace(visit, may_remove_inserts=True))
    if split is not None:
        yield VisitWayOut(kind=VisitWayOutKind.INSERTS_OUT, split=split)


def _outside(visit: Visit, conflict: Conflict, tried: _Tried) -> Iterator[VisitWayOut]:
    """The line is left out of the frame: its old one, where there is one, only comes out."""
    for line in _lines_of(visit, conflict):
        kept = tuple(each for each in visit.lines if each is not line)
        out = (replace(line, new=None),) if line.old is not None else ()
        split = tried.order(replace(visit, lines=(*kept, *out))) if kept else None
        if split is not None:
            yield VisitWayOut(kind=VisitWayOutKind.OUTSIDE, line_id=line.id, split=split)


def _larger(visit: Visit, conflict: Conflict, tried: _Tried) -> Iterator[VisitWayOut]:
    place_ids = conflict.obstacle.places

    def grown(by_mm: float) -> Visit | None:
        frame = visit.frame
        for place_id in place_ids:
            larger = _with_larger_place(frame, place_id, by_mm)
            if larger is None:
                return None
            frame = larger
        return replace(visit, frame=frame)

    if place_ids:
        way = VisitWayOut(kind=VisitWayOutKind.LARGER_PLACE, place_ids=place_ids)
        yield from _least(grown, conflict, tried, way)


def _thinner(visit: Visit, conflict: Conflict, tried: _Tried) -> Iterator[VisitWayOut]:
    for line in _lines_of(visit, conflict):

        def thinned(by_mm: float, line: VisitLine = line) -> Visit | None:
            thin = _with_thinner_line(line, by_mm)
            lines = tuple(each if each is not line or thin is None else thin for each in visit.lines)
            return None if thin is None else replace(visit, lines=lines)

        yield from _least(thinned, conflict, tried, VisitWayOut(kind=VisitWayOutKind.THINNER_LINE, line_id=line.id))


def _least(
    changed: Callable[[float], Visit | None], conflict: Conflict, tried: _Tried, way: VisitWayOut
) -> Iterator[VisitWayOut]:
    """The least size, in steps, with which the lines of the conflict have an order, where all lines have one then."""

    def visit_of(steps_n: int) -> Visit | None:
        return changed(round(steps_n * STEP_MM, 6))

    def works(steps_n: int) -> bool:
        visit = visit_of(steps_n)
        if visit is None:
            return False
        some = tuple(line for line in visit.lines if line.id in conflict.line_ids)
        return tried.order(replace(visit, lines=some)) is not None

    high = 1
    while not works(high):
        high *= 2
        if high * STEP_MM > LARGEST_GROWTH_MM or visit_of(high) is None:
            return
    low = high // 2
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if works(middle) else (middle, high)
    visit = visit_of(high)
    split = None if visit is None else tried.order(visit)
    if split is not None:
        yield replace(way, by_mm=round(high * STEP_MM, 2), split=split)


def _lines_of(visit: Visit, conflict: Conflict) -> tuple[VisitLine, ...]:
    return tuple(line for line in visit.lines if line.id in conflict.line_ids and line.new is not None)


def _with_larger_place(frame: Frame, place_id: str, by_mm: float) -> Frame | None:
    """The frame with one hole or guide larger; None where the place has no size of its own."""
    if place_id in frame.ports:
        port = frame.ports[place_id]
        if port.opening is None:
            return None
        larger = replace(port, opening=grown_opening(port.opening, by_mm))
        if larger.insert is not None:
            insert = replace(larger.insert, opening=grown_opening(larger.insert.opening, by_mm))
            larger = replace(larger, insert=insert)
        return replace(frame, ports={**frame.ports, place_id: larger})
    run = frame.runs[place_id]
    if run.guide is None:
        return None
    guide = replace(run.guide, bore_diameter_mm=round(run.guide.bore_diameter_mm + by_mm, 6))
    return replace(frame, runs={**frame.runs, place_id: replace(run, guide=guide)})


def _with_thinner_line(line: VisitLine, by_mm: float) -> VisitLine | None:
    """The line with a thinner new one; None where nothing would be left round its bore."""
    if line.new is None:
        return None
    old = line.new.line
    diameter_mm = round(old.outer_diameter_mm - by_mm, 6)
    least_mm = (old.bore_diameter_mm or 0.0) + 2 * old.outer_tolerance_mm
    if diameter_mm <= least_mm:
        return None
    thin = replace(old, outer_diameter_mm=diameter_mm, foam_diameter_mm=None)
    return replace(line, new=replace(line.new, line=thin))
